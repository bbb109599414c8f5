/** Where a piece lies on its sheet: its own origin, after mirroring (x to -x) and then turning, comes to (x, y). */
export interface Placement {
  readonly piece: number;
  readonly x: number;
  readonly y: number;
  /** Degrees counter-clockwise, 0 <= turn < 360. */
  readonly turn: number;
  readonly mirrored: boolean;
}

export interface SheetLayout {
  /** Index into the material's `sheets`. */
  readonly stock: number;
  readonly placements: readonly Placement[];
}

/** `no-room`: it fits no sheet of the material even when empty; `no-stock`: the sheets on hand are used up. */
export type UnplacedWhy = 'no-room' | 'no-stock';

export interface Unplaced {
  readonly piece: number;
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
  /** Sheets, or minor units of the currency, as `objective` says. */
  readonly used: number;
  readonly bound: Bound;
  readonly sheets: readonly SheetLayout[];
  readonly unplaced: readonly Unplaced[];
}
