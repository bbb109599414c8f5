import type { Job } from '../model/job.ts';
import type { Bound, Layout } from '../model/layout.ts';
import type { Effort } from '../model/plan.ts';
import { asBoxes } from './as-boxes.ts';
import { attainableSums } from './attainable-sums.ts';
import { packingTask } from './bodies.ts';
import { areaBound } from './bounds/area.ts';
import { dualFeasibleBound } from './bounds/dual-feasible.ts';
import { hasPacks, pricesOf } from './priced.ts';
import { bestKeeper, usedBy } from './score.ts';
import type { PackingTask, Progress } from './task.ts';
import { toLayout } from './to-layout.ts';
import { type Aspect, runTurn, type Turn, type TurnResult, type TurnWatch } from './turns.ts';

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

/** What shapes get of the first stage after the boxes of a mixed job. */
const FIRST_SHAPES_SHARE = 0.8;

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
 * A mixed job is searched as boxes first in every stage, by the turns of the job that has boxes only, and the shapes go on from the better layout: so it is never worse than that job.
 */
export function* searchStages(
  task: PackingTask,
  { seed, works, restsAtBound }: Spending,
): TurnSearch {
  const boxes = asBoxes(task);
  const boxLine = boxes === null ? null : newLine(boxes.task, 'boxes');
  const line = newLine(task, boxes === null ? 'all' : 'shapes');
  const all = works.reduce((sum, work) => sum + work, 0);
  let done = 0;
  let stopped = false;
  for (const [stage, work] of works.entries()) {
    const leftBefore = 1 - done / all;
    done += work;
    const leftAfter = 1 - done / all;
    const isLast = stage === works.length - 1;
    const own = { seed, stage, restsAtBound, told: line.bound.atLeast };
    const halfway = (leftBefore + leftAfter) / 2;
    if (boxLine !== null && boxes !== null && mayBeat(boxLine, line)) {
      const shared = { leftBefore, leftAfter: halfway };
      stopped = yield* stageOf(boxLine, { ...own, ...shared, work, proves: !isLast });
      line.keeper.offer(boxes.unboxed(boxLine.keeper.best()));
      if (stopped) break;
    }
    const shared = { leftBefore: boxes === null ? leftBefore : halfway, leftAfter };
    const share = boxes !== null && stage === 0 ? FIRST_SHAPES_SHARE : 1;
    stopped = yield* stageOf(line, { ...own, ...shared, work: share * work, proves: true });
    if (stopped) break;
  }
  return { layout: toLayout(task, line.keeper.best(), line.bound), stopped };
}

/** One aspect of a job: the best layout of it, and what none can go under. */
interface Line {
  readonly task: PackingTask;
  readonly aspect: Aspect;
  readonly keeper: ReturnType<typeof bestKeeper>;
  bound: Bound;
}

function newLine(task: PackingTask, aspect: Aspect): Line {
  return { task, aspect, keeper: bestKeeper(task), bound: firstBound(task) };
}

function usedOn({ task, keeper }: Line): number {
  return usedBy(task, keeper.best().sheets);
}

/** Whether a layout of boxes could still be as good as the best of all. */
function mayBeat(boxes: Line, line: Line): boolean {
  return line.keeper.best().unplaced.length > 0 || usedOn(line) >= boxes.bound.atLeast;
}

interface StageShare {
  readonly seed: number;
  readonly stage: number;
  readonly work: number;
  readonly restsAtBound: boolean;
  /** Whether the bound is looked into further. */
  readonly proves: boolean;
  readonly told: number;
  readonly leftBefore: number;
  readonly leftAfter: number;
}

/** The tracks of one stage, and the proof after them; gives whether they were stopped. */
function* stageOf(
  line: Line,
  { seed, stage, work, restsAtBound, proves, ...own }: StageShare,
): Generator<readonly Turn[], boolean, readonly TurnResult[]> {
  const { aspect, keeper } = line;
  const shared = { ...own, aspect };
  const atLeast = restsAtBound ? line.bound.atLeast : 0;
  const start = keeper.best();
  const results = yield Array.from(
    { length: TRACKS },
    (_, track): Turn => ({ kind: 'search', stage, track, seed, work, atLeast, start, ...shared }),
  );
  for (const { candidate } of results) if (candidate !== null) keeper.offer(candidate);
  if (results.some((result) => result.stopped)) return true;
  const used = usedOn(line);
  const gap = used - line.bound.atLeast;
  const isClose = keeper.best().unplaced.length === 0 && gap >= 1 && gap <= CLOSE_GAP;
  if (!restsAtBound || !proves || !isClose) return false;
  const most = PROOF_SHARE * work;
  const known = line.bound.atLeast;
  const [proof] = yield [{ kind: 'proof', work: most, atLeast: known, used, ...shared }];
  if (proof !== undefined && proof.atLeast > known)
    line.bound = { atLeast: proof.atLeast, provedBy: 'linear programme' };
  return proof?.stopped ?? false;
}

/** How a turn is watched from the outside: what it reports becomes progress of the whole search. */
export function turnWatch(
  { material, objective }: PackingTask,
  { shouldStop, onProgress }: Pick<PackOptions, 'shouldStop' | 'onProgress'>,
): (turn: Turn) => TurnWatch {
  let least: number | null = null;
  let left = 1;
  return ({ told, leftBefore, leftAfter }) => ({
    shouldStop,
    report: ({ used, share }) => {
      if (used !== null) least = Math.min(least ?? used, used);
      // Turns that run one after the other, though they may run side by side, never set the line back.
      left = Math.min(left, leftBefore - (leftBefore - leftAfter) * share);
      onProgress({ material, objective, used: least, atLeast: told, workLeft: left });
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
