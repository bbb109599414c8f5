import type { Box } from '../geometry/box.ts';

/** Where a piece lies on its sheet: its own origin, after mirroring (x to -x) and then turning, comes to (x, y). */
export interface Placement {
  readonly piece: number;
  readonly x: number;
  readonly y: number;
  /** Degrees counter-clockwise, 0 <= turn < 360. */
  readonly turn: number;
  readonly mirrored: boolean;
}

/** One cut of a saw, from edge to edge of the panel in hand, in the coordinates of the sheet. */
export interface SawCut {
  readonly panel: Box;
  /** The direction of the cut: `x` runs along the length of the sheet. */
  readonly axis: 'x' | 'y';
  /** Where the kerf begins across its direction; what lies under or left of it falls off there, what lies beyond the kerf on the other side. */
  readonly at: number;
  /** The side of the panel that lies against the fence: the one where the coordinates are low, or high. */
  readonly fence: 'low' | 'high';
  /** From 1; a trim cut has the stage of the cuts beside it. */
  readonly stage: number;
  readonly care: readonly SawCare[];
}

/**
 * `small`: a piece or strip comes off that is too small to be fed by hand alone; `trapped`: what lies between blade and fence is that narrow;
 * `short`: the edge along the fence is too short to be guided by it.
 */
export const SAW_CARES = ['small', 'trapped', 'short'] as const;
export type SawCare = (typeof SAW_CARES)[number];

export interface SheetLayout {
  /** Index into the material's `sheets`. */
  readonly stock: number;
  readonly placements: readonly Placement[];
  /** In the order in which they are made; none for a router. */
  readonly cuts: readonly SawCut[];
}

/** A piece of a board, its left end `at` from the left end of the board. */
export interface BoardPiece {
  /** Index into the job's `lengthParts`. */
  readonly part: number;
  /** From 1 within the part. */
  readonly number: number;
  readonly at: number;
}

export interface BoardLayout {
  /** Index into the material's `boards`. */
  readonly stock: number;
  /** From left to right. */
  readonly pieces: readonly BoardPiece[];
}

/** `no-room`: it fits no sheet of the material even when empty; `no-stock`: the sheets on hand are used up. */
export type UnplacedWhy = 'no-room' | 'no-stock';

export interface Unplaced {
  readonly piece: number;
  readonly why: UnplacedWhy;
}

/** So many pieces of a part of the job's `lengthParts`. */
export interface UnplacedLengths {
  readonly part: number;
  readonly count: number;
  readonly why: UnplacedWhy;
}

export type Objective = 'sheets' | 'cost';
export type ProvedBy =
  | 'area'
  | 'dual feasible functions'
  | 'incompatible pieces'
  | 'linear programme';

/** No layout of the pieces goes under `atLeast` (sheets, or minor units of the currency). */
export interface Bound {
  readonly atLeast: number;
  readonly provedBy: ProvedBy;
}

/** How the search ended: the bound is reached; it is not; or the stock cannot hold the pieces. */
export type Status = 'proved' | 'limit' | 'impossible';

/** The sheets of one material. */
export interface Layout {
  readonly material: number;
  readonly objective: Objective;
  readonly status: Status;
  /** Sheets that are bought, or minor units of the currency, as `objective` says. */
  readonly used: number;
  readonly bound: Bound;
  readonly sheets: readonly SheetLayout[];
  readonly boards: readonly BoardLayout[];
  readonly unplaced: readonly Unplaced[];
  readonly unplacedLengths: readonly UnplacedLengths[];
}

/** Whether there is nothing to say of a material: no piece is cut from it. */
export function isEmptyLayout({ sheets, boards, unplaced, unplacedLengths }: Layout): boolean {
  return sheets.length + boards.length + unplaced.length + unplacedLengths.length === 0;
}

/** How many pieces of a material find no place. */
export function unplacedCount({ unplaced, unplacedLengths }: Layout): number {
  return unplacedLengths.reduce((total, { count }) => total + count, unplaced.length);
}
