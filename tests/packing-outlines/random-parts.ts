import { ringArea } from '../../src/geometry/area.ts';
import { convexHull } from '../../src/geometry/hull.ts';
import type { Ring } from '../../src/geometry/shape.ts';
import type { Random } from '../../src/packing/random.ts';

/** One or two convex rings with corners on a small grid, of some area. */
export function randomParts(random: Random, span: number): Ring[] {
  const first = randomConvex(random, span);
  return random() < 0.5 ? [first] : [first, randomConvex(random, span)];
}

export function randomBox(random: Random, span: number): Ring[] {
  const [width, height] = [1, 1].map((least) => least + Math.floor(random() * span));
  return [convexHull([0, width ?? 1].flatMap((x) => [0, height ?? 1].map((y) => ({ x, y }))))];
}

function randomConvex(random: Random, span: number): Ring {
  const corner = () => ({ x: Math.floor(random() * span), y: Math.floor(random() * span) });
  for (;;) {
    const hull = convexHull(Array.from({ length: 3 + Math.floor(random() * 4) }, corner));
    if (hull.length > 2 && ringArea(hull) > span) return hull;
  }
}
