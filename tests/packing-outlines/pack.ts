import type { Job } from '../../src/model/job.ts';
import { packingTask } from '../../src/packing/bodies.ts';
import { packOutlines } from '../../src/packing/outlines/pack-outlines.ts';
import { seededRandom } from '../../src/packing/random.ts';
import type { Candidate, PackingTask } from '../../src/packing/task.ts';
import { WorkBudget } from '../../src/packing/work.ts';

export interface Run {
  readonly task: PackingTask;
  readonly candidate: Candidate;
  /** All candidates that were reported on the way. */
  readonly found: readonly Candidate[];
  readonly workLeft: number;
}

export interface RunInput {
  readonly work?: number;
  readonly seed?: number;
  readonly atLeast?: number;
  readonly track?: number;
  /** Without sheets if left out. */
  readonly start?: Candidate;
}

/** Packs the first material of a job; by default with little work and no bound to stop at. */
export function runJob(job: Job, input: RunInput = {}): Run {
  return runTask(packingTask(job, 0), input);
}

export function runTask(task: PackingTask, input: RunInput = {}): Run {
  const { work = 1e6, seed = 1, atLeast = 0, track = 0 } = input;
  const nothing = { sheets: [], unplaced: task.bodies.map(({ index }) => index) };
  const budget = new WorkBudget(work);
  const found: Candidate[] = [];
  const candidate = packOutlines(task, {
    random: seededRandom(seed),
    budget,
    atLeast,
    track,
    start: input.start ?? nothing,
    found: (better) => found.push(better),
  });
  return { task, candidate, found, workLeft: budget.left };
}
