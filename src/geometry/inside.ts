/**
 * Where a point lies in a ring or a region, exactly.
 *
 * The edges that pass the point's level upwards on its right count +1, downwards -1: the sum is how often the ring
 * winds round the point. An edge owns its lower end and not its upper one, so a corner at the point's level is counted
 * once.
 * Source: Hormann & Agathos 2001, "The point in polygon problem for arbitrary polygons", Computational Geometry 20.
 * Any winding but 0 is inside: a ring that laps over itself by a hair has no false gap there.
 * Cost: one pass over the corners. Degenerate: a ring of no area has only "on the edge" and "outside".
 */
import { orientation, type Point } from './point.ts';
import type { Region, Ring } from './shape.ts';

/** 1 inside, 0 on the edge, -1 outside, whichever way the ring runs. */
export function pointInRing(point: Point, ring: Ring): 1 | 0 | -1 {
  return midpointInRing(point, point, ring);
}

/** 1 in the material, 0 on an edge, -1 outside or in a hole. */
export function pointInRegion(point: Point, region: Region): 1 | 0 | -1 {
  return midpointInRegion(point, point, region);
}

/** Where the point half-way between `p` and `q` lies, exactly, although it may be off the grid. */
export function midpointInRegion(p: Point, q: Point, region: Region): 1 | 0 | -1 {
  const inOuter = midpointInRing(p, q, region.outer);
  if (inOuter < 1) return inOuter;
  for (const hole of region.holes) {
    const inHole = midpointInRing(p, q, hole);
    if (inHole > -1) return inHole === 0 ? 0 : -1;
  }
  return 1;
}

function midpointInRing(p: Point, q: Point, ring: Ring): 1 | 0 | -1 {
  const level = p.y + q.y;
  let winding = 0;
  let from = ring[ring.length - 1] as Point;
  for (const to of ring) {
    const startsBelow = 2 * from.y <= level;
    const endsBelow = 2 * to.y <= level;
    if (startsBelow !== endsBelow) {
      const side = midpointSide(from, to, p, q);
      if (side === 0) return 0;
      if (startsBelow && side > 0) winding++;
      else if (endsBelow && side < 0) winding--;
    } else if (2 * from.y === level && 2 * to.y === level) {
      const along = p.x + q.x;
      if (2 * Math.min(from.x, to.x) <= along && along <= 2 * Math.max(from.x, to.x)) return 0;
    } else if (2 * to.x === p.x + q.x && 2 * to.y === level) {
      return 0;
    }
    from = to;
  }
  return winding === 0 ? -1 : 1;
}

/**
 * Side of the line `from`-`to` on which the midpoint of `p` and `q` lies, as the sign of the result.
 * It is the mean of the sides of `p` and `q`; both are exact and a rounded sum of two exact doubles keeps its sign.
 */
function midpointSide(from: Point, to: Point, p: Point, q: Point): number {
  return orientation(from, to, p) + orientation(from, to, q);
}
