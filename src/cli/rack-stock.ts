import { existsSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { type Job, type Plan, type Problem, rackTaken, withRack } from '../index.ts';
import { isBelow } from './drawing-reader.ts';
import type { Settings } from './options.ts';
import { readExistingRack } from './rack-file.ts';
import { CommandFailure, EXIT, type World } from './world.ts';

/** The name of a rack beside its parts file, and in the current folder. */
export const USUAL_RACK = 'rack.yaml';

/** In place of a file: plans without a rack. */
export const NO_RACK = 'none';

/** The job with what is on the rack, and what is to be said of that beside a plan. */
export interface RackStock {
  readonly job: Job;
  readonly notes: (plan: Plan) => readonly string[];
}

/** Adds the rack to the stock of a job: the one that was asked for, else that of the parts file, else the one beside it, if there is one. */
export function rackStock(
  world: World,
  partsName: string,
  job: Job,
  settings: Settings,
): RackStock {
  const name = rackName(world, partsName, job, settings);
  if (name === null) return { job, notes: () => [] };
  const { rack } = readExistingRack(world, name);
  const racked = withRack(job, rack);
  const { problems } = racked;
  if (problems.length > 0)
    throw new CommandFailure(EXIT.usage, `${name}: nothing planned`, { file: name, problems });
  const { offered, passedOver } = racked;
  return {
    job: racked.job,
    notes: (plan) => {
      const taken = plan.layouts.flatMap((layout) => rackTaken(plan, layout));
      const own = rack.entries
        .filter(({ id, from }) => taken.includes(id) && from.job === job.name)
        .map(({ id }) => id);
      return [
        `Rack ${name}: ${takenText(offered, taken)}`,
        ...(own.length === 0
          ? []
          : [`From a plan of this very job: ${own.join(', ')}. --rack none plans without.`]),
        ...(passedOver.length === 0
          ? []
          : [`Not of the same thickness as the material, so left: ${passedOver.join(', ')}.`]),
      ];
    },
  };
}

/** The job with the offcuts of these labels as stock, used or not: they are what a plan was made from. The rack is read only where there are labels. */
export function rackOfPlan(
  world: World,
  partsName: string,
  job: Job,
  settings: Settings,
  labels: readonly string[],
): Job {
  const name = labels.length === 0 ? null : rackName(world, partsName, job, settings);
  if (name === null) return job;
  const { rack } = readExistingRack(world, name);
  const entries = rack.entries
    .filter(({ id }) => labels.includes(id))
    .map((entry) => ({ ...entry, used: null }));
  return withRack(job, { ...rack, entries }).job;
}

/** Null where the job is to do without a rack. */
function rackName(world: World, partsName: string, job: Job, settings: Settings): string | null {
  const name = settings.rack ?? namedRack(world, partsName, job) ?? usualRack(world, partsName);
  return name === NO_RACK ? null : name;
}

/** As drawings, a rack that a parts file names lies beside or below it, so that a file from elsewhere cannot look around. */
function namedRack(world: World, partsName: string, { rack }: Job): string | null {
  if (rack === null || rack.name === NO_RACK) return rack?.name ?? null;
  const [folder, name] = [dirname(partsName), join(dirname(partsName), rack.name)];
  const path = resolve(world.cwd, folder, rack.name);
  const isThere = existsSync(path);
  if (isThere && isBelow(resolve(world.cwd, folder), path)) return name;
  const problem: Problem = {
    severity: 'error',
    code: isThere ? 'rack-not-allowed' : 'rack-missing',
    place: rack.place,
    path: 'rack',
    message: isThere
      ? `the rack "${rack.name}" is not beside or below the parts file`
      : `there is no rack "${rack.name}"`,
    hint: isThere
      ? 'on the command line --rack takes one from anywhere'
      : `the name counts from the folder of the parts file; holdfast offcuts add --rack ${name} makes one`,
  };
  const found = { file: partsName, problems: [problem] };
  throw new CommandFailure(EXIT.usage, `${partsName}: nothing planned`, found);
}

function usualRack(world: World, partsName: string): string | null {
  const beside = join(dirname(partsName), USUAL_RACK);
  return existsSync(resolve(world.cwd, beside)) ? beside : null;
}

function takenText(offered: number, taken: readonly string[]): string {
  if (offered === 0) return 'nothing on it for this job.';
  const offcuts = offered === 1 ? '1 offcut' : `${offered} offcuts`;
  if (taken.length === 0) return `${offcuts} for this job, none is needed.`;
  return `${offcuts} for this job, taken: ${taken.join(', ')}. holdfast offcuts use marks them.`;
}
