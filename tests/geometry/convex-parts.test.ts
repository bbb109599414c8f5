import { describe, expect, it } from 'vitest';
import { regionArea, ringArea } from '../../src/geometry/area.ts';
import { subtract, unite } from '../../src/geometry/boolean.ts';
import { convexParts } from '../../src/geometry/convex-parts.ts';
import { regionsOverlap } from '../../src/geometry/distance.ts';
import { flattenShape } from '../../src/geometry/flatten.ts';
import { orientation, type Point } from '../../src/geometry/point.ts';
import { placeRegion } from '../../src/geometry/pose.ts';
import {
  circle,
  type Region,
  type Ring,
  rectangle,
  reverseContour,
} from '../../src/geometry/shape.ts';
import { type Random, seededRandom } from '../../src/packing/random.ts';
import { randomInteger, randomRegion, randomRing, randomStar } from './random-shapes.ts';
import { ringOf, scaleRegion, WAYS } from './ways.ts';

const solid = (outer: Ring): Region => ({ outer, holes: [] });

const PLATE = flattenShape(
  {
    outer: [
      { x: 0, y: 0, via: null },
      { x: 4_000_000, y: 0, via: null },
      { x: 4_000_000, y: 1_600_000, via: { x: 2_000_000, y: 2_400_000 } },
      { x: 0, y: 1_600_000, via: null },
    ],
    inner: [
      reverseContour(circle({ x: 800_000, y: 800_000 }, 300_000)),
      reverseContour(circle({ x: 2_000_000, y: 1_200_000 }, 500_000)),
      reverseContour(rectangle(3_000_000, 300_000, 500_000, 900_000)),
    ],
  },
  'outside',
  400,
);

describe('convex parts', () => {
  it.each<[string, Region, number]>([
    ['a triangle', solid(ringOf([0, 0], [4, 0], [0, 4])), 1],
    [
      'a square with corners on its sides',
      solid(ringOf([0, 0], [2, 0], [4, 0], [4, 4], [1, 4], [0, 4])),
      1,
    ],
    ['an L', solid(ringOf([0, 0], [6, 0], [6, 2], [2, 2], [2, 6], [0, 6])), 2],
    ['a comb of four teeth', solid(comb(4)), 6],
    [
      'a frame',
      {
        outer: ringOf([0, 0], [9, 0], [9, 9], [0, 9]),
        holes: [ringOf([3, 3], [3, 6], [6, 6], [6, 3])],
      },
      4,
    ],
    [
      'a hole that touches the edge in a corner',
      { outer: ringOf([0, 0], [9, 0], [9, 9], [0, 9]), holes: [ringOf([0, 4], [3, 6], [3, 2])] },
      5,
    ],
    [
      'two holes that touch one another',
      {
        outer: ringOf([0, 0], [9, 0], [9, 9], [0, 9]),
        holes: [ringOf([2, 4], [4, 6], [4, 2]), ringOf([4, 4], [6, 6], [6, 2])],
      },
      8,
    ],
    ['a spike', solid(ringOf([0, 0], [4, 0], [4, 2], [8, 2], [4, 2], [4, 4], [0, 4])), 1],
    [
      'a ring pinched in a corner',
      solid(ringOf([0, 0], [4, 4], [8, 0], [8, 8], [4, 4], [0, 8])),
      2,
    ],
    ['no area', solid(ringOf([0, 0], [4, 4])), 0],
    [
      'a disc',
      flattenShape({ outer: circle({ x: 0, y: 0 }, 800_000), inner: [] }, 'outside', 400),
      1,
    ],
    ['a plate with an arched side and round holes', PLATE, 160],
  ])('of %s', (_, region, most) => {
    for (const way of WAYS) {
      const parts = convexParts(placeRegion(region, way));
      checkTiling(placeRegion(region, way), parts);
      expect(parts.length).toBeLessThanOrEqual(most);
    }
  });

  it('tile random rings', () => {
    const random = seededRandom(41);
    for (let i = 0; i < 600; i++) {
      const region = solid(
        randomRing(random, 4 + randomInteger(random, 14), 5 + randomInteger(random, 7)),
      );
      const parts = convexParts(region);
      checkTiling(region, parts);
      expect(parts.length).toBeLessThanOrEqual(2 * hollowCorners(region) + 1);
    }
  });

  it('tile random regions with holes', () => {
    const random = seededRandom(42);
    let holes = 0;
    for (let i = 0; i < 400; i++) {
      const region = randomRegion(
        random,
        4 + randomInteger(random, 12),
        6 + randomInteger(random, 6),
        4,
      );
      holes += region.holes.length;
      checkTiling(region, convexParts(region));
    }
    expect(holes).toBeGreaterThan(500);
  });

  it('tile what the clipping library leaves: rings that touch in corners and along sides', () => {
    const random = seededRandom(43);
    for (let i = 0; i < 400; i++) {
      const bodies = Array.from({ length: 2 + randomInteger(random, 6) }, () =>
        randomBlock(random),
      );
      const frame = scaleRegion(solid(ringOf([0, 0], [12, 0], [12, 12], [0, 12])), 100);
      const results = i % 2 === 0 ? unite(bodies) : subtract([frame], bodies);
      for (const region of results) checkTiling(region, convexParts(region));
    }
  });

  it('tile stars of two hundred corners, in few parts', () => {
    const random = seededRandom(44);
    for (let i = 0; i < 5; i++) {
      const region = solid(randomStar(random, 200, 16_000_000));
      const parts = convexParts(region);
      checkTiling(region, parts);
      expect(parts.length).toBeLessThanOrEqual(1.3 * hollowCorners(region));
    }
  });

  it('do not overlap', () => {
    const random = seededRandom(45);
    for (let i = 0; i < 60; i++) {
      const parts = convexParts(randomRegion(random, 10, 8, 2)).map(solid);
      for (const [k, part] of parts.entries())
        for (const other of parts.slice(k + 1)) expect(regionsOverlap(part, other)).toBe(false);
    }
  });
});

function checkTiling(region: Region, parts: readonly Ring[]): void {
  const total = parts.reduce((sum, part) => sum + ringArea(part), 0);
  expect(total, JSON.stringify(region)).toBe(regionArea(region));
  expect(parts.every(isConvex), JSON.stringify(region)).toBe(true);
}

function isConvex(ring: Ring): boolean {
  return turnsOf(ring).every((turn) => turn > 0);
}

function hollowCorners({ outer, holes }: Region): number {
  return [outer, ...holes].flatMap(turnsOf).filter((turn) => turn < 0).length;
}

function turnsOf(ring: Ring): number[] {
  return ring.map((p, i) =>
    orientation(ring.at(i - 1) as Point, p, ring[(i + 1) % ring.length] as Point),
  );
}

function comb(teeth: number): Ring {
  const corners = [
    { x: 0, y: 0 },
    { x: 4 * teeth, y: 0 },
  ];
  for (let tooth = teeth - 1; tooth >= 0; tooth--) {
    const x = 4 * tooth;
    corners.push({ x: x + 4, y: 9 }, { x: x + 2, y: 9 }, { x: x + 2, y: 2 }, { x, y: 2 });
  }
  return corners;
}

/** A rectangle or a diamond on a grid of 100, so that every crossing falls on the grid. */
function randomBlock(random: Random): Region {
  const [x, y] = [randomInteger(random, 8), randomInteger(random, 8)];
  const [w, h] = [1 + randomInteger(random, 4), 1 + randomInteger(random, 4)];
  const ring =
    random() < 0.5
      ? ringOf([x, y], [x + w, y], [x + w, y + h], [x, y + h])
      : ringOf([x, y + 2], [x + 2, y], [x + 4, y + 2], [x + 2, y + 4]);
  return scaleRegion(solid(ring), 100);
}
