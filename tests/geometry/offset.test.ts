import { describe, expect, it } from 'vitest';
import { regionArea } from '../../src/geometry/area.ts';
import { distanceToSegment2, regionsOverlap } from '../../src/geometry/distance.ts';
import { OFFSET_SHORTFALL, offsetRegion, ROUND_EXCESS } from '../../src/geometry/offset.ts';
import type { Point } from '../../src/geometry/point.ts';
import { placeRegion } from '../../src/geometry/pose.ts';
import type { Region } from '../../src/geometry/shape.ts';
import { type Random, seededRandom } from '../../src/packing/random.ts';
import { randomInteger, randomRegion, randomStar } from './random-shapes.ts';
import { fromLeast, ringOf, scaleRegion, WAYS } from './ways.ts';

const SQUARE: Region = { outer: ringOf([0, 0], [1000, 0], [1000, 1000], [0, 1000]), holes: [] };
const FRAME: Region = {
  outer: SQUARE.outer,
  holes: [ringOf([300, 300], [300, 700], [700, 700], [700, 300])],
};
const DUMB_BELL: Region = {
  outer: ringOf(
    [0, 0],
    [400, 0],
    [400, 180],
    [600, 180],
    [600, 0],
    [1000, 0],
    [1000, 400],
    [600, 400],
    [600, 220],
    [400, 220],
    [400, 400],
    [0, 400],
  ),
  holes: [],
};

describe('offsets parallel to the axes are exact with mitres', () => {
  it.each<[string, Region, number, readonly Region[]]>([
    [
      'grown square',
      SQUARE,
      7,
      [{ outer: ringOf([-7, -7], [1007, -7], [1007, 1007], [-7, 1007]), holes: [] }],
    ],
    [
      'shrunk square',
      SQUARE,
      -100,
      [{ outer: ringOf([100, 100], [900, 100], [900, 900], [100, 900]), holes: [] }],
    ],
    ['square that vanishes', SQUARE, -500, []],
    ['untouched', SQUARE, 0, [SQUARE]],
    [
      'grown frame',
      FRAME,
      50,
      [
        {
          outer: ringOf([-50, -50], [1050, -50], [1050, 1050], [-50, 1050]),
          holes: [ringOf([350, 350], [350, 650], [650, 650], [650, 350])],
        },
      ],
    ],
    [
      'hole that closes',
      FRAME,
      200,
      [{ outer: ringOf([-200, -200], [1200, -200], [1200, 1200], [-200, 1200]), holes: [] }],
    ],
    [
      'shrunk frame',
      FRAME,
      -100,
      [
        {
          outer: ringOf([100, 100], [900, 100], [900, 900], [100, 900]),
          holes: [ringOf([200, 200], [200, 800], [800, 800], [800, 200])],
        },
      ],
    ],
  ])('%s', (_, region, by, expected) => {
    for (const way of WAYS) {
      const found = offsetRegion(placeRegion(region, way), by, 'mitre');
      expect(found.map(normalised)).toEqual(expected.map((r) => normalised(placeRegion(r, way))));
    }
  });

  it('a body pinched off in its neck gives two', () => {
    const halves = offsetRegion(DUMB_BELL, -30, 'mitre');
    expect(halves.map(regionArea)).toEqual([340 * 340, 340 * 340]);
  });
});

describe.each(['round', 'mitre'] as const)('joins %s', (join) => {
  it.each([60, 1000, 25_400, 400_000, -60, -25_400, -200_000])(
    'by %i moves the border that far',
    (by) => {
      const random = seededRandom(71);
      const farthest = join === 'round' ? Math.abs(by) + ROUND_EXCESS : 2 * Math.abs(by) + 2;
      for (let i = 0; i < 12; i++) {
        const region = randomBody(random, i);
        for (const moved of offsetRegion(region, by, join)) {
          expect(regionsOverlap(region, moved)).toBe(true);
          expect(gap(region, moved)).toBeGreaterThanOrEqual(Math.abs(by) - OFFSET_SHORTFALL);
          for (const p of [moved.outer, ...moved.holes].flat())
            expect(distanceToBorder(p, region)).toBeLessThanOrEqual(farthest);
        }
      }
    },
  );
});

/** The smallest distance between the borders of two bodies, one of which lies in the other. */
function gap(a: Region, b: Region): number {
  const corners = ({ outer, holes }: Region) => [outer, ...holes].flat();
  const distances = [
    ...corners(a).map((p) => distanceToBorder(p, b)),
    ...corners(b).map((p) => distanceToBorder(p, a)),
  ];
  return Math.min(...distances);
}

function randomBody(random: Random, index: number): Region {
  if (index % 2 === 0) return { outer: randomStar(random, 6 + index, 5_000_000), holes: [] };
  return scaleRegion(randomRegion(random, 5 + randomInteger(random, 6), 12, 2), 100_003);
}

function distanceToBorder(p: Point, { outer, holes }: Region): number {
  const distances = [outer, ...holes].flatMap((ring) =>
    ring.map((q, i) => distanceToSegment2(p, q, ring[(i + 1) % ring.length] as Point)),
  );
  return Math.sqrt(Math.min(...distances));
}

function normalised({ outer, holes }: Region): Region {
  return { outer: fromLeast(outer), holes: holes.map(fromLeast) };
}
