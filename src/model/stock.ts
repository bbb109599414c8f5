import { ringArea } from '../geometry/area.ts';
import type { Box } from '../geometry/box.ts';
import { offsetRegion } from '../geometry/offset.ts';
import { boxesOutside } from '../geometry/outside-boxes.ts';
import { partsOutside } from '../geometry/outside-parts.ts';
import type { Point } from '../geometry/point.ts';
import { edgesOf } from '../geometry/segments.ts';
import { boxRegion, type Region, type Ring, rectangle } from '../geometry/shape.ts';
import type { Side, Sides } from './part.ts';
import type { Place } from './place.ts';
import { fromMm } from './units.ts';

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

/** An edge that does not lie down though the pump runs: how high it stands, and how far in. */
export interface LiftedEdge {
  readonly side: Side;
  readonly gap: number;
  readonly depth: number;
}

/** One kind of sheet of a material. Coordinates: origin at the lower-left corner, x along `length`. */
export interface SheetStock {
  readonly index: number;
  readonly name: string;
  /** Of the sheet, or of the box round its boundary. */
  readonly length: number;
  readonly width: number;
  /** The edge of an odd-shaped offcut, counter-clockwise, its box at the origin; null for a whole rectangular sheet. */
  readonly boundary: readonly Point[] | null;
  /** With a boundary all four sides are alike, and the trim holds along every edge. */
  readonly trim: Sides;
  /** Which way the grain runs on the sheet; null for a sheet without grain. */
  readonly grainAxis: 'x' | 'y' | null;
  readonly keepOuts: readonly KeepOut[];
  /** At most one for each side. */
  readonly lifted: readonly LiftedEdge[];
  readonly priceCents: number | null;
  /** How many there are; null where as many as needed can be bought. */
  readonly onHand: number | null;
  /** How many are sold together; 1 where they are sold singly. */
  readonly pack: number;
  /** What the label of an offcut from the rack says; null for a sheet that is bought. */
  readonly rack: string | null;
  readonly place: Place;
}

/** A stretch of a board that no piece may have any of. */
export interface Defect {
  readonly from: number;
  readonly to: number;
  readonly why: string;
}

/** One kind of board of a material. Places count from its left end. */
export interface BoardStock {
  readonly index: number;
  readonly name: string;
  readonly length: number;
  /** What is cut off each end before anything else. */
  readonly endTrim: number;
  readonly defects: readonly Defect[];
  /** Of one board. */
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
  readonly boards: readonly BoardStock[];
  /** Shorter ends of boards are waste. */
  readonly leastLeftover: number;
  readonly place: Place;
}

/** The part of a sheet inside its trimmed edges; of one with a boundary a box around that part. */
export function usableBox(stock: SheetStock): Box {
  return {
    minX: stock.trim.left,
    minY: stock.trim.bottom,
    maxX: stock.length - stock.trim.right,
    maxY: stock.width - stock.trim.top,
  };
}

/** How many sheets are bought at a time: what is on hand is not bought in packs. */
export function soldBy({ pack, onHand }: SheetStock): number {
  return onHand === null ? pack : 1;
}

/** A part of a board, in places from its left end. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** What of a board is neither trimmed off its ends nor a defect, from left to right. A kerf may lie in a defect, so a piece may end where one begins. */
export function clearStretches({ length, endTrim, defects }: BoardStock): readonly Stretch[] {
  const end = length - endTrim;
  const stretches: Stretch[] = [];
  let from = endTrim;
  for (const defect of defects.toSorted((a, b) => a.from - b.from)) {
    stretches.push({ from, to: Math.min(defect.from, end) });
    from = Math.max(from, defect.to);
  }
  return [...stretches, { from, to: end }].filter((stretch) => stretch.from < stretch.to);
}

/** The edge of a sheet, counter-clockwise. */
export function sheetRing({ boundary, length, width }: SheetStock): Ring {
  return boundary ?? rectangle(0, 0, length, width);
}

export function sheetArea(stock: SheetStock): number {
  return ringArea(sheetRing(stock));
}

/** What is inside the trimmed edges, for areas and drawings: what is legal never rests on it. */
export function usableRegions(stock: SheetStock): readonly Region[] {
  if (stock.boundary !== null)
    return offsetRegion({ outer: stock.boundary, holes: [] }, -stock.trim.left, 'mitre');
  return [boxRegion(usableBox(stock))];
}

/** Whether boxes that cover what is outside of the sheet take more than that. */
export function hasSlantedEdge({ boundary }: SheetStock): boolean {
  return edgesOf(boundary ?? []).some(({ from, to }) => from.x !== to.x && from.y !== to.y);
}

/** What of the usable box is not usable because the sheet is no rectangle, as convex rings that together cover it. */
export function closedParts(stock: SheetStock): readonly Ring[] {
  const { boundary, trim } = stock;
  if (boundary === null) return [];
  const parts = partsOutside(boundary, usableBox(stock), trim.left);
  return parts ?? closedBoxes(stock).map((box) => boxRegion(box).outer);
}

/** How deep a stair along a slanted edge of an offcut may be. */
const STAIR = fromMm(10);

/** What of the usable box is not usable because the sheet is no rectangle: boxes that together cover it; they may overlap. */
export function closedBoxes(stock: SheetStock): readonly Box[] {
  const { boundary, trim } = stock;
  return boundary === null ? [] : boxesOutside(boundary, usableBox(stock), trim.left, STAIR);
}
