/**
 * The Minkowski sum of two convex rings: every point of one added to every point of the other.
 *
 * Its sides are the sides of both rings in the order of their direction, so one merge from the two lowest corners
 * gives it. Sides of one direction become one side. Source: de Berg, Cheong, van Kreveld & Overmars 2008,
 * "Computational Geometry", 3rd edition, section 13.3. We compare by the half turn first, so that rings of no area (a
 * point, a doubled segment) work too.
 * Cost: one pass. Exact while each ring spans at most 2^26.
 */
import type { Point } from './point.ts';
import type { Ring } from './shape.ts';

/** Counter-clockwise from the lowest (then left-most) corner, without corners on its straight sides. */
export function convexSum(a: Ring, b: Ring): Ring {
  const startA = lowest(a);
  const startB = lowest(b);
  const sides = mergeSides(sidesFrom(a, startA), sidesFrom(b, startB));
  let { x, y } = {
    x: cornerAt(a, startA).x + cornerAt(b, startB).x,
    y: cornerAt(a, startA).y + cornerAt(b, startB).y,
  };
  if (sides.length === 0) return [{ x, y }];
  return sides.map((side) => {
    const corner = { x, y };
    x += side.x;
    y += side.y;
    return corner;
  });
}

/** The ring turned half round the origin: the points whose negatives lie in it. */
export function negate(ring: Ring): Ring {
  return ring.map(({ x, y }) => ({ x: 0 - x, y: 0 - y }));
}

function lowest(ring: Ring): number {
  let best = 0;
  for (let i = 1; i < ring.length; i++) {
    const p = cornerAt(ring, i);
    const q = cornerAt(ring, best);
    if (p.y < q.y || (p.y === q.y && p.x < q.x)) best = i;
  }
  return best;
}

function cornerAt(ring: Ring, index: number): Point {
  return ring[index % ring.length] as Point;
}

/** The sides as vectors, from the given corner on; sides of no length are left out. */
function sidesFrom(ring: Ring, start: number): Point[] {
  return ring
    .map((_, i) => {
      const from = cornerAt(ring, start + i);
      const to = cornerAt(ring, start + i + 1);
      return { x: to.x - from.x, y: to.y - from.y };
    })
    .filter((side) => side.x !== 0 || side.y !== 0);
}

function mergeSides(a: readonly Point[], b: readonly Point[]): Point[] {
  const merged: Point[] = [];
  for (let i = 0, j = 0; i < a.length || j < b.length; ) {
    const fromA = a[i];
    const fromB = b[j];
    const takeA =
      fromB === undefined || (fromA !== undefined && compareDirections(fromA, fromB) <= 0);
    const side = (takeA ? fromA : fromB) as Point;
    if (takeA) i++;
    else j++;
    const last = merged[merged.length - 1];
    if (last !== undefined && compareDirections(last, side) === 0) {
      merged[merged.length - 1] = { x: last.x + side.x, y: last.y + side.y };
    } else {
      merged.push(side);
    }
  }
  return merged;
}

/** Below 0 where `a` comes first, turning counter-clockwise from the positive x axis. */
function compareDirections(a: Point, b: Point): number {
  const halfA = a.y > 0 || (a.y === 0 && a.x > 0) ? 0 : 1;
  const halfB = b.y > 0 || (b.y === 0 && b.x > 0) ? 0 : 1;
  if (halfA !== halfB) return halfA - halfB;
  return a.y * b.x - a.x * b.y;
}
