import type { Point } from './point.ts';
import type { Region, Ring } from './shape.ts';

/**
 * Signed area in squared base lengths: positive for a counter-clockwise ring. Exact while the running double sum stays
 * below 2^53, as it does for spans up to 2^25; beyond that it errs in the last places only.
 */
export function ringArea(ring: Ring): number {
  const first = ring[0];
  if (first === undefined) return 0;
  let twice = 0;
  for (let i = 2; i < ring.length; i++) {
    const a = ring[i - 1] as Point;
    const b = ring[i] as Point;
    twice += (a.x - first.x) * (b.y - first.y) - (a.y - first.y) * (b.x - first.x);
  }
  return twice / 2;
}

/** Area of the material: the outer ring less the holes. */
export function regionArea(region: Region): number {
  return region.holes.reduce((sum, hole) => sum + ringArea(hole), ringArea(region.outer));
}

/** Length of the closed ring in base lengths. */
export function ringLength(ring: Ring): number {
  let length = 0;
  let from = ring[ring.length - 1] as Point;
  for (const to of ring) {
    const dx = to.x - from.x;
    const dy = to.y - from.y;
    length += Math.sqrt(dx * dx + dy * dy);
    from = to;
  }
  return length;
}
