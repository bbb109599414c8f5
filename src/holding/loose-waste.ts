/**
 * What comes free on a sheet without being a piece: the inside of a cut-out (slug) and islands of
 * the skeleton (slivers).
 *
 * A slug is what is left of an opening when the kerf along its edge and the pieces cut out of it
 * are gone. The skeleton is the sheet less all outlines grown by the kerf; its largest part is what
 * holds everything together, and so does any part of more than a square foot. The others are
 * slivers. Whatever is smaller than a square of two cutter diameters, or nowhere a millimetre wide,
 * goes with the dust or breaks up in the cut, and is left out (common practice).
 * Cost: one difference of polygons a sheet.
 */
import { regionArea } from '../geometry/area.ts';
import { subtract } from '../geometry/boolean.ts';
import { offsetRegion } from '../geometry/offset.ts';
import { placeRegion } from '../geometry/pose.ts';
import type { Region } from '../geometry/shape.ts';
import { type SheetStock, sheetRing } from '../model/stock.ts';
import { fromMm, toMm2 } from '../model/units.ts';
import { CONSTANTS } from './constants.ts';
import type { LaidPiece } from './laid-pieces.ts';
import type { Opening } from './openings.ts';

export interface Slug {
  /** Index in the list of laid pieces. */
  readonly laid: number;
  readonly opening: Opening;
  /** On the sheet. */
  readonly region: Region;
}

export interface Skeleton {
  readonly firm: readonly Region[];
  readonly slivers: readonly Region[];
}

export function slugsOf(laid: readonly LaidPiece[], cutter: number): Slug[] {
  return laid.flatMap((each, i) =>
    each.open.openings.flatMap((opening) => {
      const inside = placeRegion({ outer: opening.ring, holes: [] }, each.pose);
      const inner = laid.filter(({ host }) => host === i).map(({ grown }) => grown);
      const left = offsetRegion(inside, -cutter, 'round');
      return subtract(left, inner)
        .filter((region) => isBody(region, cutter))
        .map((region) => ({ laid: i, opening, region }));
    }),
  );
}

export function skeletonOf(
  stock: SheetStock,
  laid: readonly LaidPiece[],
  cutter: number,
): Skeleton {
  const sheet: Region = { outer: sheetRing(stock), holes: [] };
  const grown = laid.filter(({ host }) => host === null).map((each) => each.grown);
  const islands = subtract([sheet], grown).map((region) => ({ region, area: regionArea(region) }));
  const largest = islands.reduce((most, { area }) => Math.max(most, area), 0);
  const isFirm = ({ area }: { area: number }): boolean =>
    area === largest || isLargeMm2(toMm2(area));
  return {
    firm: islands.filter(isFirm).map(({ region }) => region),
    slivers: islands
      .filter((island) => !isFirm(island) && isBody(island.region, cutter))
      .map(({ region }) => region),
  };
}

/** Whether something separate is as good to hang a tab on as the skeleton. */
export function isLargeMm2(areaMm2: number): boolean {
  return areaMm2 >= CONSTANTS.skeletonArea.value;
}

function isBody(region: Region, cutter: number): boolean {
  const side = CONSTANTS.dustSide.value * cutter;
  if (regionArea(region) < side * side) return false;
  const half = fromMm(CONSTANTS.thinnestSliver.value / 2);
  return offsetRegion(region, -half, 'mitre').length > 0;
}
