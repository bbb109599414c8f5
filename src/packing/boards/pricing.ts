import type { BoardTask } from './board-task.ts';
import type { Fill, Filler, Filling } from './filling.ts';
import type { Pattern, Rest } from './pattern.ts';
import type { Weighing } from './safe-bound.ts';

/** What the linear programme says that a piece of each kind is worth, and what one board more of each kind would save. */
export interface Prices {
  readonly pieces: readonly number[];
  readonly rents: readonly number[];
}

/** Patterns that are worth more than they cost, and the worths they were found with. */
export interface Offer {
  readonly patterns: readonly Pattern[];
  readonly weighing: Weighing;
}

/** Worths are whole numbers up to about this. */
const SCALE = 2 ** 30;
/** What a pattern has to gain, as a share of the dearest board, so that it is not the solver's own tolerance. */
const LEAST_GAIN = 2e-7;

/** For each bin the richest pattern, where it pays; the search for it is only made exact where none is found at little work. */
export function payingPatterns(task: BoardTask, filler: Filler, prices: Prices, rest: Rest): Offer {
  const scale = SCALE / dearestOf(task);
  const worths = Float64Array.from(prices.pieces, (worth) =>
    Math.floor(Math.max(0, worth) * scale),
  );
  const pays = ({ bin, value }: RichBin): boolean => {
    const { board } = task.bins[bin]!;
    const cost = ((task.boards[board]?.cost ?? 0) + (prices.rents[board] ?? 0)) * scale;
    return (rest.onHand[board] ?? 0) > 0 && value > cost + LEAST_GAIN * SCALE;
  };
  const quick = fillAll(task, filler.quick, worths, rest.wanted);
  const patterns = quick.bins.filter(pays);
  if (patterns.length > 0 || quick.isExact)
    return { patterns, weighing: { worths, richest: quick.richest } };
  const { bins, richest } = fillAll(task, filler.exact, worths, rest.wanted);
  return { patterns: bins.filter(pays), weighing: { worths, richest } };
}

/** Of one board, at least 1. */
export function dearestOf({ boards }: BoardTask): number {
  return Math.max(1, ...boards.map(({ cost }) => cost));
}

interface RichBin extends Pattern {
  readonly value: number;
}

interface Filled {
  readonly bins: readonly RichBin[];
  /** What each board holds at most. */
  readonly richest: readonly number[];
  readonly isExact: boolean;
}

function fillAll(
  task: BoardTask,
  fill: Fill,
  worths: Float64Array,
  wanted: readonly number[],
): Filled {
  const rooms = [...new Set([...task.bins, ...task.boards].flatMap((bin) => bin.rooms))];
  const filled = fill(worths, wanted, rooms);
  const of = (room: number): Filling => filled[rooms.indexOf(room)]!;
  return {
    bins: task.bins.map((own, bin) => {
      const fillings = own.rooms.map(of);
      const value = fillings.reduce((sum, filling) => sum + filling.value, 0);
      return { bin, stretches: fillings.map(({ takes }) => takes), value };
    }),
    richest: task.boards.map(({ rooms: own }) =>
      own.reduce((sum, room) => sum + of(room).atMost, 0),
    ),
    isExact: filled.every(({ value, atMost }) => value === atMost),
  };
}
