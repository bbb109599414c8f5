import type { Box } from '../geometry/box.ts';

/** A leftover worth keeping, in the coordinates of its sheet. */
export interface Offcut {
  readonly box: Box;
}

/** Where the area of one sheet goes; the shares add up to 1. */
export interface SheetCosts {
  readonly sheet: number;
  readonly areaMm2: number;
  readonly pieceAreaMm2: number;
  readonly trimAreaMm2: number;
  readonly kerfAreaMm2: number;
  readonly offcutAreaMm2: number;
  readonly wasteAreaMm2: number;
  readonly yieldShare: number;
  /** Extent of the pieces along the sheet's length, from the trimmed edge, in base lengths. */
  readonly usedLength: number;
  readonly offcuts: readonly Offcut[];
  readonly weightKg: number;
  readonly priceCents: number | null;
  readonly cutLengthMm: number;
  /** Of the cuts, and of the skins that are taken off afterwards; null at a saw, which no feed is known of. */
  readonly cutTimeS: number | null;
  /** For tabs and clamps. */
  readonly handTimeS: number;
}

export interface PartCosts {
  readonly part: number;
  readonly pieceAreaMm2: number;
  readonly pieceWeightKg: number;
}

export interface Costs {
  readonly sheets: readonly SheetCosts[];
  readonly parts: readonly PartCosts[];
  /** Null where a sheet in use has no price. */
  readonly totalCents: number | null;
  readonly yieldShare: number;
  readonly cutLengthMm: number;
  readonly cutTimeS: number | null;
  readonly handTimeS: number;
}
