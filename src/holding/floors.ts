/**
 * What pockets and blind holes leave under them: floors thinner than the stock.
 *
 * Through a floor more air leaks than through the whole stock, under it less of the vacuum is left, and what was taken
 * out no longer weighs. The resistance of a floor is that of the stock by its share of the thickness. All floors of a sheet
 * count from the first cut on, so that the open kerf alone decides how the vacuum falls, and no step is promised too much.
 * Source: Darcy's law for a layer, as in `leak.ts`.
 * Where we differ: the faces of panels of fibres are tighter than their middle, so a floor lets through less than is
 * reckoned. The centre of pressure stays where it was.
 * Cost: that of the terraces, once a part. Degenerate: a faced floor is airtight like its stock.
 */
import { flattenContour } from '../geometry/flatten.ts';
import { type Pose, placeRegion } from '../geometry/pose.ts';
import { circle, type Region } from '../geometry/shape.ts';
import { type Sunk, type Terrace, terraceArea, terracesOf } from '../geometry/terraces.ts';
import type { Part } from '../model/part.ts';
import { toMm, toMm2 } from '../model/units.ts';

/** So much of a sheet, or of what the vacuum reaches of a thing, lies so deep. */
export interface Floor {
  readonly areaMm2: number;
  readonly depthMm: number;
}

/** In the coordinates of the part, the deepest first; `region` is the part with everything that goes through it. */
export function floorsOf({ pockets, holes }: Part, region: Region): Terrace[] {
  const sunk = [
    ...pockets.map(({ contour, depth }) =>
      sunkOf(flattenContour(contour, 'curve', CHORD_ERROR), depth),
    ),
    ...holes.flatMap(({ x, y, diameter, depth }) => {
      if (depth === null) return [];
      const edge = circle({ x, y }, Math.round(diameter / 2));
      return [sunkOf(flattenContour(edge, 'curve', CHORD_ERROR), depth)];
    }),
  ];
  return sunk.length === 0 ? [] : terracesOf(sunk, region);
}

/** 0.2 mm: forces and areas are not known better than to a hundredth anyway, and each corner costs time. */
export const CHORD_ERROR = 1600;

function sunkOf(outer: Region['outer'], depth: number): Sunk {
  return { region: { outer, holes: [] }, depth };
}

export function placeFloors(floors: readonly Terrace[], pose: Pose): Terrace[] {
  return floors.map(({ regions, depth }) => ({
    depth,
    regions: regions.map((region) => placeRegion(region, pose)),
  }));
}

export function floorSizes(floors: readonly Terrace[]): Floor[] {
  return floors.map((floor) => ({
    areaMm2: toMm2(terraceArea(floor)),
    depthMm: toMm(floor.depth),
  }));
}

/** Of one depth together, the deepest first. */
export function mergeFloors(floors: readonly Floor[]): Floor[] {
  const areas = new Map<number, number>();
  for (const { areaMm2, depthMm } of floors)
    areas.set(depthMm, (areas.get(depthMm) ?? 0) + areaMm2);
  return [...areas]
    .map(([depthMm, areaMm2]) => ({ areaMm2, depthMm }))
    .sort((a, b) => b.depthMm - a.depthMm);
}

/** Resistance of a floor, by that of the whole stock. */
export function floorPerM(sheetPerM: number, thicknessMm: number, depthMm: number): number {
  return (sheetPerM * (thicknessMm - depthMm)) / thicknessMm;
}

/** What was taken out above the floors. */
export function takenMm3(floors: readonly Floor[]): number {
  return floors.reduce((sum, { areaMm2, depthMm }) => sum + areaMm2 * depthMm, 0);
}

export function floorMm2(floors: readonly Floor[]): number {
  return floors.reduce((sum, { areaMm2 }) => sum + areaMm2, 0);
}
