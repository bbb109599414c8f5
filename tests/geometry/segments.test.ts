import { describe, expect, it } from 'vitest';
import type { Point } from '../../src/geometry/point.ts';
import { pointsOn, segmentsCross, segmentsMeet } from '../../src/geometry/segments.ts';

const GRID: readonly Point[] = Array.from({ length: 9 }, (_, k) => ({
  x: k % 3,
  y: Math.floor(k / 3),
}));

/** All pairs of segments on a grid of nine, single points too. */
const PAIRS = GRID.flatMap((a) =>
  GRID.flatMap((b) => GRID.flatMap((c) => GRID.map((d) => [a, b, c, d] as const))),
);
type Pair = (typeof PAIRS)[number];

const minus = (p: Point, q: Point): Point => ({ x: p.x - q.x, y: p.y - q.y });
const cross = (p: Point, q: Point) => p.x * q.y - p.y * q.x;
const dot = (p: Point, q: Point) => p.x * q.x + p.y * q.y;

/** Where the lines of two segments that are not parallel meet, as shares of their lengths. */
function shares([a, b, c, d]: Pair): readonly number[] {
  const [own, other, gap] = [minus(b, a), minus(d, c), minus(c, a)];
  const across = cross(own, other);
  return across === 0 ? [] : [cross(gap, other) / across, cross(gap, own) / across];
}

function hasPoint(p: Point, a: Point, b: Point): boolean {
  return cross(minus(a, p), minus(b, p)) === 0 && dot(minus(a, p), minus(b, p)) <= 0;
}

describe('two segments', () => {
  it('meet where their lines do within both, or an end of one lies on the other', () => {
    const wrong = PAIRS.filter((pair) => {
      const [a, b, c, d] = pair;
      const within = shares(pair);
      const isWithin = within.length > 0 && within.every((share) => 0 <= share && share <= 1);
      const ends = [hasPoint(a, c, d), hasPoint(b, c, d), hasPoint(c, a, b), hasPoint(d, a, b)];
      return segmentsMeet(...pair) !== (isWithin || ends.includes(true));
    });
    expect(wrong).toEqual([]);
  });

  it('cross where their lines do strictly within both', () => {
    const wrong = PAIRS.filter((pair) => {
      const within = shares(pair);
      const isWithin = within.length > 0 && within.every((share) => 0 < share && share < 1);
      return segmentsCross(...pair) !== isWithin;
    });
    expect(wrong).toEqual([]);
  });
});

describe('the points on a segment', () => {
  it.each([
    [
      'to the right',
      [0, 0],
      [6, 0],
      [
        [4, 0],
        [2, 0],
        [6, 0],
        [7, 0],
        [2, 1],
        [0, 0],
      ],
      [
        [2, 0],
        [4, 0],
      ],
    ],
    [
      'to the left',
      [6, 0],
      [0, 0],
      [
        [2, 0],
        [4, 0],
      ],
      [
        [4, 0],
        [2, 0],
      ],
    ],
    [
      'upwards and back',
      [0, 9],
      [3, 0],
      [
        [2, 3],
        [1, 6],
        [1, 5],
      ],
      [
        [1, 6],
        [2, 3],
      ],
    ],
  ] as [string, number[], number[], number[][], number[][]][])(
    'come in walking order %s',
    (_, from, to, points, expected) => {
      const [start, end, ...all] = [from, to, ...points].map(toPoint) as [Point, Point, ...Point[]];
      expect(pointsOn(start, end, all)).toEqual(expected.map(toPoint));
    },
  );
});

function toPoint([x, y]: readonly number[]): Point {
  return { x: x!, y: y! };
}
