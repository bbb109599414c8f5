/** What is free on a sheet while bodies are laid side by side: rings, counter-clockwise around free room and clockwise around what lies inside it. */
import { boxOf } from '../../geometry/box.ts';
import { withoutStraightCorners } from '../../geometry/corners.ts';
import { orientation, type Point } from '../../geometry/point.ts';
import type { Edge } from '../../geometry/segments.ts';
import type { Ring } from '../../geometry/shape.ts';
import { traceRings } from '../../geometry/trace-rings.ts';

/** A corner of less than 180 degrees, and the next one on its ring. */
export interface ConvexCorner {
  readonly at: Point;
  readonly after: Point;
}

export function convexCorners(ring: Ring): ConvexCorner[] {
  return ring.flatMap((at, i) => {
    const before = ring.at(i - 1) as Point;
    const after = ring[(i + 1) % ring.length] as Point;
    return orientation(before, at, after) > 0 ? [{ at, after }] : [];
  });
}

export function movedRing(ring: Ring, by: Point): Ring {
  return ring.map(({ x, y }) => ({ x: x + by.x, y: y + by.y }));
}

/** The free room less what lies within the ring, which must not reach out of it. */
export function roomWithout(free: readonly Ring[], taken: Ring): Ring[] {
  return traceRings([...free, taken.toReversed()])
    .map(withoutStraightCorners)
    .filter((ring) => ring.length > 2);
}

/** Whether no side of the free room runs through the inside of a convex part that is moved. */
export function isClear(sides: readonly Edge[], part: Ring, by: Point): boolean {
  const { minX, minY, maxX, maxY } = boxOf(part);
  for (const { from, to } of sides) {
    const fromX = from.x - by.x;
    const fromY = from.y - by.y;
    const toX = to.x - by.x;
    const toY = to.y - by.y;
    const isFar =
      (fromX <= minX && toX <= minX) ||
      (fromX >= maxX && toX >= maxX) ||
      (fromY <= minY && toY <= minY) ||
      (fromY >= maxY && toY >= maxY);
    if (!isFar && runsThrough(part, { x: fromX, y: fromY }, { x: toX, y: toY })) return false;
  }
  return true;
}

/** Convex bodies have no inner point in common exactly where the line of a side keeps them apart; a stretch has one line only. */
function runsThrough(part: Ring, from: Point, to: Point): boolean {
  let before = part.at(-1) as Point;
  let hasLeft = false;
  let hasRight = false;
  for (const corner of part) {
    if (orientation(before, corner, from) <= 0 && orientation(before, corner, to) <= 0)
      return false;
    const turn = orientation(from, to, corner);
    if (turn > 0) hasLeft = true;
    if (turn < 0) hasRight = true;
    before = corner;
  }
  return hasLeft && hasRight;
}
