import type { WorkBudget } from '../work.ts';
import type { BoardTask } from './board-task.ts';
import { breathe } from './breathe.ts';
import type { Filler } from './filling.ts';
import type { Column, Limits, LinearOptimum, Programme, Solver } from './lp.ts';
import { type Pattern, patternKey, type Rest, takesOf } from './pattern.ts';
import { dearestOf, type Prices, payingPatterns } from './pricing.ts';
import type { Weighing } from './safe-bound.ts';

/** Fractions of boards that together hold everything. */
export interface Relaxation {
  readonly value: number;
  /** Of each pattern of the master. */
  readonly amounts: readonly number[];
  /** Whether no pattern at all would make it cheaper. */
  readonly least: boolean;
}

/** Told of the worths of every round and of the value at them; says whether that is enough. */
export type Watcher = (weighing: Weighing, value: number) => boolean;

export interface Master {
  readonly patterns: readonly Pattern[];
  readonly add: (patterns: readonly Pattern[]) => void;
  /** Adds patterns as long as they make the rest cheaper; null where the programme has no optimum. `seen` ends it when it has seen enough. */
  readonly relax: (rest: Rest, seen: Watcher) => Promise<Relaxation | null>;
  /** Best whole amounts of the patterns there are, for everything, within so much work; null where none below the cost are found, or where that is too little work. */
  readonly wholeAmounts: (below: number, work: number) => readonly number[] | null;
  readonly close: () => void;
}

export interface Means {
  readonly solver: Solver;
  readonly filler: Filler;
  readonly budget: WorkBudget;
}

/** What calling the solver is worth in units of work. */
const LP_WORK = 15_000;
/** And a node of the search for whole numbers, for each row and column. */
const WHOLE_WORK = 70;
/** With fewer nodes it mostly finds nothing. */
const LEAST_NODES = 20;
const MOST_NODES = 2000;
/** Rounds, of a few milliseconds at most. */
const BREATHE_EVERY = 10;
/** Leaving a piece uncut costs this many of the dearest board. */
const MISSING = 50;

/**
 * The linear programme over patterns: every kind at least as often as wanted, and no more boards than there are, at the least cost.
 *
 * Patterns are not all written down: those that pay at the present worths of the pieces are found by filling one board as richly as possible, and added.
 * The columns stay for other rests, whose rows only get other limits, so that each run starts where the last one ended.
 *
 * Source: Gilmore & Gomory 1961, "A linear programming approach to the cutting-stock problem", Operations Research 9, 849-859.
 * Where boards are short, each kind may stay uncut at a high price, so that there is always an optimum.
 * Cost: some three programmes for each kind, each of a few steps. Worths that come out wrong make a bad pattern, never a false bound.
 */
export function makeMaster(task: BoardTask, { solver, filler, budget }: Means): Master {
  const { kinds } = task;
  const limited = limitedBoards(task);
  const spare = limited.length > 0 ? kinds.length : 0;
  const rows = rowsFor(task, {
    wanted: kinds.map(({ count }) => count),
    onHand: task.boards.map(({ onHand }) => onHand),
  });
  const programme = solver.programme(rows);
  programme.add(uncutColumns(task, spare));
  const patterns: Pattern[] = [];
  const keys = new Set<string>();
  const add = (more: readonly Pattern[]): void => {
    const fresh = more.filter((pattern) => {
      const key = patternKey(pattern);
      const isNew = !keys.has(key);
      keys.add(key);
      return isNew;
    });
    patterns.push(...fresh);
    programme.add(fresh.map((pattern) => columnOf(task, pattern)));
  };
  const relax: Master['relax'] = async (rest, seen) => {
    rowsFor(task, rest).forEach((limits, row) => void programme.setRow(row, limits));
    for (let round = 1; ; round++) {
      if (round % BREATHE_EVERY === 0) await breathe();
      const optimum = run(programme, budget, kinds.length);
      if (optimum === null) return null;
      const count = patterns.length;
      const offer = payingPatterns(task, filler, pricesOf(task, optimum), rest);
      add(offer.patterns);
      const isEnough = seen(offer.weighing, optimum.value);
      const least = patterns.length === count;
      if (!isEnough && !least && !budget.exhausted) continue;
      const amounts = patterns.map((_, i) => optimum.columns[spare + i] ?? 0);
      return { value: optimum.value, amounts, least };
    }
  };
  const wholeAmounts: Master['wholeAmounts'] = (below, work) => {
    const nodeWork = LP_WORK + WHOLE_WORK * rows.length * patterns.length;
    const mostNodes = Math.min(MOST_NODES, Math.floor(work / nodeWork));
    if (mostNodes < LEAST_NODES) return null;
    budget.spend(nodeWork * mostNodes);
    const columns = patterns.map((pattern) => columnOf(task, pattern));
    return solver.wholeNumbers({ rows, columns, below, mostNodes });
  };
  return { patterns, add, relax, wholeAmounts, close: programme.close };
}

/** Those of which there are only so many: each has a row. */
function limitedBoards({ boards }: BoardTask): readonly number[] {
  return boards.flatMap(({ onHand }, board) => (Number.isFinite(onHand) ? [board] : []));
}

function rowsFor(task: BoardTask, { wanted, onHand }: Rest): readonly Limits[] {
  return [
    ...wanted.map((count) => ({ lower: count, upper: Number.POSITIVE_INFINITY })),
    ...limitedBoards(task).map((board) => ({ lower: 0, upper: onHand[board] ?? 0 })),
  ];
}

/** One for each of the first so many kinds: a piece that stays uncut. */
function uncutColumns(task: BoardTask, count: number): readonly Column[] {
  const cost = MISSING * dearestOf(task);
  return Array.from({ length: count }, (_, kind) => ({ cost, rows: [kind], values: [1] }));
}

function columnOf(task: BoardTask, pattern: Pattern): Column {
  const takes = takesOf(pattern);
  const board = task.bins[pattern.bin]?.board ?? -1;
  const row = limitedBoards(task).indexOf(board);
  const rows = takes.map(({ kind }) => kind);
  const values = takes.map(({ times }) => times);
  return {
    cost: task.boards[board]?.cost ?? 0,
    rows: row < 0 ? rows : [...rows, task.kinds.length + row],
    values: row < 0 ? values : [...values, 1],
  };
}

function run(programme: Programme, budget: WorkBudget, rows: number): LinearOptimum | null {
  const optimum = programme.minimise();
  budget.spend(LP_WORK + 4 * rows * (optimum?.steps ?? 0));
  return optimum;
}

function pricesOf(task: BoardTask, { duals }: LinearOptimum): Prices {
  const limited = limitedBoards(task);
  const count = task.kinds.length;
  return {
    pieces: task.kinds.map((_, kind) => duals[kind] ?? 0),
    rents: task.boards.map((_, board) => {
      const row = limited.indexOf(board);
      return row < 0 ? 0 : Math.max(0, -(duals[count + row] ?? 0));
    }),
  };
}
