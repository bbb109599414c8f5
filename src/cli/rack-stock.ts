import { existsSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { type Job, type Plan, rackTaken, withRack } from '../index.ts';
import type { Settings } from './options.ts';
import { readExistingRack } from './rack-file.ts';
import { printProblems } from './read-job.ts';
import { CommandFailure, EXIT, type World } from './world.ts';

/** The name of a rack beside its parts file, and in the current folder. */
export const USUAL_RACK = 'rack.yaml';

/** The job with what is on the rack, and what is to be said of that beside a plan. */
export interface RackStock {
  readonly job: Job;
  readonly notes: (plan: Plan) => readonly string[];
}

/** Adds the rack to the stock of a job: the one that was asked for, else the one beside the parts file, if there is one. */
export function rackStock(
  world: World,
  partsName: string,
  job: Job,
  settings: Settings,
): RackStock {
  const name = settings.rack ?? usualRack(world, partsName);
  if (name === null || name === 'none') return { job, notes: () => [] };
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
