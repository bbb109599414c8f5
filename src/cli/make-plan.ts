import {
  type Effort,
  type Job,
  type Plan,
  type PlanResult,
  planJob,
  type StopCause,
  startCrew,
} from '../index.ts';
import type { Settings } from './options.ts';
import { progressLine } from './progress-line.ts';
import { printProblems } from './read-job.ts';
import { CommandFailure, EXIT, type World } from './world.ts';

/** The plan of a job. Where some piece fits no sheet its problems are printed and the command ends. */
export async function makePlan(
  world: World,
  name: string,
  job: Job,
  settings: Settings,
): Promise<Plan> {
  const result = await tryPlan(world, job, settings);
  if (result.plan !== null) return result.plan;
  printProblems(world, name, result.problems);
  throw new CommandFailure(EXIT.usage, `${name}: nothing planned`);
}

/**
 * Plans a job with the search options of the command line; a progress line shows on a terminal where it takes long.
 * Throws `CommandFailure` where the person stops the search before it has a layout of every material.
 */
export async function tryPlan(world: World, job: Job, settings: Settings): Promise<PlanResult> {
  const seconds = settings.seconds === undefined ? null : Number(settings.seconds);
  const options = { effort: settings.effort as Effort, seed: Number(settings.seed), seconds };
  const progress = progressLine(world, job);
  const overtime = clockStop(world, seconds);
  const crew = world.hasThreads ? await startCrew(Number(settings.workers)) : null;
  let cause: StopCause | null = null;
  const stop = (why: StopCause) => {
    cause ??= why;
    crew?.stop();
  };
  const timer = seconds === null ? undefined : setTimeout(stop, overtime.leftMs(), 'time');
  const deafen = world.onInterrupt(() => stop('interrupt'));
  if (world.interrupts() > 0) stop('interrupt');
  try {
    const result = await planJob(job, options, {
      pack: crew?.pack ?? null,
      stopCause: () => {
        if (world.interrupts() > 0) cause ??= 'interrupt';
        if (overtime.leftMs() <= 0) cause ??= 'time';
        return cause;
      },
      onProgress: progress.show,
    });
    if (result.plan !== null) checkFound(result.plan);
    return result;
  } finally {
    clearTimeout(timer);
    deafen();
    progress.clear();
    await crew?.close();
  }
}

/** The exit code of a command that printed or wrote a plan. */
export function exitCodeOf({ stopped }: Plan, otherwise: number): number {
  return stopped === 'interrupt' ? EXIT.interrupted : otherwise;
}

function clockStop(world: World, seconds: number | null): { readonly leftMs: () => number } {
  const started = world.now();
  const endMs = seconds === null ? Number.POSITIVE_INFINITY : seconds * 1000;
  return { leftMs: () => endMs - (world.now() - started) };
}

function checkFound({ stopped, layouts }: Plan): void {
  const isMissing = layouts.some(
    ({ sheets, unplaced }) => sheets.length === 0 && unplaced.length > 0,
  );
  if (stopped === 'interrupt' && isMissing)
    throw new CommandFailure(EXIT.interrupted, 'stopped before any layout was found');
}
