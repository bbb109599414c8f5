import type { Effort } from '../../model/plan.ts';
import { type Random, seededRandom } from '../random.ts';
import { WorkBudget } from '../work.ts';
import { allPatterns } from './all-patterns.ts';
import type { BoardTask } from './board-task.ts';
import { breathe } from './breathe.ts';
import { dive } from './dive.ts';
import type { Filler } from './filling.ts';
import { finishWhole } from './finish-whole.ts';
import { firstFit } from './first-fit.ts';
import { loadSolver, type Solver } from './lp.ts';
import { makeMaster, type Watcher } from './master.ts';
import { allOf, type BoardPlan, type Pattern } from './pattern.ts';
import { type PlanKeeper, planKeeper } from './plan-keeper.ts';
import { makeFiller } from './richest-filling.ts';
import { safeBound } from './safe-bound.ts';
import { tightPatterns } from './tight-patterns.ts';

/** Units of work; a hundred million are very roughly two seconds. */
const WORK: Readonly<Record<Effort, number>> = { quick: 4.5e7, normal: 6e8, long: 3.6e9 };

/** How far the choice of a pattern is blurred in all dives but the first. */
const BLUR = 0.5;
const MOST_DIVES = 400;

/** After so many dives whole numbers of all patterns are searched for, with this share of the work; where no more than so many patterns exist, with all of them. */
const WHOLE_AFTER = 12;
const WHOLE_SHARE = 0.3;
const FEW_PATTERNS = 500;

/** Patterns without waste to speak of are added at once where there are no more than so many. */
const MOST_TIGHT = 3000;

export interface BoardSearch {
  readonly effort: Effort;
  readonly seed: number;
  readonly shouldStop: () => boolean;
  /** Told of the best so far. */
  readonly report: (state: { keeper: PlanKeeper; workLeft: number }) => void;
  /** Loads what solves linear programmes; null where that cannot be had. */
  readonly solver?: () => Promise<Solver | null>;
}

export interface FoundBoards {
  readonly plan: BoardPlan;
  readonly bound: number;
  /** Whether the outside, not the counted work, ended the search. */
  readonly stopped: boolean;
}

/**
 * Boards for all pieces of a task, with a bound: first fit decreasing and the bound by length, then the linear programme over patterns, then dives into it
 * until the bound is reached or the work is done; in between, whole numbers of the patterns that were found. More effort goes the same way further.
 */
export async function searchBoards(
  task: BoardTask,
  { effort, seed, shouldStop, report, solver: load = loadSolver }: BoardSearch,
): Promise<FoundBoards> {
  const keeper = planKeeper(task);
  const budget = new WorkBudget(WORK[effort], shouldStop);
  const longest = Math.max(0, ...[...task.bins, ...task.boards].flatMap(({ rooms }) => rooms));
  const filler = makeFiller(task.kinds, longest, budget);
  const start = firstFit(task, allOf(task));
  keeper.offer(start);
  keeper.raise(boundByLength(task));
  const tell = () => report({ keeper, workLeft: keeper.done() ? 0 : budget.left / budget.limit });
  tell();
  const isEarly = keeper.done() || shouldStop();
  const solver = isEarly ? null : await load();
  if (solver !== null) {
    const first = [...start.runs.map(({ pattern }) => pattern), ...singles(task)];
    await improve(task, {
      keeper,
      budget,
      filler,
      solver,
      first,
      random: seededRandom(seed),
      tell,
    });
  }
  const stopped = budget.stopped || (!keeper.done() && shouldStop());
  return { plan: keeper.best(), bound: keeper.bound(), stopped };
}

interface Improving {
  readonly keeper: PlanKeeper;
  readonly budget: WorkBudget;
  readonly filler: Filler;
  readonly solver: Solver;
  readonly first: readonly Pattern[];
  readonly random: Random;
  readonly tell: () => void;
}

async function improve(task: BoardTask, means: Improving): Promise<void> {
  const { keeper, budget, filler, solver, first, random, tell } = means;
  const master = makeMaster(task, { solver, filler, budget });
  try {
    master.add(first);
    master.add(tightPatterns(task, spareSteps(task, keeper.bound()), MOST_TIGHT, budget) ?? []);
    const watch: Watcher = (weighing, value) => {
      keeper.raise(safeBound(task, weighing));
      tell();
      return keeper.bound() >= keeper.needed(value);
    };
    await master.relax(allOf(task), watch);
    for (let k = 0; k < MOST_DIVES && !keeper.done() && !budget.exhausted; k++) {
      await breathe();
      await dive({ task, master, keeper, budget, blur: k === 0 ? 0 : BLUR, random });
      if (k === WHOLE_AFTER && !keeper.done()) {
        master.add(allPatterns(task, FEW_PATTERNS) ?? []);
        finishWhole(task, master, keeper, WHOLE_SHARE * budget.limit);
      }
      tell();
    }
  } finally {
    master.close();
  }
}

/** By how much the least boards that may do are longer than everything that is to be cut from them; only asked where all boards are alike. */
function spareSteps({ kinds, boards }: BoardTask, bound: number): number {
  const [{ rooms: [room = 0] = [], cost = 1 } = {}] = boards;
  return kinds.reduce(
    (left, { size, count }) => left - count * size,
    (room * bound) / Math.max(1, cost),
  );
}

/** All pieces together are no longer than the boards they need. */
function boundByLength(task: BoardTask): number {
  return safeBound(task, {
    worths: Float64Array.from(task.kinds, ({ size }) => size),
    richest: task.boards.map(({ rooms }) => rooms.reduce((sum, room) => sum + room, 0)),
  });
}

/** For every kind and bin a pattern that holds nothing else. */
function singles({ kinds, bins }: BoardTask): readonly Pattern[] {
  const all = kinds.flatMap(({ size, count }, kind) =>
    bins.map(({ rooms }, bin): Pattern => {
      let left = count;
      const stretches = rooms.map((room) => {
        const times = Math.min(left, Math.floor(room / size));
        left -= times;
        return times > 0 ? [{ kind, times }] : [];
      });
      return { bin, stretches };
    }),
  );
  return all.filter(({ stretches }) => stretches.some((takes) => takes.length > 0));
}
