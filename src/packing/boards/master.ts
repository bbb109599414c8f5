import type { WorkBudget } from '../work.ts';
import type { BoardTask } from './board-task.ts';
import type { Fill, Filler, Filling } from './filling.ts';
import type { Column, Limits, LinearOptimum, Programme, Solver } from './lp.ts';
import { type Pattern, patternKey, type Rest, takesOf } from './pattern.ts';
import type { Weighing } from './safe-bound.ts';

/** Fractions of boards that together hold everything. */
export interface Relaxation {
  readonly value: number;
  /** Of each pattern of the master. */
  readonly amounts: readonly number[];
  /** Whether no pattern at all would make it cheaper. */
  readonly least: boolean;
  /** Pieces that stay over for want of boards. */
  readonly missing: number;
}

/** Told of the worths of every round and of the value at them; says whether that is enough. */
export type Watcher = (weighing: Weighing, value: number) => boolean;

export interface Master {
  readonly patterns: readonly Pattern[];
  readonly add: (patterns: readonly Pattern[]) => void;
  /** Best whole amounts of the patterns there are, for everything; null where none below the cost are found within so many nodes. */
  readonly wholeAmounts: (below: number, mostNodes: number) => readonly number[] | null;
  /** Adds patterns as long as they make the rest cheaper; null where the programme has no optimum. `seen` ends it when it has seen enough. */
  readonly relax: (rest: Rest, seen: Watcher) => Relaxation | null;
  readonly close: () => void;
}

/** Worths are whole numbers up to about this. */
const SCALE = 2 ** 30;
/** What calling the solver is worth in units of work. */
const LP_WORK = 15_000;
/** And a node of the search for whole numbers. */
const WHOLE_WORK = 1_000_000;
/** What a pattern has to gain, as a share of the dearest board, so that it is not the solver's own tolerance. */
const LEAST_GAIN = 2e-7;
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
 */
export function makeMaster(
  task: BoardTask,
  { solver, filler, budget }: { solver: Solver; filler: Filler; budget: WorkBudget },
): Master {
  const limited = task.boards.flatMap(({ onHand }, board) =>
    Number.isFinite(onHand) ? [board] : [],
  );
  const { kinds } = task;
  const dearest = Math.max(1, ...task.boards.map(({ cost }) => cost));
  const rows: readonly Limits[] = [
    ...kinds.map(({ count }) => ({ lower: count, upper: Number.POSITIVE_INFINITY })),
    ...limited.map((board) => ({ lower: 0, upper: task.boards[board]?.onHand ?? 0 })),
  ];
  const programme = solver.programme(rows);
  const spare = limited.length > 0 ? kinds.length : 0;
  if (spare > 0)
    programme.add(kinds.map((_, k) => ({ cost: MISSING * dearest, rows: [k], values: [1] })));
  const patterns: Pattern[] = [];
  const keys = new Set<string>();
  const columnOf = (pattern: Pattern): Column => {
    const takes = takesOf(pattern);
    const board = task.bins[pattern.bin]?.board ?? -1;
    const row = limited.indexOf(board);
    const rows = takes.map(({ kind }) => kind);
    const values = takes.map(({ times }) => times);
    return {
      cost: task.boards[board]?.cost ?? 0,
      rows: row < 0 ? rows : [...rows, kinds.length + row],
      values: row < 0 ? values : [...values, 1],
    };
  };
  const add = (more: readonly Pattern[]): void => {
    const fresh = more.filter((pattern) => {
      const key = patternKey(pattern);
      const isNew = !keys.has(key);
      keys.add(key);
      return isNew;
    });
    patterns.push(...fresh);
    programme.add(fresh.map(columnOf));
  };
  const scale = SCALE / dearest;
  const relax: Master['relax'] = ({ wanted, onHand }, seen) => {
    wanted.forEach((count, k) => {
      programme.setRow(k, { lower: count, upper: Number.POSITIVE_INFINITY });
    });
    limited.forEach((board, i) => {
      programme.setRow(kinds.length + i, { lower: 0, upper: onHand[board] ?? 0 });
    });
    for (;;) {
      const optimum = run(programme, budget, kinds.length);
      if (optimum === null) return null;
      const worths = Float64Array.from(kinds, (_, k) =>
        Math.floor(Math.max(0, optimum.duals[k] ?? 0) * scale),
      );
      const rents = limited.map((_, i) => Math.max(0, -(optimum.duals[kinds.length + i] ?? 0)));
      const find = (fill: Fill) => {
        const priced = price(task, fill, worths, wanted);
        return { ...priced, paying: priced.fillings.filter(pays) };
      };
      const pays = ({ bin, value }: BinFilling): boolean => {
        const { board } = task.bins[bin]!;
        const rent = rents[limited.indexOf(board)] ?? 0;
        const cost = ((task.boards[board]?.cost ?? 0) + rent) * scale;
        return (onHand[board] ?? 0) > 0 && value > cost + LEAST_GAIN * SCALE;
      };
      let priced = find(filler.quick);
      if (priced.paying.length === 0 && !priced.isExact) priced = find(filler.exact);
      const count = patterns.length;
      add(priced.paying);
      const enough = seen({ worths, richest: priced.richest }, optimum.value);
      const least = patterns.length === count;
      if (!enough && !least && !budget.exhausted) continue;
      const missing = optimum.columns.subarray(0, spare).reduce((sum, amount) => sum + amount, 0);
      const amounts = patterns.map((_, i) => optimum.columns[spare + i] ?? 0);
      return { value: optimum.value, amounts, least, missing };
    }
  };
  const wholeAmounts: Master['wholeAmounts'] = (below, mostNodes) => {
    budget.spend(WHOLE_WORK * mostNodes);
    return solver.wholeNumbers({ rows, columns: patterns.map(columnOf), below, mostNodes });
  };
  return { patterns, add, relax, wholeAmounts, close: programme.close };
}

function run(programme: Programme, budget: WorkBudget, rows: number): LinearOptimum | null {
  const optimum = programme.minimise();
  budget.spend(LP_WORK + 4 * rows * (optimum?.steps ?? 0));
  return optimum;
}

interface BinFilling extends Pattern {
  readonly value: number;
}

interface Priced {
  readonly fillings: readonly BinFilling[];
  /** What each board holds at most. */
  readonly richest: readonly number[];
  readonly isExact: boolean;
}

/** The richest filling of every bin. */
function price(
  task: BoardTask,
  fill: Fill,
  worths: Float64Array,
  wanted: readonly number[],
): Priced {
  const rooms = [...new Set([...task.bins, ...task.boards].flatMap((bin) => bin.rooms))];
  const filled = fill(worths, wanted, rooms);
  const of = (room: number): Filling => filled[rooms.indexOf(room)]!;
  return {
    fillings: task.bins.map((bin, index) => {
      const fillings = bin.rooms.map(of);
      const value = fillings.reduce((sum, filling) => sum + filling.value, 0);
      return { bin: index, stretches: fillings.map(({ takes }) => takes), value };
    }),
    richest: task.boards.map((board) =>
      board.rooms.reduce((sum, room) => sum + of(room).atMost, 0),
    ),
    isExact: filled.every(({ value, atMost }) => value === atMost),
  };
}
