import type { Box } from '../geometry/box.ts';
import type { Lifting, Quote } from './quote.ts';
import type { Stretch } from './stock.ts';
import type { Yields } from './yield.ts';

/** A leftover worth keeping, in the coordinates of its sheet. */
export interface Offcut {
  readonly box: Box;
  /** What falls off, with the raw edges of the sheet that are still on it; at a router no more than the box. */
  readonly panel: Box;
}

/** Where the area of one sheet goes: pieces, trim, kerf, offcuts and waste add up to it. */
export interface SheetCosts {
  readonly sheet: number;
  readonly areaMm2: number;
  readonly pieceAreaMm2: number;
  readonly trimAreaMm2: number;
  readonly kerfAreaMm2: number;
  readonly offcutAreaMm2: number;
  readonly wasteAreaMm2: number;
  /** Of the waste: bad places that nothing else counts. */
  readonly keepOutAreaMm2: number;
  /** Of the waste: what still holds together when all is cut. */
  readonly skeletonAreaMm2: number;
  /** Of the waste: all else. */
  readonly looseAreaMm2: number;
  readonly yieldShare: number;
  /** Extent of the pieces along the sheet's length, from the trimmed edge, in base lengths. */
  readonly usedLength: number;
  readonly offcuts: readonly Offcut[];
  readonly weightKg: number;
  readonly priceCents: number | null;
  readonly cutLengthMm: number;
  /** Of the cuts, the pockets, and the skins that are taken off afterwards; null at a saw, which no feed is known of. */
  readonly cutTimeS: number | null;
  /** For tabs and clamps. */
  readonly handTimeS: number;
}

/** A clear stretch of a board that no piece has, a kerf away from its neighbours. */
export interface BoardLeftover extends Stretch {
  readonly isKept: boolean;
}

/** Sheets of one kind that are bought and not cut. */
export interface PackSurplus {
  readonly material: number;
  readonly stock: number;
  readonly count: number;
  readonly priceCents: number | null;
}

/** Where the length of one board goes; what is neither pieces nor leftovers is trim, defects and kerf. */
export interface BoardCosts {
  readonly board: number;
  readonly length: number;
  readonly pieceLength: number;
  /** From left to right, those not worth keeping as well. */
  readonly leftovers: readonly BoardLeftover[];
  readonly yieldShare: number;
  readonly priceCents: number | null;
}

/** What of one lumber to buy, in its measure, as printed. */
export interface LumberCosts {
  /** Index into the job's `lumber`. */
  readonly lumber: number;
  /** What the finished parts take out of the rough thickness. */
  readonly net: number;
  readonly waste: number;
  readonly onHand: number;
  readonly buy: number;
  readonly priceCents: number | null;
}

export interface PartCosts {
  readonly part: number;
  readonly pieceAreaMm2: number;
  readonly pieceWeightKg: number;
}

/** What is known before anything is sold. */
export interface PlanCosts {
  readonly sheets: readonly SheetCosts[];
  readonly boards: readonly BoardCosts[];
  readonly lumber: readonly LumberCosts[];
  readonly parts: readonly PartCosts[];
  /** Bought because sheets are sold in packs; no part of the yields. */
  readonly surplus: readonly PackSurplus[];
  /** Of all that is bought; null where a sheet, board or lumber in use has no price. */
  readonly totalCents: number | null;
  /** By area, of the sheets. */
  readonly yieldShare: number;
  /** By length, of the boards; null where there are none. */
  readonly boardYieldShare: number | null;
  readonly yields: Yields;
  readonly cutLengthMm: number;
  readonly cutTimeS: number | null;
  readonly handTimeS: number;
}

export interface Costs extends PlanCosts {
  readonly quote: Quote;
  readonly lifting: Lifting;
}
