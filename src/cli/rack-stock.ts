import { existsSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { type Job, type Plan, type Problem, rackTaken, withRack } from '../index.ts';
import type { Settings } from './options.ts';
import { readExistingRack } from './rack-file.ts';
import { isBelow, printProblems } from './read-job.ts';
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
  const name = settings.rack ?? namedRack(world, partsName, job) ?? usualRack(world, partsName);
  if (name === null || name === NO_RACK) return { job, notes: () => [] };
  const { rack } = readExistingRack(world, name);
  const racked = withRack(job, rack);
  printProblems(world, name, racked.problems);
  if (racked.problems.length > 0) throw new CommandFailure(EXIT.usage, `${name}: nothing planned`);
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
  printProblems(world, partsName, [problem]);
  throw new CommandFailure(EXIT.usage, `${partsName}: nothing planned`);
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
