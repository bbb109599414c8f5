/** Exact questions about straight segments, for coordinates that span at most 2^26. */
import { orientation, type Point, samePoint } from './point.ts';
import type { Ring } from './shape.ts';

/** A straight side of a ring, in walking order. */
export interface Edge {
  readonly from: Point;
  readonly to: Point;
}

export function edgesOf(ring: Ring): Edge[] {
  return ring.map((from, i) => ({ from, to: ring[(i + 1) % ring.length] as Point }));
}

/** Squared distance; exact while it stays below 2^53. */
export function distance2(p: Point, q: Point): number {
  return (p.x - q.x) * (p.x - q.x) + (p.y - q.y) * (p.y - q.y);
}

/** Whether `p` lies on the segment, its ends included. */
export function liesOn(p: Point, from: Point, to: Point): boolean {
  return (
    Math.min(from.x, to.x) <= p.x &&
    p.x <= Math.max(from.x, to.x) &&
    Math.min(from.y, to.y) <= p.y &&
    p.y <= Math.max(from.y, to.y) &&
    orientation(from, to, p) === 0
  );
}

/** Those of `points` that lie strictly between the ends of the segment, in walking order. */
export function pointsOn(from: Point, to: Point, points: readonly Point[]): Point[] {
  const gone = (p: Point) => Math.abs(p.x - from.x) + Math.abs(p.y - from.y);
  return points
    .filter((p) => liesOn(p, from, to) && !samePoint(p, from) && !samePoint(p, to))
    .sort((p, q) => gone(p) - gone(q));
}

/** Whether two segments share a point, ends included. */
export function segmentsMeet(a: Point, b: Point, c: Point, d: Point): boolean {
  if (Math.max(a.x, b.x) < Math.min(c.x, d.x) || Math.max(c.x, d.x) < Math.min(a.x, b.x))
    return false;
  if (Math.max(a.y, b.y) < Math.min(c.y, d.y) || Math.max(c.y, d.y) < Math.min(a.y, b.y))
    return false;
  return !onOneSide(a, b, c, d) && !onOneSide(c, d, a, b);
}

/** Whether each segment has its ends strictly on both sides of the other. */
export function segmentsCross(a: Point, b: Point, c: Point, d: Point): boolean {
  if (Math.max(a.x, b.x) <= Math.min(c.x, d.x) || Math.max(c.x, d.x) <= Math.min(a.x, b.x))
    return false;
  if (Math.max(a.y, b.y) <= Math.min(c.y, d.y) || Math.max(c.y, d.y) <= Math.min(a.y, b.y))
    return false;
  return onBothSides(a, b, c, d) && onBothSides(c, d, a, b);
}

function onOneSide(a: Point, b: Point, c: Point, d: Point): boolean {
  const sideC = orientation(a, b, c);
  const sideD = orientation(a, b, d);
  return (sideC > 0 && sideD > 0) || (sideC < 0 && sideD < 0);
}

function onBothSides(a: Point, b: Point, c: Point, d: Point): boolean {
  const sideC = orientation(a, b, c);
  const sideD = orientation(a, b, d);
  return (sideC > 0 && sideD < 0) || (sideC < 0 && sideD > 0);
}
