import { isDeepStrictEqual } from 'node:util';
import { describe, expect, it } from 'vitest';
import { arcBox, arcBulge, arcMiddle, halfBulge, isArc } from '../../src/geometry/arc.ts';
import type { Point } from '../../src/geometry/point.ts';
import { seededRandom } from '../../src/packing/random.ts';
import { randomInteger } from './random-shapes.ts';
import { arcSamples, centreThrough } from './ways.ts';

const point = (x: number, y: number): Point => ({ x, y });

describe('an arc through three points', () => {
  it.each([
    ['half circle to the left', point(10, 0), point(0, 10), point(-10, 0), 1],
    ['half circle to the right', point(-10, 0), point(0, 10), point(10, 0), -1],
    ['half circle, via off the middle', point(50, 0), point(30, 40), point(-50, 0), 1],
    ['quarter circle', point(50, 0), point(40, 30), point(0, 50), Math.SQRT2 - 1],
    ['three quarters', point(50, 0), point(-30, 40), point(0, -50), Math.SQRT2 + 1],
  ])('%s: bulge', (_, from, via, to, bulge) => {
    expect(arcBulge(from, via, to)).toBeCloseTo(bulge, 14);
    expect(halfBulge(bulge)).toBeCloseTo(Math.tan(Math.atan(bulge) / 2), 14);
  });

  it('keeps its accuracy where the arc is nearly straight', () => {
    const bulge = arcBulge(point(0, 0), point(2 ** 25, -1), point(2 ** 26, 0));
    expect(bulge * 2 ** 25).toBeCloseTo(1, 12);
  });

  it('finds the middle', () => {
    expect(arcMiddle(point(50, 0), point(30, 40), point(-50, 0))).toEqual(point(0, 50));
    expect(arcMiddle(point(0, 0), point(7, 0), point(10, 0))).toEqual(point(7, 0));
    expect(isArc(point(0, 0), point(7, 0), point(10, 0))).toBe(false);
  });
});

describe('the box of an arc', () => {
  it.each([
    ['half circle', [10, 0], [0, 10], [-10, 0], [-10, 0, 10, 10]],
    ['half circle the other way', [-10, 0], [0, 10], [10, 0], [-10, 0, 10, 10]],
    ['quarter that ends on the axes', [50, 0], [40, 30], [0, 50], [0, 0, 50, 50]],
    ['nearly whole circle', [40, -30], [-50, 0], [40, 30], [-50, -50, 40, 50]],
    ['top that falls off the grid', [0, 0], [1, 1], [3, 1], [0, 0, 3, 2]],
    [
      'large circle about a far centre',
      [33_000_000, 0],
      [0, 33_000_000],
      [0, -33_000_000],
      [-33_000_000, -33_000_000, 33_000_000, 33_000_000],
    ],
  ] as [string, number[], number[], number[], number[]][])('%s', (_, from, via, to, box) => {
    const [a, b, c] = [from, via, to].map(([x, y]) => point(x as number, y as number)) as [
      Point,
      Point,
      Point,
    ];
    const [minX, minY, maxX, maxY] = box;
    expect(arcBox(a, b, c)).toEqual({ minX, minY, maxX, maxY });
    expect(arcBox(c, b, a)).toEqual(arcBox(a, b, c));
  });

  it('is the tightest one on the grid around sampled points', () => {
    const random = seededRandom(11);
    for (let i = 0; i < 800; i++) {
      const [a, b, c] = [0, 1, 2].map(() =>
        point(randomInteger(random, 60), randomInteger(random, 60)),
      ) as [Point, Point, Point];
      if (!isArc(a, b, c) || Math.abs(arcBulge(a, b, c)) > 5) continue;
      const box = arcBox(a, b, c);
      const along = arcSamples(a, b, c, 400);
      const xs = along.map((p) => p.x);
      const ys = along.map((p) => p.y);
      const slack = 0.01;
      const sides = [
        [Math.min(...xs), box.minX],
        [Math.min(...ys), box.minY],
        [-Math.max(...xs), -box.maxX],
        [-Math.max(...ys), -box.maxY],
      ] as const;
      for (const [reached, side] of sides) {
        expect(reached).toBeGreaterThan(side - 1e-9);
        expect(reached).toBeLessThan(side + 1 + slack);
      }
    }
  });

  it('goes exactly to the next grid line past the circle, for every small arc', () => {
    const start = point(0, 0);
    const grid = Array.from({ length: 121 }, (_, k) => point((k % 11) - 5, Math.floor(k / 11) - 5));
    const arcs = grid.flatMap((via) => grid.map((end) => [start, via, end] as const));
    const wrong = arcs
      .filter(([from, via, to]) => isArc(from, via, to))
      .map((arc) => [arc, arcBox(...arc), boxBySides(...arc)] as const)
      .filter(([, box, expected]) => !isDeepStrictEqual(box, expected));
    expect(wrong).toEqual([]);
  });
});

/** By the centre in doubles: the circle's outermost point counts where it lies on the same side of the chord as the point that the arc goes through. */
function boxBySides(a: Point, b: Point, c: Point) {
  const side = ({ x, y }: Point) => Math.sign((c.x - a.x) * (y - a.y) - (c.y - a.y) * (x - a.x));
  const { x, y } = centreThrough(a, b, c);
  const radius = Math.hypot(a.x - x, a.y - y);
  const outermost = [
    { x: x + radius, y },
    { x: x - radius, y },
    { x, y: y + radius },
    { x, y: y - radius },
  ].filter((each) => side(each) === side(b));
  const all = [a, b, c, ...outermost];
  const least = (values: number[]) => Math.floor(Math.min(...values) + 1e-9);
  const most = (values: number[]) => Math.ceil(Math.max(...values) - 1e-9) + 0;
  const [xs, ys] = [all.map((each) => each.x), all.map((each) => each.y)];
  return { minX: least(xs), minY: least(ys), maxX: most(xs), maxY: most(ys) };
}
