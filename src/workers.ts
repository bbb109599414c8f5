import { resourceLimits, Worker } from 'node:worker_threads';
import { AssertionError } from './geometry/assert.ts';
import type { Job } from './model/job.ts';
import { packingTask } from './packing/bodies.ts';
import { type Packing, type PackOptions, searchTurns, turnWatch } from './packing/pack.ts';
import type { Turn, TurnResult, TurnWatch } from './packing/turns.ts';
import type { Packer } from './plan.ts';
import type { WorkerAnswer, WorkerRequest } from './worker-entry.ts';

/** Threads that search together, one material after the other, until they are closed. */
export interface Crew {
  readonly pack: Packer;
  /** From now on every search stops as soon as it asks, and gives the best it has. */
  readonly stop: () => void;
  readonly close: () => Promise<void>;
}

/** Whatever runs one turn at a time. */
export type TurnRunner = (turn: Turn, report: TurnWatch['report']) => Promise<TurnResult>;

interface Thread {
  readonly ready: Promise<unknown>;
  readonly begin: (job: Job, material: number) => void;
  readonly run: TurnRunner;
  readonly end: () => Promise<unknown>;
}

/** Starts the threads; null where none can be had, for example because the sources are not built. */
export async function startCrew(count: number): Promise<Crew | null> {
  const stop = new Int32Array(new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT));
  const threads: Thread[] = [];
  const close = async () => {
    await Promise.all(threads.map((thread) => thread.end()));
  };
  try {
    for (let i = 0; i < count; i++) threads.push(startThread(stop));
    await Promise.all(threads.map(({ ready }) => ready));
  } catch {
    await close();
    return null;
  }
  const pack: Packer = (job, material, options) => {
    for (const thread of threads) thread.begin(job, material);
    return packWith(
      threads.map(({ run }) => run),
      job,
      material,
      options,
    );
  };
  return { pack, stop: () => void Atomics.store(stop, 0, 1), close };
}

/** The same search as `pack`, whatever the number of runners and whichever of them is done first. */
export async function packWith(
  runners: readonly TurnRunner[],
  job: Job,
  material: number,
  options: PackOptions,
): Promise<Packing> {
  const task = packingTask(job, material);
  const search = searchTurns(task, options);
  const watch = turnWatch(task, options);
  let step = search.next();
  while (!step.done) step = search.next(await runAll(step.value, runners, watch));
  return step.value;
}

/** Each runner takes the next turn as soon as it is free, until it is stopped; the results stand in the order of the turns. */
async function runAll(
  turns: readonly Turn[],
  runners: readonly TurnRunner[],
  watch: (turn: Turn) => TurnWatch,
): Promise<readonly TurnResult[]> {
  const results: TurnResult[] = [];
  const queue = turns.entries();
  const work = async (run: TurnRunner) => {
    for (const [i, turn] of queue) {
      const result = await run(turn, watch(turn).report);
      results[i] = result;
      if (result.stopped) break;
    }
  };
  await Promise.all(runners.map(work));
  return results;
}

function startThread(stop: Int32Array): Thread {
  const { maxOldGenerationSizeMb } = resourceLimits;
  const worker = new Worker(new URL('./worker-entry.js', import.meta.url), {
    workerData: stop,
    resourceLimits: maxOldGenerationSizeMb === undefined ? {} : { maxOldGenerationSizeMb },
  });
  let failure: Error | null = null;
  let waiting: { resolve: (result: TurnResult) => void; reject: (error: Error) => void } | null =
    null;
  let tell: TurnWatch['report'] = () => {};
  const fail = (error: Error) => {
    failure ??= error;
    waiting?.reject(failure);
  };
  worker.on('message', (answer: WorkerAnswer) => {
    if (answer.kind === 'report') tell(answer);
    if (answer.kind === 'result') waiting?.resolve(answer.result);
    if (answer.kind === 'failure') fail(errorOf(answer));
  });
  worker.on('error', fail);
  worker.on('exit', () => fail(new Error('a thread of the search ended early')));
  const ask = (request: WorkerRequest) => worker.postMessage(request);
  return {
    ready: new Promise((resolve, reject) => {
      worker.once('message', resolve);
      worker.once('exit', () => reject(failure));
    }),
    begin: (job, material) => ask({ kind: 'material', job, material }),
    run: (turn, report) =>
      new Promise((resolve, reject) => {
        tell = report;
        waiting = { resolve, reject };
        if (failure === null) ask({ kind: 'turn', turn });
        else reject(failure);
      }),
    end: () => worker.terminate(),
  };
}

/** What was thrown in a thread, as the same kind of error here: one kind is our mistake, and its trace is worth keeping. */
function errorOf({
  isAssertion,
  message,
  stack,
}: Extract<WorkerAnswer, { kind: 'failure' }>): Error {
  const error = isAssertion ? new AssertionError(message) : new Error(message);
  error.stack = stack;
  return error;
}
