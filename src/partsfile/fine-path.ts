import type { FinePoint, FineSide } from './arcs-from-curves.ts';
import type { Fault } from './fault.ts';

/** One run of lines and arcs of a drawing in base lengths, y upwards; not yet on the grid. */
export interface FinePath {
  readonly start: FinePoint;
  readonly sides: readonly FineSide[];
  readonly closed: boolean;
}

/** 0.01 mm: how far an arc may lie from the curve that it replaces. */
export const CURVE_DISTANCE = 80;

/** Beyond any sheet, and small enough that reckoning in doubles keeps the grid. */
export const FARTHEST = 2 ** 40;

/** Lines and arcs of one outline with its cut-outs. */
export const MOST_SIDES = 5000;

/** Said of anything with more sides than `MOST_SIDES`. */
export const TOO_COMPLEX: Fault = {
  code: 'too-complex',
  message: `the outline has more than ${MOST_SIDES} lines and arcs`,
  hint: 'simplify it in the drawing program, or name the one that is meant, such as rail.svg#left',
};

/** The same run from its end to its start. */
export function reversePath({ start, sides, closed }: FinePath): FinePath {
  const from = sides.map((_, i) => sides[i - 1]?.to ?? start);
  return {
    start: sides.at(-1)?.to ?? start,
    sides: sides.map(({ via }, i) => ({ via, to: from[i] as FinePoint })).reverse(),
    closed,
  };
}
