import { describe, expect, it } from 'vitest';
import { convexSum, negate } from '../../src/geometry/convex-sum.ts';
import { convexHull } from '../../src/geometry/hull.ts';
import { orientation, type Point } from '../../src/geometry/point.ts';
import type { Ring } from '../../src/geometry/shape.ts';
import { seededRandom } from '../../src/packing/random.ts';
import { randomInteger } from './random-shapes.ts';
import { fromLeast, placeRing, ringOf, WAYS } from './ways.ts';

describe('the convex hull', () => {
  it.each<[string, Ring, Ring]>([
    ['of nothing', [], []],
    ['of a point twice', ringOf([3, 3], [3, 3]), ringOf([3, 3])],
    ['of points on a line', ringOf([2, 2], [0, 0], [3, 3], [1, 1]), ringOf([0, 0], [3, 3])],
    [
      'of a square, its sides and its middle',
      ringOf([0, 0], [2, 0], [1, 0], [1, 1], [0, 2], [2, 2], [2, 1]),
      ringOf([0, 0], [2, 0], [2, 2], [0, 2]),
    ],
  ])('%s', (_, points, hull) => {
    expect(convexHull(points)).toEqual(hull);
    for (const way of WAYS) {
      const turned = convexHull(placeRing(points, way));
      expect(fromLeast(turned)).toEqual(fromLeast(placeRing(hull, way)));
    }
  });

  it('is convex and holds every point', () => {
    const random = seededRandom(51);
    for (let i = 0; i < 500; i++) {
      const points = randomPoints(1 + randomInteger(random, 20), () => randomInteger(random, 12));
      const hull = convexHull(points);
      expect(
        points.every(
          (p) => hull.length < 3 || sidesOf(hull).every(([a, b]) => orientation(a, b, p) >= 0),
        ),
      ).toBe(true);
      expect(hull.every((h) => points.some((p) => p.x === h.x && p.y === h.y))).toBe(true);
      if (hull.length > 2)
        expect(
          sidesOf(hull).every(
            ([a, b], k) => orientation(a, b, hull[(k + 2) % hull.length] as Point) > 0,
          ),
        ).toBe(true);
    }
  });
});

describe('the sum of two convex rings', () => {
  it.each<[string, Ring, Ring, Ring]>([
    [
      'squares',
      ringOf([0, 0], [2, 0], [2, 2], [0, 2]),
      ringOf([0, 0], [3, 0], [3, 3], [0, 3]),
      ringOf([0, 0], [5, 0], [5, 5], [0, 5]),
    ],
    [
      'square and triangle',
      ringOf([0, 0], [2, 0], [2, 2], [0, 2]),
      ringOf([0, 0], [4, 0], [0, 4]),
      ringOf([0, 0], [6, 0], [6, 2], [2, 6], [0, 6]),
    ],
    [
      'a point moves the ring',
      ringOf([5, 7]),
      ringOf([0, 0], [4, 0], [0, 4]),
      ringOf([5, 7], [9, 7], [5, 11]),
    ],
    ['two points', ringOf([5, 7]), ringOf([1, 1]), ringOf([6, 8])],
    [
      'segment and segment',
      ringOf([0, 0], [4, 0]),
      ringOf([0, 0], [0, 3]),
      ringOf([0, 0], [4, 0], [4, 3], [0, 3]),
    ],
    [
      'corners on sides are dropped',
      ringOf([0, 0], [1, 0], [2, 0], [2, 2], [0, 2]),
      ringOf([0, 0], [1, 0], [0, 1]),
      ringOf([0, 0], [3, 0], [3, 2], [2, 3], [0, 3]),
    ],
  ])('%s', (_, a, b, sum) => {
    for (const way of WAYS) {
      const here = { ...way, x: 0, y: 0 };
      expect(fromLeast(convexSum(placeRing(a, here), placeRing(b, here)))).toEqual(
        fromLeast(placeRing(sum, here)),
      );
      expect(fromLeast(convexSum(placeRing(b, here), placeRing(a, here)))).toEqual(
        fromLeast(placeRing(sum, here)),
      );
    }
  });

  it('is the hull of all sums of corners', () => {
    const random = seededRandom(52);
    for (let i = 0; i < 1500; i++) {
      const size = 3 + randomInteger(random, 20);
      const [a, b] = [0, 1].map(() =>
        convexHull(randomPoints(1 + randomInteger(random, 9), () => randomInteger(random, size))),
      ) as [Ring, Ring];
      const sums = a.flatMap((p) => b.map((q) => ({ x: p.x + q.x, y: p.y + q.y })));
      expect(fromLeast(convexSum(a, b)), JSON.stringify([a, b])).toEqual(convexHull(sums));
    }
  });

  it('is exact at the largest span', () => {
    const far = 2 ** 26;
    const a = ringOf([0, 0], [far, 1], [far - 1, far]);
    const b = negate(ringOf([0, 0], [far, 2], [far - 2, far]));
    const sums = a.flatMap((p) => b.map((q) => ({ x: p.x + q.x, y: p.y + q.y })));
    const bigTurn = (p: Point, q: Point, r: Point) =>
      BigInt(q.x - p.x) * BigInt(r.y - p.y) - BigInt(q.y - p.y) * BigInt(r.x - p.x);
    const ring = convexSum(a, b);
    expect(ring).toHaveLength(6);
    for (const [p, q] of sidesOf(ring))
      expect(sums.every((r) => bigTurn(p, q, r) >= 0n)).toBe(true);
  });

  it('negates without a negative zero', () => {
    expect(negate(ringOf([0, 1], [-2, 0]))).toEqual(ringOf([0, -1], [2, 0]));
  });
});

function randomPoints(count: number, value: () => number): Ring {
  return Array.from({ length: count }, () => ({ x: value(), y: value() }));
}

function sidesOf(ring: Ring): [Point, Point][] {
  return ring.map((p, i) => [p, ring[(i + 1) % ring.length] as Point]);
}
