import { assert } from '../geometry/assert.ts';
import { asBoxes, needsShapes } from './as-boxes.ts';
import { proveFurther } from './bounds/prove-further.ts';
import { packOutlines } from './outlines/pack-outlines.ts';
import { packPanels } from './panelsaw/pack-panels.ts';
import { seededRandom } from './random.ts';
import { packMaxrectsOrders, suitsMaxrects } from './rectangles/maxrects-orders.ts';
import { packRectangles } from './rectangles/pack-rectangles.ts';
import { bestKeeper, usedBy } from './score.ts';
import type { Candidate, PackingTask, Strategy } from './task.ts';
import { packWithoutWaste } from './without-waste/pack-without-waste.ts';
import { isWithoutWaste } from './without-waste/rooms-to-fill.ts';
import { WorkBudget } from './work.ts';

/** A piece of a search that needs nothing but its task: plain data, so that it may run in any thread. */
export type Turn = SearchTurn | ProofTurn;

/** One track looks for better layouts, from the best one that is known. */
export interface SearchTurn extends TurnShare {
  readonly kind: 'search';
  readonly stage: number;
  readonly track: number;
  readonly seed: number;
  readonly start: Candidate;
}

/** The bound is looked into for a layout that uses `used`. */
export interface ProofTurn extends TurnShare {
  readonly kind: 'proof';
  readonly used: number;
}

/** What of the bodies is looked at: all that there is, or, one after the other, their bounding rectangles and their shapes (as-boxes.ts). */
export type Aspect = 'all' | 'boxes' | 'shapes';

interface TurnShare {
  readonly aspect: Aspect;
  /** Units of counted work. */
  readonly work: number;
  /** What no layout of the aspect can go under. */
  readonly atLeast: number;
  /** What no layout of the whole can go under, for a progress line. */
  readonly told: number;
  /** Share of the work of the whole search that is left before the turn and after it. */
  readonly leftBefore: number;
  readonly leftAfter: number;
}

export interface TurnResult {
  /** The best layout that the turn knows; null after a proof. */
  readonly candidate: Candidate | null;
  readonly atLeast: number;
  readonly stopped: boolean;
}

export interface TurnWatch {
  readonly shouldStop: () => boolean;
  /** Told of every better layout and now and then: what it uses, or null, and the share of the turn's work that is done. */
  readonly report: (state: { readonly used: number | null; readonly share: number }) => void;
}

/** A strategy, where it is of use, and its share of the work that is left when its turn comes. */
interface Entry {
  readonly strategy: Strategy;
  /** Which random numbers are its own, so that it draws the same ones when another strategy comes or goes. */
  readonly stream: number;
  readonly suits: (task: PackingTask, turn: SearchTurn) => boolean;
  /** `isProved` says whether the bound is reached by then. */
  readonly share: (task: PackingTask, turn: SearchTurn, isProved: boolean) => number;
}

/** In their turn; each may count on all that is left where nothing comes after it. */
const STRATEGIES: readonly Entry[] = [
  {
    strategy: packMaxrectsOrders,
    stream: 0,
    suits: (task, { stage, track }) =>
      stage === 0 && track === 0 && isRouted(task) && !needsShapes(task) && suitsMaxrects(task),
    share: () => 0.05,
  },
  {
    // It spends nothing where areas do not come out even. Rectangles alone fit one another in too many ways for it.
    strategy: packWithoutWaste,
    stream: 4,
    suits: (task, { aspect }) => isRouted(task) && !isOfBoxes(task, aspect),
    share: () => 0.5,
  },
  {
    // Where hardly any body is a rectangle, a first layout of boxes is enough; others are searched as boxes in turns of their own.
    strategy: packRectangles,
    stream: 1,
    suits: (task, { aspect, stage }) =>
      isRouted(task) && aspect !== 'shapes' && (stage === 0 || isOfBoxes(task, aspect)),
    share: (task, { aspect }) => (isOfBoxes(task, aspect) ? 1 : 0.2),
  },
  {
    strategy: packOutlines,
    stream: 2,
    suits: (task, { aspect }) => isRouted(task) && !isOfBoxes(task, aspect),
    // Where the bound is reached, true shapes can only better the leftover, and most of that comes early.
    share: (_task, _turn, isProved) => (isProved ? 0.4 : 1),
  },
  {
    // Of an outline that is no rectangle the saw cuts the box.
    strategy: packPanels,
    stream: 3,
    suits: (task) => !isRouted(task),
    share: () => 1,
  },
];

/** Runs a turn to its end, or until it is stopped. */
export function runTurn(whole: PackingTask, turn: Turn, watch: TurnWatch): TurnResult {
  const task = turn.aspect === 'boxes' ? asBoxes(whole)?.task : whole;
  assert(task !== undefined, 'only a mixed job is searched as boxes');
  return turn.kind === 'search' ? searchOn(task, turn, watch) : proveOn(task, turn, watch);
}

function searchOn(task: PackingTask, turn: SearchTurn, watch: TurnWatch): TurnResult {
  const { atLeast, start, track, work } = turn;
  const keeper = bestKeeper(task);
  keeper.offer(start);
  let workLeft = work;
  let stopped = false;
  for (const { strategy, stream, suits, share } of STRATEGIES) {
    const { sheets, unplaced } = keeper.best();
    const isBest = isRouted(task) && isWithoutWaste(task, keeper.best());
    if (stopped || isBest || !suits(task, turn)) continue;
    const isProved = unplaced.length === 0 && usedBy(task, sheets) <= atLeast;
    const budget = new WorkBudget(workLeft * share(task, turn, isProved), () => {
      watch.report({ used: null, share: shareDone() });
      return watch.shouldStop();
    });
    const shareDone = () => 1 - (workLeft - budget.limit + budget.left) / work;
    const found = (candidate: Candidate) => {
      if (keeper.offer(candidate))
        watch.report({ used: usedBy(task, candidate.sheets), share: shareDone() });
    };
    const random = seededRandom(seedOf(turn, stream));
    found(strategy(task, { random, budget, atLeast, track, start: keeper.best(), found }));
    workLeft -= budget.limit - budget.left;
    stopped = budget.stopped;
  }
  return { candidate: keeper.best(), atLeast, stopped };
}

function proveOn(task: PackingTask, turn: ProofTurn, watch: TurnWatch): TurnResult {
  const budget: WorkBudget = new WorkBudget(turn.work, () => {
    watch.report({ used: null, share: 1 - budget.left / turn.work });
    return watch.shouldStop();
  });
  const atLeast = proveFurther(task, turn.used, turn.atLeast, budget);
  return { candidate: null, atLeast, stopped: budget.stopped };
}

/** Another one for each seed, stage, track and strategy. */
function seedOf({ seed, stage, track }: SearchTurn, stream: number): number {
  return seed + stream + 1000 * track + 1_000_000 * stage;
}

function isRouted({ job }: PackingTask): boolean {
  return job.machine.kind === 'router';
}

function isOfBoxes(task: PackingTask, aspect: Aspect): boolean {
  return aspect === 'boxes' || !needsShapes(task);
}
