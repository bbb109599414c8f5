import type { ResourceLimits } from '../model/resource-limits.ts';
import type { FinePoint, FineSide } from './arcs-from-curves.ts';
import type { Fault } from './fault.ts';
import { type Excess, limitFault } from './limit-fault.ts';

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

/** What is said of an outline with its cut-outs that has so many lines and arcs; null where they are few enough. */
export function sidesFault(found: number, atLeast: boolean, limits: ResourceLimits): Fault | null {
  const excess: Excess = {
    ...{ limit: 'vertices', code: 'too-complex', found, atLeast },
    subject: 'the outline has',
    instead:
      'simplify it in the drawing program, name the one that is meant, such as rail.svg#left',
  };
  return limitFault(excess, limits);
}

/** The same run from its end to its start. */
export function reversePath({ start, sides, closed }: FinePath): FinePath {
  const from = sides.map((_, i) => sides[i - 1]?.to ?? start);
  return {
    start: sides.at(-1)?.to ?? start,
    sides: sides.map(({ via }, i) => ({ via, to: from[i] as FinePoint })).reverse(),
    closed,
  };
}
