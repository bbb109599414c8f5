import { describe, expect, it } from 'vitest';
import { regionArea } from '../../src/geometry/area.ts';
import { intersect } from '../../src/geometry/boolean.ts';
import { convexParts } from '../../src/geometry/convex-parts.ts';
import {
  closerThan,
  distanceToSegment2,
  pointCloserThan,
  regionsOverlap,
  regionWithin,
} from '../../src/geometry/distance.ts';
import { orientation, type Point } from '../../src/geometry/point.ts';
import { placeRegion } from '../../src/geometry/pose.ts';
import type { Region, Ring } from '../../src/geometry/shape.ts';
import { type Random, seededRandom } from '../../src/packing/random.ts';
import { randomInteger, randomRegion, randomRing } from './random-shapes.ts';
import { moveRegion, ringOf, scaleRegion, WAYS } from './ways.ts';

const solid = (...corners: readonly (readonly [number, number])[]): Region => ({
  outer: ringOf(...corners),
  holes: [],
});

const SQUARE = solid([0, 0], [10, 0], [10, 10], [0, 10]);
const FRAME: Region = { outer: SQUARE.outer, holes: [ringOf([2, 2], [2, 8], [8, 8], [8, 2])] };
const L_SHAPE = solid([0, 0], [6, 0], [6, 2], [2, 2], [2, 6], [0, 6]);

describe('overlap', () => {
  it.each<[string, Region, Region, boolean]>([
    ['apart', SQUARE, moveRegion(SQUARE, 11, 0), false],
    ['side on side', SQUARE, moveRegion(SQUARE, 10, 0), false],
    ['half a side on a side', SQUARE, moveRegion(SQUARE, 10, 5), false],
    ['corner on corner', SQUARE, moveRegion(SQUARE, 10, 10), false],
    ['corner on a side', SQUARE, solid([10, 5], [14, 1], [14, 9]), false],
    ['by one unit', SQUARE, moveRegion(SQUARE, 9, 0), true],
    ['by one unit both ways', SQUARE, moveRegion(SQUARE, 9, 9), true],
    ['identical', SQUARE, SQUARE, true],
    ['identical frames', FRAME, FRAME, true],
    ['inside', SQUARE, solid([3, 3], [6, 3], [6, 6]), true],
    ['inside, sharing a side', SQUARE, solid([0, 0], [10, 0], [5, 5]), true],
    ['inside, sharing all corners but one', SQUARE, solid([0, 0], [10, 0], [10, 10]), true],
    [
      'a cross: no corner inside the other',
      solid([0, 4], [12, 4], [12, 6], [0, 6]),
      solid([5, 0], [7, 0], [7, 9], [5, 9]),
      true,
    ],
    ['through opposite corners', SQUARE, solid([-2, -2], [12, 12], [12, 13], [-3, -2]), true],
    ['along the diagonal, corner to corner', SQUARE, solid([0, 0], [10, 10], [0, 10]), true],
    ['filling a hole exactly', FRAME, solid([2, 2], [8, 2], [8, 8], [2, 8]), false],
    ['loose in a hole', FRAME, solid([3, 3], [6, 3], [6, 6]), false],
    ['in a hole, a corner on its edge', FRAME, solid([2, 5], [6, 3], [6, 6]), false],
    ['in a hole and over its edge', FRAME, solid([1, 5], [6, 3], [6, 6]), true],
    ['in the material beside a hole', FRAME, solid([0, 0], [2, 0], [2, 2]), true],
    ['round the whole frame', FRAME, solid([-1, -1], [11, -1], [11, 11], [-1, 11]), true],
    [
      'a frame whose hole is exactly the square',
      SQUARE,
      {
        outer: ringOf([-5, -5], [15, -5], [15, 15], [-5, 15]),
        holes: [ringOf([0, 0], [0, 10], [10, 10], [10, 0])],
      },
      false,
    ],
    ['crossed frames', FRAME, moveRegion(FRAME, 5, 5), true],
    ['frame in the hole of a larger frame', scaleRegion(FRAME, 2), moveRegion(FRAME, 5, 5), false],
    ['in the notch of an L', L_SHAPE, solid([2, 2], [6, 2], [6, 6], [2, 6]), false],
    [
      'two L interlocked',
      L_SHAPE,
      placeRegion(L_SHAPE, { x: 8, y: 8, turn: 180, mirrored: false }),
      false,
    ],
    [
      'two L interlocked and one unit too near',
      L_SHAPE,
      placeRegion(L_SHAPE, { x: 7, y: 7, turn: 180, mirrored: false }),
      true,
    ],
    [
      'saw teeth in one another',
      solid([0, 0], [12, 0], [12, 4], [9, 1], [6, 4], [3, 1], [0, 4]),
      solid([0, 4], [3, 1], [6, 4], [9, 1], [12, 4], [12, 9], [0, 9]),
      false,
    ],
    [
      'saw teeth, shifted',
      solid([0, 0], [12, 0], [12, 4], [9, 1], [6, 4], [3, 1], [0, 4]),
      solid([1, 4], [4, 1], [7, 4], [10, 1], [13, 4], [13, 9], [1, 9]),
      true,
    ],
    [
      'a side through two corners of the other',
      solid([0, 0], [8, 0], [4, 4]),
      solid([0, 0], [4, 4], [8, 8], [0, 8]),
      false,
    ],
  ])('%s', (_, a, b, overlap) => {
    for (const way of WAYS) {
      const [p, q] = [placeRegion(a, way), placeRegion(b, way)];
      expect(regionsOverlap(p, q)).toBe(overlap);
      expect(regionsOverlap(q, p)).toBe(overlap);
    }
    expect(regionsOverlap(scaleRegion(a, 1_000_003), scaleRegion(b, 1_000_003))).toBe(overlap);
  });

  it('agrees with separating lines between convex parts, on grids that make touching frequent', () => {
    const random = seededRandom(21);
    let overlaps = 0;
    for (let i = 0; i < 1500; i++) {
      const [a, b] = randomPair(random);
      const expected = partsOverlap(a, b);
      if (expected) overlaps++;
      expect(regionsOverlap(a, b), JSON.stringify([a, b])).toBe(expected);
      expect(regionsOverlap(b, a), JSON.stringify([b, a])).toBe(expected);
    }
    expect(overlaps).toBeGreaterThan(300);
    expect(overlaps).toBeLessThan(1400);
  });

  it('agrees with the area of the intersection', () => {
    const random = seededRandom(22);
    for (let i = 0; i < 400; i++) {
      const [a, b] = randomPair(random);
      const scale = 2 ** 18;
      const common = intersect([scaleRegion(a, scale)], [scaleRegion(b, scale)]);
      const area = common.reduce((sum, region) => sum + regionArea(region), 0);
      // Clipped corners are rounded, so a sliver along the common border may remain where bodies touch.
      const sliver = 64 * scale;
      if (!regionsOverlap(a, b)) expect(area).toBeLessThan(sliver);
      if (area > sliver) expect(regionsOverlap(a, b)).toBe(true);
    }
  });
});

describe('distance', () => {
  it.each<[string, Region, Region, number]>([
    ['side to side', SQUARE, moveRegion(SQUARE, 17, 3), 49],
    ['corner to corner', SQUARE, moveRegion(SQUARE, 13, 14), 25],
    [
      'corner to a slanted side',
      solid([0, 0], [8, 6], [0, 6]),
      solid([7, -1], [12, -1], [12, 2]),
      25,
    ],
    ['touching', SQUARE, moveRegion(SQUARE, 10, 10), 0],
    ['in a hole', FRAME, solid([4, 4], [6, 4], [6, 6], [4, 6]), 4],
    [
      'off the end of a side',
      solid([0, 0], [10, 0], [10, 1]),
      solid([13, 5], [20, 5], [20, 9]),
      25,
    ],
  ])('%s', (_, a, b, distance2) => {
    const distance = Math.sqrt(distance2);
    for (const way of WAYS) {
      const [p, q] = [placeRegion(a, way), placeRegion(b, way)];
      expect([closerThan(p, q, distance), closerThan(q, p, distance)]).toEqual([false, false]);
      expect([closerThan(p, q, distance + 1), closerThan(q, p, distance + 1)]).toEqual([
        true,
        true,
      ]);
      if (distance > 0) expect(closerThan(p, q, distance - 1)).toBe(false);
    }
    const scale = 1_000_003;
    const [p, q] = [scaleRegion(a, scale), scaleRegion(b, scale)];
    expect(closerThan(p, q, distance * scale)).toBe(false);
    expect(closerThan(p, q, distance * scale + 1)).toBe(true);
  });

  it('is less than any where bodies overlap', () => {
    expect(closerThan(SQUARE, solid([3, 3], [6, 3], [6, 6]), 0)).toBe(true);
    expect(closerThan(SQUARE, solid([3, 3], [6, 3], [6, 6]), 1)).toBe(true);
  });

  it('agrees with BigInt over all pairs of sides', () => {
    const random = seededRandom(23);
    for (let i = 0; i < 600; i++) {
      const a = randomBody(random);
      const b = moveRegion(
        randomBody(random),
        randomInteger(random, 24) - 12,
        randomInteger(random, 24) - 12,
      );
      const overlap = partsOverlap(a, b);
      for (const distance of [0, 1, 2, 5, 10]) {
        const expected = overlap || sidesCloser(a, b, BigInt(distance));
        expect(closerThan(a, b, distance), JSON.stringify([a, b, distance])).toBe(expected);
      }
    }
  });
});

describe('a point and a segment', () => {
  it('are told apart by the smallest possible difference at the largest span', () => {
    // Sides of right triangles m² - n², 2mn, m² + n²: points at exactly a whole distance exist beside them.
    for (const [m, n] of [
      [6000, 1],
      [5801, 4000],
      [7001, 1234],
      [5000, 4999],
    ] as const) {
      const length = m * m + n * n;
      const to = { x: m * m - n * n, y: 2 * m * n };
      const from = { x: 0, y: 0 };
      for (const distance of [1, 50_800, 64_000, 1_000_003]) {
        const at = (cross: bigint) => pointWithCross(to, cross);
        const exact = BigInt(distance) * BigInt(length);
        expect(pointCloserThan(at(exact), from, to, distance)).toBe(false);
        expect(pointCloserThan(at(exact + 1n), from, to, distance)).toBe(false);
        expect(pointCloserThan(at(exact - 1n), from, to, distance)).toBe(true);
        expect(pointCloserThan(at(-exact), from, to, distance)).toBe(false);
        expect(pointCloserThan(at(1n - exact), from, to, distance)).toBe(true);
      }
    }
  });

  it.each([
    [[5, 3], 9],
    [[-3, 4], 25],
    [[13, -4], 25],
    [[4, 0], 0],
  ] as const)('%o: squared distance', ([x, y], distance2) => {
    expect(distanceToSegment2({ x, y }, { x: 0, y: 0 }, { x: 10, y: 0 })).toBe(distance2);
    expect(distanceToSegment2({ x, y }, { x: 10, y: 0 }, { x: 0, y: 0 })).toBe(distance2);
  });

  it('measures to the point where the segment has no length', () => {
    expect(distanceToSegment2({ x: 3, y: 4 }, { x: 0, y: 0 }, { x: 0, y: 0 })).toBe(25);
    expect(pointCloserThan({ x: 3, y: 4 }, { x: 0, y: 0 }, { x: 0, y: 0 }, 5)).toBe(false);
    expect(pointCloserThan({ x: 3, y: 4 }, { x: 0, y: 0 }, { x: 0, y: 0 }, 6)).toBe(true);
  });
});

describe('a region in a box', () => {
  it('may touch its border and not pass it', () => {
    const box = { minX: 0, minY: 0, maxX: 10, maxY: 10 };
    expect(regionWithin(SQUARE, box)).toBe(true);
    expect(regionWithin(moveRegion(SQUARE, 1, 0), box)).toBe(false);
  });
});

function randomBody(random: Random): Region {
  if (random() < 0.3) return randomRegion(random, 3 + randomInteger(random, 6), 4, 2);
  const ring = randomRing(random, 3 + randomInteger(random, 5), 4 + randomInteger(random, 3));
  return { outer: ring, holes: [] };
}

/** Two bodies near one another, every eighth time the same one. */
function randomPair(random: Random): [Region, Region] {
  const a = randomBody(random);
  if (random() < 0.125) return [a, a];
  return [
    a,
    moveRegion(randomBody(random), randomInteger(random, 9) - 4, randomInteger(random, 9) - 4),
  ];
}

function partsOverlap(a: Region, b: Region): boolean {
  const parts = convexParts(b);
  return convexParts(a).some((p) => parts.some((q) => !separatedBy(p, q) && !separatedBy(q, p)));
}

/** Whether the line of some side of `a` has all of `b` on its outer side. */
function separatedBy(a: Ring, b: Ring): boolean {
  return a.some((p, i) => b.every((r) => orientation(p, a[(i + 1) % a.length] as Point, r) <= 0));
}

function sidesCloser(a: Region, b: Region, distance: bigint): boolean {
  const ringsOf = ({ outer, holes }: Region) => [outer, ...holes];
  const near = (from: Region, to: Region) =>
    ringsOf(from).some((corners) =>
      ringsOf(to).some((ring) =>
        corners.some((p) =>
          ring.some((q, i) => bigCloser(p, q, ring[(i + 1) % ring.length] as Point, distance)),
        ),
      ),
    );
  return near(a, b) || near(b, a);
}

function bigCloser(p: Point, from: Point, to: Point, distance: bigint): boolean {
  const [ux, uy] = [BigInt(to.x - from.x), BigInt(to.y - from.y)];
  const [wx, wy] = [BigInt(p.x - from.x), BigInt(p.y - from.y)];
  const length2 = ux * ux + uy * uy;
  const along = wx * ux + wy * uy;
  const square = distance * distance;
  if (along <= 0n) return wx * wx + wy * wy < square;
  if (along >= length2) return (wx - ux) ** 2n + (wy - uy) ** 2n < square;
  return (ux * wy - uy * wx) ** 2n < square * length2;
}

/** A grid point whose cross product with `u` (coprime coordinates) is `cross`, beside the middle of `u`. */
function pointWithCross(u: Point, cross: bigint): Point {
  const [ux, uy] = [BigInt(u.x), BigInt(u.y)];
  const [, s, t] = euclid(ux, uy);
  // ux·(s·cross) - uy·(-t·cross) = cross; any multiple of u may be added.
  const [x, y] = [-t * cross, s * cross];
  const length2 = ux * ux + uy * uy;
  const shift = (x * ux + y * uy) / length2;
  const half = { x: Number(x - shift * ux), y: Number(y - shift * uy) };
  const along = half.x * u.x + half.y * u.y;
  return along > 0 ? half : { x: half.x + u.x, y: half.y + u.y };
}

/** Greatest common divisor and its factors: s·a + t·b = g. */
function euclid(a: bigint, b: bigint): [bigint, bigint, bigint] {
  if (b === 0n) return [a, 1n, 0n];
  const [g, s, t] = euclid(b, a % b);
  return [g, t, s - (a / b) * t];
}
