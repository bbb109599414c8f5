import type { Contour } from '../../src/geometry/shape.ts';
import { UNITS_PER_MM } from '../../src/model/units.ts';

/**
 * Area in mm² inside a contour of lines and arcs through three points: the polygon of its corners and the segments over its chords,
 * whose radius is that of the circle round the triangle of the three points, abc / (4 area).
 */
export function contourAreaMm2(contour: Contour): number {
  const twice = contour.reduce((sum, from, i) => {
    const to = contour[(i + 1) % contour.length]!;
    const own = from.x * to.y - to.x * from.y;
    return sum + own + (from.via === null ? 0 : 2 * segment(from, from.via, to));
  }, 0);
  return Math.abs(twice / 2) / UNITS_PER_MM ** 2;
}

interface Spot {
  readonly x: number;
  readonly y: number;
}

/** Positive where the arc turns left. */
function segment(from: Spot, via: Spot, to: Spot): number {
  const distance = (p: Spot, q: Spot) => Math.hypot(p.x - q.x, p.y - q.y);
  const cross = (via.x - from.x) * (to.y - from.y) - (via.y - from.y) * (to.x - from.x);
  if (cross === 0) return 0;
  const [a, b, c] = [distance(from, via), distance(via, to), distance(from, to)];
  const radius = (a * b * c) / (2 * Math.abs(cross));
  // The angle at `via` stands over the rest of the circle.
  const atVia = Math.acos(Math.max(-1, Math.min(1, (a * a + b * b - c * c) / (2 * a * b))));
  const sweep = 2 * (Math.PI - atVia);
  return Math.sign(cross) * (radius ** 2 / 2) * (sweep - Math.sin(sweep));
}
