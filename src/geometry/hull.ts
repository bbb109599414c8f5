/**
 * The convex hull of points.
 *
 * Sorted by x, then y, the points are walked once for the lower and once for the upper border; a point that does not
 * make a left turn is dropped. Source: Andrew 1979, "Another efficient algorithm for convex hulls in two dimensions",
 * Information Processing Letters 9. Cost: the sort. Exact for spans up to 2^26.
 * Degenerate: points on one line give its two ends, equal points give one point, no points give none.
 */
import { orientation, type Point } from './point.ts';
import type { Ring } from './shape.ts';

/** Counter-clockwise from the left-most (then lowest) point, without points on its straight sides. */
export function convexHull(points: Iterable<Point>): Ring {
  const sorted = [...points].sort((a, b) => a.x - b.x || a.y - b.y);
  const lower = border(sorted);
  const upper = border(sorted.reverse());
  if (lower.length < 2) return lower;
  return [...lower.slice(0, -1), ...upper.slice(0, -1)];
}

/** The right-hand border of points in walking order, both ends included. */
function border(sorted: readonly Point[]): Point[] {
  const kept: Point[] = [];
  for (const { x, y } of sorted) {
    while (kept.length > 0 && !turnsLeft(kept, { x, y })) kept.pop();
    kept.push({ x, y });
  }
  return kept;
}

function turnsLeft(kept: readonly Point[], next: Point): boolean {
  const last = kept[kept.length - 1] as Point;
  const before = kept[kept.length - 2];
  if (before === undefined) return last.x !== next.x || last.y !== next.y;
  return orientation(before, last, next) > 0;
}
