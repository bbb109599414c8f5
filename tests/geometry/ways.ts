/** The eight ways a body lies on the grid without rounding, for tests that must not care which. */
import type { Point } from '../../src/geometry/point.ts';
import { type Pose, placeRegion } from '../../src/geometry/pose.ts';
import type { Region, Ring } from '../../src/geometry/shape.ts';

export const WAYS: readonly Pose[] = [0, 90, 180, 270].flatMap((turn) =>
  [false, true].map((mirrored) => ({ x: 1003, y: -577, turn, mirrored })),
);

export function scaleRegion(region: Region, by: number): Region {
  return { outer: scaleRing(region.outer, by), holes: region.holes.map((h) => scaleRing(h, by)) };
}

export function moveRegion(region: Region, x: number, y: number): Region {
  return placeRegion(region, { x, y, turn: 0, mirrored: false });
}

export function placeRing(ring: Ring, pose: Pose): Ring {
  return placeRegion({ outer: ring, holes: [] }, pose).outer;
}

export function ringOf(...corners: readonly (readonly [number, number])[]): Ring {
  return corners.map(([x, y]) => ({ x, y }));
}

/** The ring from its least corner on, so that rings that start elsewhere compare alike. */
export function fromLeast(ring: Ring): Ring {
  let start = 0;
  for (const [i, p] of ring.entries()) {
    const least = ring[start] as Point;
    if (p.x < least.x || (p.x === least.x && p.y < least.y)) start = i;
  }
  return [...ring.slice(start), ...ring.slice(0, start)];
}

/** Points of the arc by angles about its centre, which the code under test never uses. */
export function arcSamples(a: Point, via: Point, c: Point, count: number): Point[] {
  const centre = centreThrough(a, via, c);
  const radius = Math.hypot(a.x - centre.x, a.y - centre.y);
  const angleOf = (p: Point) => Math.atan2(p.y - centre.y, p.x - centre.x);
  const full = 2 * Math.PI;
  const start = angleOf(a);
  const ahead = (angle: number) => (((angle - start) % full) + full) % full;
  const left = ahead(angleOf(c));
  const sweep = ahead(angleOf(via)) <= left ? left : left - full;
  return Array.from({ length: count + 1 }, (_, k) => ({
    x: centre.x + radius * Math.cos(start + (sweep * k) / count),
    y: centre.y + radius * Math.sin(start + (sweep * k) / count),
  }));
}

export function centreThrough(a: Point, b: Point, c: Point): Point {
  const [ux, uy, vx, vy] = [b.x - a.x, b.y - a.y, c.x - a.x, c.y - a.y];
  const twice = 2 * (ux * vy - uy * vx);
  const u2 = ux * ux + uy * uy;
  const v2 = vx * vx + vy * vy;
  return { x: a.x + (u2 * vy - v2 * uy) / twice, y: a.y + (v2 * ux - u2 * vx) / twice };
}

function scaleRing(ring: Ring, by: number): Ring {
  return ring.map(({ x, y }) => ({ x: x * by, y: y * by }));
}
