import type { Job } from '../model/job.ts';
import type { Bound, Layout } from '../model/layout.ts';
import type { Effort } from '../model/plan.ts';
import { packingTask } from './bodies.ts';
import { areaBound } from './bounds/area.ts';
import { dualFeasibleBound } from './bounds/dual-feasible.ts';
import { packOutlines } from './outlines/pack-outlines.ts';
import { seededRandom } from './random.ts';
import { packMaxrectsOrders, suitsMaxrects } from './rectangles/maxrects-orders.ts';
import { packRectangles } from './rectangles/pack-rectangles.ts';
import { bestKeeper, usedBy } from './score.ts';
import type { Candidate, PackingTask, Progress, Strategy } from './task.ts';
import { toLayout } from './to-layout.ts';
import { WorkBudget } from './work.ts';

export interface PackOptions {
  readonly effort: Effort;
  readonly seed: number;
  /** Asked now and then; true stops the search, which then gives what it has. */
  readonly shouldStop: () => boolean;
  readonly onProgress: (progress: Progress) => void;
}

export interface Packing {
  readonly layout: Layout;
  readonly stoppedByTime: boolean;
}

/** Units of work: about 1, 10 and 60 seconds on one ordinary core for a job of 100 pieces. */
const WORK: Readonly<Record<Effort, number>> = { quick: 2.4e7, normal: 2.4e8, long: 1.5e9 };

/** A strategy, where it is of use, and its share of the work that is left when its turn comes. `isProved` says whether the bound is reached by then. */
interface Entry {
  readonly strategy: Strategy;
  readonly suits: (task: PackingTask) => boolean;
  readonly share: (task: PackingTask, isProved: boolean) => number;
}

/** In their turn; each may count on all that is left where nothing comes after it. */
const STRATEGIES: readonly Entry[] = [
  { strategy: packMaxrectsOrders, suits: suitsMaxrects, share: () => 0.05 },
  // Bodies of any outline are packed as boxes too, so that a true-shape layout is never worse than that.
  { strategy: packRectangles, suits: () => true, share: (task) => (hasOutlines(task) ? 0.2 : 1) },
  // Where the bound is reached, true shapes can only better the leftover, and most of that comes early.
  { strategy: packOutlines, suits: hasOutlines, share: (_, isProved) => (isProved ? 0.4 : 1) },
];

/** Lays the pieces of one material out on its sheets, with a bound that no layout can go under. */
export function pack(job: Job, material: number, options: PackOptions): Packing {
  const task = packingTask(job, material);
  const bound = boundOf(task);
  const keeper = bestKeeper(task);
  let workLeft = WORK[options.effort];
  let stopped = false;
  for (const [index, { strategy, suits, share }] of STRATEGIES.entries()) {
    if (stopped || !suits(task)) continue;
    const isProved = reaches(task, keeper.best(), bound);
    const budget = new WorkBudget(workLeft * share(task, isProved), options.shouldStop);
    const found = (candidate: Candidate) => {
      if (!keeper.offer(candidate)) return;
      const used = usedBy(task, candidate.sheets);
      options.onProgress({
        material,
        used,
        atLeast: bound.atLeast,
        workLeft: (workLeft - budget.limit + budget.left) / WORK[options.effort],
      });
    };
    const random = seededRandom(options.seed + index);
    found(strategy(task, { random, budget, atLeast: bound.atLeast, found }));
    workLeft -= budget.limit - budget.left;
    stopped = budget.stopped;
  }
  return { layout: toLayout(task, keeper.best(), bound), stoppedByTime: stopped };
}

function reaches(task: PackingTask, { sheets, unplaced }: Candidate, { atLeast }: Bound): boolean {
  return unplaced.length === 0 && usedBy(task, sheets) <= atLeast;
}

function hasOutlines({ bodies }: PackingTask): boolean {
  return bodies.some(({ orientations }) => orientations.some(({ rectangular }) => !rectangular));
}

function boundOf(task: PackingTask): Bound {
  const area = areaBound(task);
  const dualFeasible = dualFeasibleBound(task);
  return dualFeasible > area
    ? { atLeast: dualFeasible, provedBy: 'dual feasible functions' }
    : { atLeast: area, provedBy: 'area' };
}
