import { orientation, type Point, samePoint } from './point.ts';
import type { Ring } from './shape.ts';

/**
 * The ring without repeated corners and without corners in the middle of a straight side; a doubled-back spike stays.
 */
export function withoutStraightCorners(ring: Ring): Point[] {
  const distinct = ring.filter(
    (p, i) => ring.length === 1 || !samePoint(p, ring.at(i - 1) as Point),
  );
  return distinct.filter((p, i) => {
    const before = distinct.at(i - 1) as Point;
    const after = distinct[(i + 1) % distinct.length] as Point;
    return orientation(before, p, after) !== 0 || foldsBack(before, p, after);
  });
}

/** Whether the way from `a` over `b` to `c`, three points on one line, runs back on itself. */
export function foldsBack(a: Point, b: Point, c: Point): boolean {
  return (b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y) <= 0;
}

/** Whether `toward` lies strictly inside the corner `before`-`at`-`after`, whose material is on the left. */
export function insideCorner(before: Point, at: Point, after: Point, toward: Point): boolean {
  const leftOfAfter = orientation(at, after, toward) > 0;
  const rightOfBefore = orientation(at, before, toward) < 0;
  return orientation(before, at, after) > 0
    ? leftOfAfter && rightOfBefore
    : leftOfAfter || rightOfBefore;
}
