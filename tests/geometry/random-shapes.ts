/** Seeded random rings and bodies for the tests of this folder, on coarse grids so that touching and collinear sides are frequent. */

import { ringArea } from '../../src/geometry/area.ts';
import { pointInRing } from '../../src/geometry/inside.ts';
import type { Point } from '../../src/geometry/point.ts';
import { segmentsMeet } from '../../src/geometry/segments.ts';
import type { Region, Ring } from '../../src/geometry/shape.ts';
import { firstCrossing } from '../../src/geometry/simple.ts';
import type { Random } from '../../src/packing/random.ts';

export function randomInteger(random: Random, below: number): number {
  return Math.floor(random() * below);
}

/** A simple counter-clockwise ring with corners on a grid of `size` by `size`: random corners, uncrossed by reversing runs. */
export function randomRing(random: Random, corners: number, size: number): Ring {
  for (;;) {
    const points = Array.from({ length: corners }, () => ({
      x: randomInteger(random, size),
      y: randomInteger(random, size),
    }));
    const ring = uncross(points);
    if (ring !== null) return ringArea(ring) > 0 ? ring : [...ring].reverse();
  }
}

/** A simple ring, four times as fine, and up to `holes` small holes strictly inside it and apart from one another. */
export function randomRegion(random: Random, corners: number, size: number, holes: number): Region {
  const outer = randomRing(random, corners, size).map(({ x, y }) => ({ x: 4 * x, y: 4 * y }));
  const kept: Ring[] = [];
  for (let tries = 0; tries < 40 && kept.length < holes; tries++) {
    const at = { x: randomInteger(random, 4 * size), y: randomInteger(random, 4 * size) };
    const small = randomRing(random, 3 + randomInteger(random, 3), 5);
    const hole = small.map(({ x, y }) => ({ x: x + at.x, y: y + at.y })).reverse();
    if (
      hole.every((p) => pointInRing(p, outer) === 1) &&
      !sidesMeet(outer, hole) &&
      !kept.some((r) => ringsMeet(r, hole))
    )
      kept.push(hole);
  }
  return { outer, holes: kept };
}

/** A ring whose corners lie all round the origin: far and near, so with many hollow corners. */
export function randomStar(random: Random, corners: number, radius: number): Ring {
  return Array.from({ length: corners }, (_, i) => {
    const angle = (2 * Math.PI * (i + 0.8 * random())) / corners;
    const reach = radius * (0.3 + 0.7 * random());
    return { x: Math.round(reach * Math.cos(angle)), y: Math.round(reach * Math.sin(angle)) };
  });
}

function ringsMeet(a: Ring, b: Ring): boolean {
  return (
    a.some((p) => pointInRing(p, b) >= 0) ||
    b.some((p) => pointInRing(p, a) >= 0) ||
    sidesMeet(a, b)
  );
}

function sidesMeet(a: Ring, b: Ring): boolean {
  const side = (ring: Ring, i: number): [Point, Point] => [
    ring[i] as Point,
    ring[(i + 1) % ring.length] as Point,
  ];
  return a.some((_, i) => b.some((__, j) => segmentsMeet(...side(a, i), ...side(b, j))));
}

function uncross(points: Point[]): Ring | null {
  const n = points.length;
  for (let moves = 0; moves < 60; moves++) {
    const pair = crossingPair(points);
    if (pair === null) return firstCrossing(points) === null ? points : null;
    const [i, j] = pair;
    const run = points.slice(i + 1, j + 1).reverse();
    points.splice(i + 1, j - i, ...run);
  }
  return n < 3 ? points : null;
}

function crossingPair(points: readonly Point[]): [number, number] | null {
  const n = points.length;
  for (let i = 0; i < n; i++) {
    for (let j = i + 2; j < n; j++) {
      if (i === 0 && j === n - 1) continue;
      const [a, b, c, d] = [points[i], points[i + 1], points[j], points[(j + 1) % n]] as [
        Point,
        Point,
        Point,
        Point,
      ];
      if (segmentsMeet(a, b, c, d)) return [i, j];
    }
  }
  return null;
}
