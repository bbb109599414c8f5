import type { Box } from '../geometry/box.ts';
import type { Sides } from './part.ts';
import type { Place } from './place.ts';

export const FAMILIES = [
  'plywood',
  'softwood-plywood',
  'mdf',
  'particleboard',
  'osb',
  'hardboard',
  'softwood',
  'hardwood',
] as const;
export type Family = (typeof FAMILIES)[number];

/** A place on a sheet that no piece may touch, in the sheet's own coordinates. */
export interface KeepOut {
  readonly box: Box;
  readonly why: string;
}

/** One kind of sheet of a material. Coordinates: origin at the lower-left corner, x along `length`. */
export interface SheetStock {
  readonly index: number;
  readonly name: string;
  readonly length: number;
  readonly width: number;
  readonly trim: Sides;
  /** Which way the grain runs on the sheet; null for a sheet without grain. */
  readonly grainAxis: 'x' | 'y' | null;
  readonly keepOuts: readonly KeepOut[];
  readonly priceCents: number | null;
  /** How many there are; null where as many as needed can be bought. */
  readonly onHand: number | null;
  readonly place: Place;
}

/** A kind of stock. */
export interface Material {
  readonly index: number;
  /** The key in the parts file. */
  readonly id: string;
  readonly name: string;
  readonly family: Family;
  readonly thickness: number;
  readonly densityKgPerM3: number;
  /** Film- or melamine-faced: slips more easily. */
  readonly filmFaced: boolean;
  readonly sheets: readonly SheetStock[];
  readonly place: Place;
}

/** The part of a sheet inside its trimmed edges. */
export function usableBox(stock: SheetStock): Box {
  return {
    minX: stock.trim.left,
    minY: stock.trim.bottom,
    maxX: stock.length - stock.trim.right,
    maxY: stock.width - stock.trim.top,
  };
}
