import type { Box } from '../../geometry/box.ts';
import { convexHull } from '../../geometry/hull.ts';
import type { Point } from '../../geometry/point.ts';
import type { Ring } from '../../geometry/shape.ts';

/**
 * The part of a convex ring that lies in a box, as a convex ring with whole corners.
 *
 * Idea: the ring is cut along the lines of the box's four sides in turn. Where it crosses a line at a place that is not whole, both whole
 * neighbours on the line are taken, and a hull of all corners makes the ring convex again: so it is never smaller than the true cut,
 * and larger by less than one base length. Sides of the box may lie at infinity.
 * Source: Sutherland & Hodgman 1974, "Reentrant polygon clipping", Communications of the ACM 17.
 * Degenerate cases: null where nothing of any area is left.
 */
export function clipConvex(ring: Ring, { minX, minY, maxX, maxY }: Box): Ring | null {
  const points = [
    { axis: 'x', limit: minX, sign: 1 } as const,
    { axis: 'y', limit: minY, sign: 1 } as const,
    { axis: 'x', limit: maxX, sign: -1 } as const,
    { axis: 'y', limit: maxY, sign: -1 } as const,
  ].reduce(cut, ring);
  const hull = convexHull(points);
  return hull.length < 3 ? null : hull;
}

/** What lies on the greater side of the limit where `sign` is 1, on the smaller side where it is -1. */
interface Line {
  readonly axis: 'x' | 'y';
  readonly limit: number;
  readonly sign: 1 | -1;
}

function cut(ring: Ring, { axis, limit, sign }: Line): Ring {
  const across = axis === 'x' ? 'y' : 'x';
  const inside = (p: Point) => sign * (p[axis] - limit) >= 0;
  return ring.flatMap((p, i) => {
    const q = ring[(i + 1) % ring.length] as Point;
    if (inside(p) === inside(q)) return inside(p) ? [p] : [];
    const rise = (q[across] - p[across]) * (limit - p[axis]);
    const at = p[across] + rise / (q[axis] - p[axis]);
    const crossings = [Math.floor(at), Math.ceil(at)].map((value) =>
      axis === 'x' ? { x: limit, y: value } : { x: value, y: limit },
    );
    return inside(p) ? [p, ...crossings] : crossings;
  });
}
