/**
 * What the reckoning needs to know of the outline of a loose thing, however it lies on the sheet.
 *
 * What the vacuum reaches of it holds it, and the centre of that is the centre of pressure. The cutter acts on the outer ring: at each corner it may come
 * or go along either side, and the arms of its push about the centre are greatest at the ends of a
 * side, so the corners are all the cut points that matter. Those that others exceed in both arms
 * are left out, which changes a margin by a hundredth at most. The thing can tip over each side of
 * its convex hull.
 * Cost: a pass over the corners and 129 for the points to turn about; tipping
 * takes hull sides times hull corners.
 * Degenerate: where the vacuum reaches nothing of it, the whole outline stands in for the centre and the
 * mean radius, and only the weight holds.
 */
import { regionArea, ringLength } from '../geometry/area.ts';
import { intersect } from '../geometry/boolean.ts';
import { convexHull } from '../geometry/hull.ts';
import type { Point } from '../geometry/point.ts';
import type { Region, Ring } from '../geometry/shape.ts';
import type { Terrace } from '../geometry/terraces.ts';
import { toMm, toMm2, UNITS_PER_MM } from '../model/units.ts';
import { type Floor, floorSizes, takenMm3 } from './floors.ts';
import { meanDistance, sidesOf } from './friction.ts';
import { type Pressed, type TurningPoint, turningPoints } from './turning.ts';

export interface Body extends Pressed {
  readonly areaMm2: number;
  /** What of it the vacuum reaches. */
  readonly heldAreaMm2: number;
  /** Of that, what lies under pockets and blind holes. */
  readonly heldFloors: readonly Floor[];
  /** What pockets and blind holes have taken out of it. */
  readonly takenMm3: number;
  readonly cuts: readonly CutPoint[];
  readonly turns: readonly TurningPoint[];
  readonly tips: readonly Tip[];
  readonly perimeterMm: number;
  /** Shortest distance between two parallel lines that hold the hull between them. */
  readonly narrowMm: number;
  /** How high the stock stands up where it does so most; 0 where all of it lies down. */
  readonly liftedMm: number;
}

/** An end of a side of the outer ring, seen from the centre of pressure. */
export interface CutPoint {
  readonly xMm: number;
  readonly yMm: number;
  /** The direction of the side, of length 1. */
  readonly sideX: number;
  readonly sideY: number;
  /** Distances from the centre along the side and across it. */
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

/** `held` is what the vacuum reaches of it; all of them in the same coordinates. */
export function bodyOf(
  region: Region,
  held: readonly Region[],
  liftedMm = 0,
  floors: readonly Terrace[] = [],
): Body {
  const heldArea = held.reduce((sum, each) => sum + regionArea(each), 0);
  const pressed = heldArea > 0 ? held : [region];
  const centre = centroid(pressed);
  const tips = tipsOf(region.outer, centre);
  const sides = sidesOf(pressed);
  const about = { sides, centre, meanRadiusMm: meanDistance(sides, centre) / UNITS_PER_MM };
  return {
    ...about,
    areaMm2: toMm2(regionArea(region)),
    heldAreaMm2: toMm2(heldArea),
    heldFloors: heldFloors(floors, held),
    takenMm3: takenMm3(floorSizes(floors)),
    cuts: cutsOf(region.outer, centre),
    turns: turningPoints(about),
    tips,
    perimeterMm: toMm(ringLength(region.outer)),
    narrowMm: tips.reduce((least, tip) => Math.min(least, tip.cutMm), Number.POSITIVE_INFINITY),
    liftedMm,
  };
}

function heldFloors(floors: readonly Terrace[], held: readonly Region[]): Floor[] {
  const reached = floors.map(({ regions, depth }) => ({
    depth,
    regions: intersect(regions, held),
  }));
  return floorSizes(reached).filter(({ areaMm2 }) => areaMm2 > 0);
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

/** Arms that differ by less count as equal, or a round thing would have as many as corners. */
const LEAST_ARM_MM = 0.05;

/** Both ends of every side; those that are exceeded in both arms are left out. */
function cutsOf(ring: Ring, centre: Point): CutPoint[] {
  const cuts = ring.flatMap((from, i) => {
    const to = ring[(i + 1) % ring.length] as Point;
    return [from, to].map((end) => cutAt(end, centre, from, to));
  });
  cuts.sort((a, b) => b.alongMm - a.alongMm || b.acrossMm - a.acrossMm);
  let widest = -1;
  return cuts.filter(({ acrossMm }) => {
    const longer = acrossMm > widest + LEAST_ARM_MM;
    if (longer) widest = acrossMm;
    return longer;
  });
}

function cutAt(end: Point, centre: Point, from: Point, to: Point): CutPoint {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const length = Math.sqrt(dx * dx + dy * dy);
  const [sideX, sideY] = [dx / length, dy / length];
  const [xMm, yMm] = [(end.x - centre.x) / UNITS_PER_MM, (end.y - centre.y) / UNITS_PER_MM];
  return {
    xMm,
    yMm,
    sideX,
    sideY,
    alongMm: Math.abs(xMm * sideX + yMm * sideY),
    acrossMm: Math.abs(xMm * sideY - yMm * sideX),
  };
}

function tipsOf(ring: Ring, centre: Point): Tip[] {
  const hull = convexHull(ring);
  return hull.map((from, i) => {
    const to = hull[(i + 1) % hull.length] as Point;
    const cutMm = hull.reduce((most, p) => Math.max(most, leftOfLineMm(p, from, to)), 0);
    return { from, to, centreMm: leftOfLineMm(centre, from, to), cutMm };
  });
}
