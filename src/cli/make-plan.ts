import {
  type Effort,
  type Job,
  type Plan,
  type PlanResult,
  type Progress,
  planJob,
} from '../index.ts';
import type { Settings } from './options.ts';
import { printProblems } from './read-job.ts';
import { CommandFailure, EXIT, type World } from './world.ts';

const PROGRESS_EVERY_MS = 200;

/** The plan of a job. Where some piece fits no sheet its problems are printed and the command ends. */
export function makePlan(world: World, name: string, job: Job, settings: Settings): Plan {
  const result = tryPlan(world, job, settings);
  if (result.plan !== null) return result.plan;
  printProblems(world, name, result.problems);
  throw new CommandFailure(EXIT.usage, `${name}: nothing planned`);
}

/** Plans a job with the search options of the command line; a progress line shows on a terminal where it takes long. */
export function tryPlan(world: World, job: Job, settings: Settings): PlanResult {
  const started = world.now();
  const seconds = settings.seconds === undefined ? null : Number(settings.seconds);
  const progress = progressLine(world, job);
  const result = planJob(
    job,
    { effort: settings.effort as Effort, seed: Number(settings.seed), seconds },
    {
      shouldStop: () => seconds !== null && world.now() - started >= seconds * 1000,
      onProgress: progress.show,
    },
  );
  progress.clear();
  return result;
}

function progressLine(world: World, job: Job): { show: (p: Progress) => void; clear: () => void } {
  let last = world.now();
  let shown = false;
  return {
    show: ({ material, used, atLeast, workLeft }) => {
      if (!world.errIsTerminal || world.now() - last < PROGRESS_EVERY_MS) return;
      last = world.now();
      shown = true;
      const left = Math.round(workLeft * 100);
      const line = `${job.materials[material]?.id}: ${used} so far, at least ${atLeast}, ${left} % of the work left`;
      world.err(`\r\u001b[K${line.slice(0, 78)}`);
    },
    clear: () => {
      if (shown) world.err('\r\u001b[K');
    },
  };
}
