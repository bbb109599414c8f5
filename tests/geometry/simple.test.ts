import { describe, expect, it } from 'vitest';
import { regionsOverlap } from '../../src/geometry/distance.ts';
import { orientation, type Point } from '../../src/geometry/point.ts';
import { placePoint } from '../../src/geometry/pose.ts';
import { segmentsMeet } from '../../src/geometry/segments.ts';
import type { Ring } from '../../src/geometry/shape.ts';
import { firstCrossing, ringsCross } from '../../src/geometry/simple.ts';
import { seededRandom } from '../../src/packing/random.ts';
import { randomInteger, randomRing, randomStar } from './random-shapes.ts';
import { placeRing, ringOf, WAYS } from './ways.ts';

describe('the first crossing of a ring', () => {
  it.each<[string, Ring, readonly [number, number] | null]>([
    ['square', ringOf([0, 0], [4, 0], [4, 4], [0, 4]), null],
    [
      'square with corners on its sides',
      ringOf([0, 0], [2, 0], [4, 0], [4, 4], [0, 4], [0, 2]),
      null,
    ],
    ['bow tie', ringOf([0, 0], [4, 4], [4, 0], [0, 4]), [2, 2]],
    ['corner on a far side', ringOf([0, 0], [8, 0], [8, 8], [4, 0], [0, 8]), [4, 0]],
    ['corner on a far corner', ringOf([0, 0], [8, 0], [8, 8], [4, 4], [0, 8], [4, 4]), [4, 4]],
    [
      'sides along one another',
      ringOf([0, 0], [8, 0], [8, 8], [6, 8], [6, 0], [2, 0], [2, 8], [0, 8]),
      [6, 0],
    ],
    ['spike', ringOf([0, 0], [8, 0], [8, 4], [12, 4], [8, 4], [8, 8], [0, 8]), [8, 4]],
    ['spike after the start', ringOf([4, 0], [9, 0], [0, 0], [0, 4], [4, 4]), [9, 0]],
    ['spike at the start', ringOf([9, 0], [5, 0], [5, 4], [1, 4], [0, 0]), [9, 0]],
    ['repeated corner', ringOf([0, 0], [4, 0], [4, 0], [4, 4]), [4, 0]],
  ])('%s', (_, ring, place) => {
    for (const way of WAYS) {
      // Mirrored, the ring runs the other way, so another crossing may come first.
      const found = firstCrossing(placeRing(ring, way));
      if (place === null) expect(found).toBe(null);
      else if (way.mirrored) expect(found).not.toBe(null);
      else expect(found).toEqual(placePoint({ x: place[0], y: place[1] }, way));
    }
  });

  it('agrees with looking at all pairs', () => {
    const random = seededRandom(31);
    let simple = 0;
    for (let i = 0; i < 3000; i++) {
      const ring = Array.from({ length: 3 + randomInteger(random, 4) }, () => ({
        x: randomInteger(random, 7),
        y: randomInteger(random, 7),
      }));
      const expected = allPairsSimple(ring);
      if (expected) simple++;
      expect(firstCrossing(ring) === null, JSON.stringify(ring)).toBe(expected);
    }
    expect(simple).toBeGreaterThan(500);
  });

  it('is none for a star of a thousand corners', () => {
    expect(firstCrossing(randomStar(seededRandom(32), 1000, 3_000_000))).toBe(null);
  });
});

describe('crossing of two rings', () => {
  const square = ringOf([0, 0], [10, 0], [10, 10], [0, 10]);

  it.each<[string, Ring, boolean]>([
    ['apart', ringOf([20, 0], [22, 0], [22, 2]), false],
    ['inside', ringOf([2, 2], [4, 2], [4, 4]), false],
    ['inside, along a side', ringOf([2, 0], [4, 0], [4, 4]), false],
    ['outside, along a side', ringOf([2, 0], [4, -4], [4, 0]), false],
    ['the same', square, false],
    ['over a side', ringOf([5, 5], [15, 4], [15, 6]), true],
    ['through two corners', ringOf([-5, -5], [15, 15], [-5, 15]), true],
    ['through a corner and inside it ends on a side', ringOf([-2, -2], [10, 10], [-2, 0]), true],
    ['around', ringOf([-1, -1], [11, -1], [11, 11], [-1, 11]), false],
  ])('%s', (_, ring, cross) => {
    for (const way of WAYS) {
      expect(ringsCross(placeRing(square, way), placeRing(ring, way))).toBe(cross);
      expect(ringsCross([...placeRing(ring, way)].reverse(), placeRing(square, way))).toBe(cross);
    }
  });

  it('is overlap without either lying in the other', () => {
    const random = seededRandom(33);
    const frame = ringOf([-20, -20], [30, -20], [30, 30], [-20, 30]);
    for (let i = 0; i < 800; i++) {
      const [a, b] = [0, 1].map(() => randomRing(random, 3 + randomInteger(random, 5), 6)) as [
        Ring,
        Ring,
      ];
      const body = (outer: Ring) => ({ outer, holes: [] });
      const rest = (ring: Ring) => ({ outer: frame, holes: [[...ring].reverse()] });
      const expected =
        regionsOverlap(body(a), body(b)) &&
        regionsOverlap(body(a), rest(b)) &&
        regionsOverlap(body(b), rest(a));
      expect(ringsCross(a, b), JSON.stringify([a, b])).toBe(expected);
    }
  });
});

/** By all pairs: neighbours may share their corner only, others nothing. */
function allPairsSimple(ring: Ring): boolean {
  const n = ring.length;
  const at = (i: number) => ring[i % n] as Point;
  for (let i = 0; i < n; i++) {
    const [a, b, c] = [at(i), at(i + 1), at(i + 2)];
    const back = (b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y) <= 0;
    if (orientation(a, b, c) === 0 && back) return false;
    for (let j = i + 2; j < n; j++) {
      if (i === 0 && j === n - 1) continue;
      if (segmentsMeet(a, b, at(j), at(j + 1))) return false;
    }
  }
  return true;
}
