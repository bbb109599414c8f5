import type { Job } from '../model/job.ts';
import type { Bound, Layout } from '../model/layout.ts';
import type { Effort } from '../model/plan.ts';
import { attainableSums } from './attainable-sums.ts';
import { packingTask } from './bodies.ts';
import { areaBound } from './bounds/area.ts';
import { dualFeasibleBound } from './bounds/dual-feasible.ts';
import { hasPacks, pricesOf } from './priced.ts';
import { bestKeeper, usedBy } from './score.ts';
import type { PackingTask, Progress } from './task.ts';
import { toLayout } from './to-layout.ts';
import { runTurn, type Turn, type TurnResult, type TurnWatch } from './turns.ts';

export interface PackOptions {
  readonly effort: Effort;
  readonly seed: number;
  /** Asked now and then; true stops the search, which then gives what it has. */
  readonly shouldStop: () => boolean;
  readonly onProgress: (progress: Progress) => void;
}

export interface Packing {
  readonly layout: Layout;
  /** Whether the outside, not the counted work, ended the search. */
  readonly stopped: boolean;
}

/** Tracks that search side by side, each from a seed of its own. */
const TRACKS = 2;

/**
 * Units of work of each track in the stages of a search. More effort goes through the same stages first, so it never gives more sheets.
 * Together about 1, 10 and 60 seconds on two ordinary cores for a job of 100 pieces.
 */
const STAGES: readonly { readonly effort: Effort; readonly work: number }[] = [
  { effort: 'quick', work: 2.4e7 },
  { effort: 'normal', work: 7.2e7 },
  { effort: 'normal', work: 1.44e8 },
  { effort: 'long', work: 4.2e8 },
  { effort: 'long', work: 8.4e8 },
];
const REACH: Readonly<Record<Effort, number>> = { quick: 1, normal: 3, long: 5 };

/** Where the search ends this close above the bound, the bound is looked into once more, with this share of a track's work. */
const CLOSE_GAP = 2;
const PROOF_SHARE = 0.5;

/** Lays the pieces of one material out on its sheets, with a bound that no layout can go under. Everything happens in this thread. */
export function pack(job: Job, material: number, options: PackOptions): Packing {
  const task = packingTask(job, material);
  const search = searchTurns(task, options);
  const watch = turnWatch(task, options);
  let step = search.next();
  while (!step.done) {
    const results: TurnResult[] = [];
    for (const turn of step.value) {
      // Once one is stopped the others would only make a first layout.
      if (results.at(-1)?.stopped) break;
      results.push(runTurn(task, turn, watch(turn)));
    }
    step = search.next(results);
  }
  return step.value;
}

/** The search of an effort as turns to run; see `searchStages`. */
export function searchTurns(
  task: PackingTask,
  { effort, seed }: Pick<PackOptions, 'effort' | 'seed'>,
): TurnSearch {
  const works = STAGES.slice(0, REACH[effort]).map(({ work }) => work);
  return searchStages(task, { seed, works, restsAtBound: true });
}

/** Yields turns that may run side by side, takes their results in the same order, and ends with the packing. */
export type TurnSearch = Generator<readonly Turn[], Packing, readonly TurnResult[]>;

export interface Spending {
  readonly seed: number;
  /** Units of work of each track, stage by stage. */
  readonly works: readonly number[];
  /** Whether little more is spent once the bound is reached; else the leftover gets all the work, and the bound is not looked into further. */
  readonly restsAtBound: boolean;
}

/**
 * The search as turns to run: yields those that may run side by side, takes their results in the same order, and ends with the packing.
 * The turns do not depend on when or where others run, so the packing is the same for any number of threads.
 */
export function* searchStages(
  task: PackingTask,
  { seed, works, restsAtBound }: Spending,
): TurnSearch {
  let bound = firstBound(task);
  const keeper = bestKeeper(task);
  const used = () => usedBy(task, keeper.best().sheets);
  const all = works.reduce((sum, work) => sum + work, 0);
  let done = 0;
  let stopped = false;
  for (const [stage, work] of works.entries()) {
    const leftBefore = 1 - done / all;
    done += work;
    const shared = { leftBefore, leftAfter: 1 - done / all };
    const atLeast = restsAtBound ? bound.atLeast : 0;
    const tracks = Array.from({ length: TRACKS }, (_, track): Turn => {
      const start = keeper.best();
      return { kind: 'search', stage, track, seed, work, atLeast, start, ...shared };
    });
    const results = yield tracks;
    for (const result of results) {
      if (result.candidate !== null) keeper.offer(result.candidate);
    }
    stopped = results.some((result) => result.stopped);
    if (stopped) break;
    const gap = used() - bound.atLeast;
    if (!restsAtBound || keeper.best().unplaced.length > 0 || gap < 1 || gap > CLOSE_GAP) continue;
    const most = PROOF_SHARE * work;
    const [proof] = yield [
      { kind: 'proof', work: most, atLeast: bound.atLeast, used: used(), ...shared },
    ];
    if (proof !== undefined && proof.atLeast > bound.atLeast)
      bound = { atLeast: proof.atLeast, provedBy: 'linear programme' };
    stopped = proof?.stopped ?? false;
    if (stopped) break;
  }
  return { layout: toLayout(task, keeper.best(), bound), stopped };
}

/** How a turn is watched from the outside: what it reports becomes progress of the whole search. */
export function turnWatch(
  { material, objective }: PackingTask,
  { shouldStop, onProgress }: Pick<PackOptions, 'shouldStop' | 'onProgress'>,
): (turn: Turn) => TurnWatch {
  let least: number | null = null;
  let left = 1;
  return ({ atLeast, leftBefore, leftAfter }) => ({
    shouldStop,
    report: ({ used, share }) => {
      if (used !== null) least = Math.min(least ?? used, used);
      // Turns that run one after the other, though they may run side by side, never set the line back.
      left = Math.min(left, leftBefore - (leftBefore - leftAfter) * share);
      onProgress({ material, objective, used: least, atLeast, workLeft: left });
    },
  });
}

function firstBound(task: PackingTask): Bound {
  const area = inPacks(task, areaBound(task));
  const dualFeasible = inPacks(task, dualFeasibleBound(task));
  return dualFeasible > area
    ? { atLeast: dualFeasible, provedBy: 'dual feasible functions' }
    : { atLeast: area, provedBy: 'area' };
}

/** A bound on cost up to the next sum that whole packs can cost. */
function inPacks(task: PackingTask, bound: number): number {
  const prices = pricesOf(task);
  if (!hasPacks(prices)) return bound;
  return attainableSums(prices.map(({ cost, pack }) => cost * pack))(bound);
}
