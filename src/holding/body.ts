/**
 * What the reckoning needs to know of the outline of a loose thing, however it lies on the sheet.
 *
 * The vacuum holds the outline less the border that every open kerf and through hole takes. Its
 * centre is the centre of pressure. The cutter acts on the outer ring: at each corner it may come
 * or go along either side, and the arms of its push about the centre are greatest at the ends of a
 * side, so the corners are all the cut points that matter. The thing can tip over each side of its
 * convex hull.
 * Cost: one inward offset and a pass over the corners; tipping takes hull sides times hull corners.
 * Degenerate: where the border takes everything, the whole outline stands in for the centre and the
 * mean radius, and only the weight holds.
 */
import { regionArea, ringLength } from '../geometry/area.ts';
import { convexHull } from '../geometry/hull.ts';
import { offsetRegion } from '../geometry/offset.ts';
import type { Point } from '../geometry/point.ts';
import type { Region, Ring } from '../geometry/shape.ts';
import { fromMm, toMm, toMm2, UNITS_PER_MM } from '../model/units.ts';
import { meanRadius } from './friction.ts';

export interface Body {
  readonly areaMm2: number;
  /** What of it the vacuum reaches. */
  readonly heldAreaMm2: number;
  /** Centre of pressure, in the coordinates of the region, off the grid. */
  readonly centre: Point;
  /** Mean distance of the held area from its centre. */
  readonly meanRadiusMm: number;
  readonly arms: readonly Arm[];
  readonly tips: readonly Tip[];
  readonly perimeterMm: number;
  /** Shortest distance between two parallel lines that hold the hull between them. */
  readonly narrowMm: number;
}

/** Distances of a cut point from the centre of pressure, along the cut and across it. */
export interface Arm {
  readonly alongMm: number;
  readonly acrossMm: number;
}

/** A side of the hull as a line to tip over. */
export interface Tip {
  readonly from: Point;
  readonly to: Point;
  /** Distance of the centre of pressure from the line. */
  readonly centreMm: number;
  /** Distance of the farthest cut point from the line. */
  readonly cutMm: number;
}

/** `borderMm` is what each open edge loses. */
export function bodyOf(region: Region, borderMm: number): Body {
  const held = offsetRegion(region, -fromMm(borderMm), 'mitre');
  const heldArea = held.reduce((sum, each) => sum + regionArea(each), 0);
  const pressed = heldArea > 0 ? held : [region];
  const centre = centroid(pressed);
  const tips = tipsOf(region.outer, centre);
  return {
    areaMm2: toMm2(regionArea(region)),
    heldAreaMm2: toMm2(heldArea),
    centre,
    meanRadiusMm: meanRadius(pressed, centre) / UNITS_PER_MM,
    arms: armsOf(region.outer, centre),
    tips,
    perimeterMm: toMm(ringLength(region.outer)),
    narrowMm: tips.reduce((least, tip) => Math.min(least, tip.cutMm), Number.POSITIVE_INFINITY),
  };
}

/** Distance in mm of a point from the line through two others, positive on its left. */
export function leftOfLineMm(point: Point, from: Point, to: Point): number {
  const dx = to.x - from.x;
  const dy = to.y - from.y;
  const cross = dx * (point.y - from.y) - dy * (point.x - from.x);
  return cross / Math.sqrt(dx * dx + dy * dy) / UNITS_PER_MM;
}

function centroid(regions: readonly Region[]): Point {
  const origin = (regions[0] as Region).outer[0] as Point;
  let [area, x, y] = [0, 0, 0];
  for (const ring of regions.flatMap(({ outer, holes }) => [outer, ...holes])) {
    let from = ring[ring.length - 1] as Point;
    for (const to of ring) {
      const [ax, ay] = [from.x - origin.x, from.y - origin.y];
      const [bx, by] = [to.x - origin.x, to.y - origin.y];
      const cross = ax * by - ay * bx;
      area += cross / 2;
      x += (cross * (ax + bx)) / 6;
      y += (cross * (ay + by)) / 6;
      from = to;
    }
  }
  return { x: origin.x + x / area, y: origin.y + y / area };
}

/** At both ends of every side; those that are exceeded in both measures are left out. */
function armsOf(ring: Ring, centre: Point): Arm[] {
  const arms = ring.flatMap((from, i) => {
    const to = ring[(i + 1) % ring.length] as Point;
    const acrossMm = Math.abs(leftOfLineMm(centre, from, to));
    return [from, to].map((end) => ({ alongMm: alongLineMm(end, centre, from, to), acrossMm }));
  });
  arms.sort((a, b) => b.alongMm - a.alongMm || b.acrossMm - a.acrossMm);
  let widest = -1;
  return arms.filter(({ acrossMm }) => {
    const longer = acrossMm > widest;
    if (longer) widest = acrossMm;
    return longer;
  });
}

/** How far two points are apart in the direction of a line, mm. */
function alongLineMm(point: Point, other: Point, from: Point, to: Point): number {
  const dx = to.x - from.x;
  const dy = to.y - from.y;
  const dot = dx * (point.x - other.x) + dy * (point.y - other.y);
  return Math.abs(dot) / Math.sqrt(dx * dx + dy * dy) / UNITS_PER_MM;
}

function tipsOf(ring: Ring, centre: Point): Tip[] {
  const hull = convexHull(ring);
  return hull.map((from, i) => {
    const to = hull[(i + 1) % hull.length] as Point;
    const cutMm = hull.reduce((most, p) => Math.max(most, leftOfLineMm(p, from, to)), 0);
    return { from, to, centreMm: leftOfLineMm(centre, from, to), cutMm };
  });
}
