/**
 * Whether two bodies overlap, and whether they are closer than a distance: exact on the grid.
 *
 * Insides that share a point betray themselves on a border: either two edges cross properly, or a run of one border
 * lies inside the other body, or both borders run along one another with both insides on the same side (so for
 * identical bodies). Bodies that do not overlap are nearest at a corner of one of them, so corner against edge finds
 * the distance. A squared distance is compared with a square first in doubles with a proven margin, in the doubtful
 * band in BigInt. Rings must not cross themselves; they may touch in points. Coordinates must span at most 2^26. Cost:
 * the product of the numbers of edges near one another.
 */

import { assert } from './assert.ts';
import { edgesCross, runsAgainst } from './borders.ts';
import { type Box, boxContains, boxesOverlap, boxOf, growBox } from './box.ts';
import type { Point } from './point.ts';
import { distance2 } from './segments.ts';
import type { Region, Ring } from './shape.ts';

/** Whether the insides share a point; touching is not overlap, nor is lying in the other's hole. */
export function regionsOverlap(a: Region, b: Region): boolean {
  if (!boxesOverlap(boxOf(a.outer), boxOf(b.outer))) return false;
  const ringsOfA = [a.outer, ...a.holes];
  const ringsOfB = [b.outer, ...b.holes];
  return edgesCross(ringsOfA, ringsOfB) || enters(ringsOfA, b) || enters(ringsOfB, a);
}

/** Whether the bodies overlap or leave less than `distance` (a whole number of base lengths) between them. */
export function closerThan(a: Region, b: Region, distance: number): boolean {
  assert(Number.isInteger(distance) && distance >= 0, 'a distance must be a whole number');
  const near = growBox(boxOf(a.outer), distance);
  if (!boxesOverlap(near, boxOf(b.outer))) return false;
  if (regionsOverlap(a, b)) return true;
  const ringsOfA = [a.outer, ...a.holes];
  const ringsOfB = [b.outer, ...b.holes];
  return cornersCloser(ringsOfA, ringsOfB, distance) || cornersCloser(ringsOfB, ringsOfA, distance);
}

/** Whether the region lies in the box; touching its border counts as inside. */
export function regionWithin(region: Region, box: Box): boolean {
  return boxContains(box, boxOf(region.outer));
}

/** Whether the squared distance from `p` to the segment is less than `distance` squared, exactly. */
export function pointCloserThan(p: Point, from: Point, to: Point, distance: number): boolean {
  const ux = to.x - from.x;
  const uy = to.y - from.y;
  const wx = p.x - from.x;
  const wy = p.y - from.y;
  const length2 = ux * ux + uy * uy;
  const along = wx * ux + wy * uy;
  if (along <= 0) return distance2(p, from) < distance * distance;
  if (along >= length2) return distance2(p, to) < distance * distance;
  const cross = ux * wy - uy * wx;
  const nearness = cross * cross;
  const limit = distance * distance * length2;
  if (Math.abs(nearness - limit) > DOUBT * (nearness + limit)) return nearness < limit;
  return square(cross) < square(distance) * BigInt(length2);
}

/** Squared distance from a point to a segment, in doubles: for showing, not for deciding. */
export function distanceToSegment2(p: Point, from: Point, to: Point): number {
  const ux = to.x - from.x;
  const uy = to.y - from.y;
  const length2 = ux * ux + uy * uy;
  const along = (p.x - from.x) * ux + (p.y - from.y) * uy;
  const share = length2 === 0 ? 0 : Math.max(0, Math.min(1, along / length2));
  const dx = from.x + share * ux - p.x;
  const dy = from.y + share * uy - p.y;
  return dx * dx + dy * dy;
}

/** Each side of the comparison is rounded once or twice, by at most 2^-53 of it; this is well above. */
const DOUBT = 1e-15;

function square(value: number): bigint {
  return BigInt(value) * BigInt(value);
}

function enters(rings: readonly Ring[], other: Region): boolean {
  for (const place of runsAgainst(rings, other))
    if (place === 'inside' || place === 'alike') return true;
  return false;
}

/** Whether a corner of `rings` is closer than `distance` to an edge of `others`. */
function cornersCloser(rings: readonly Ring[], others: readonly Ring[], distance: number): boolean {
  const reach = growBox(boxOf(others.flat()), distance);
  const corners = rings.flat().filter((p) => inBox(p, reach));
  return others.some((ring) =>
    ring.some((from, i) => {
      const to = ring[(i + 1) % ring.length] as Point;
      const near = growBox(boxOf([from, to]), distance);
      return corners.some((p) => inBox(p, near) && pointCloserThan(p, from, to, distance));
    }),
  );
}

function inBox(p: Point, box: Box): boolean {
  return box.minX < p.x && p.x < box.maxX && box.minY < p.y && p.y < box.maxY;
}
