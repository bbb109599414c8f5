import { describe, expect, it } from 'vitest';
import { convexSum as sumOfRings } from '../../src/geometry/convex-sum.ts';
import { convexHull } from '../../src/geometry/hull.ts';
import { orientation, type Point } from '../../src/geometry/point.ts';
import type { Ring } from '../../src/geometry/shape.ts';
import {
  type Convex,
  chainCeil,
  chainFloor,
  convexContains,
  convexOf,
  convexSum,
  leftAt,
  rightAt,
} from '../../src/packing/outlines/chains.ts';
import { seededRandom } from '../../src/packing/random.ts';

const random = seededRandom(1);
const below = (limit: number) => Math.floor(random() * limit);

/** Convex rings of small and of large spans; small ones have many sides in common and parallel to the axes. */
const RINGS: readonly Ring[] = [5, 8, 40, 1000, 2 ** 24].flatMap((span) =>
  Array.from({ length: 30 }, () => randomRing(span)),
);

const PAIRS = RINGS.flatMap((a) =>
  [1, 2, 3, 4].map((): readonly [Ring, Ring] => [a, RINGS[below(RINGS.length)] as Ring]),
);

describe('convex rings as chains', () => {
  it('adds two rings like the sum of rings does', () => {
    for (const [a, b] of PAIRS)
      expect(convexSum(convexOf(a), convexOf(b))).toEqual(convexOf(sumOfRings(a, b)));
  });

  it('tells on upright and on level lines exactly whether a whole point lies inside', () => {
    for (const ring of RINGS) {
      const convex = convexOf(ring);
      for (let k = 0; k < 40; k++) {
        const point = pointAround(convex);
        const inside = isInside(ring, point);
        expect([isInsideUpright(convex, point), isInsideLevel(convex, point)]).toEqual([
          inside,
          inside,
        ]);
      }
    }
  });

  it('knows a ring that lies in another, border included', () => {
    let contained = 0;
    for (const [a, b] of PAIRS) {
      const expected = b.every((p) => isInsideOrOn(a, p));
      expect(convexContains(convexOf(a), convexOf(b))).toBe(expected);
      if (expected) contained++;
    }
    expect(contained).toBeGreaterThan(5);
    for (const ring of RINGS) expect(convexContains(convexOf(ring), convexOf(ring))).toBe(true);
  });

  it('knows a box', () => {
    const box = [point(0, 0), point(4, 0), point(4, 3), point(0, 3)];
    expect(convexOf(box).isBox).toBe(true);
    expect(convexOf([point(0, 0), point(4, 0), point(4, 3), point(0, 2)]).isBox).toBe(false);
  });
});

function randomRing(span: number): Ring {
  for (;;) {
    const hull = convexHull(
      Array.from({ length: 3 + below(8) }, () => point(below(span) - 2, below(span) - 2)),
    );
    const [a, b] = hull;
    if (a && b && hull.some((c) => orientation(a, b, c) !== 0)) return hull;
  }
}

function point(x: number, y: number): Point {
  return { x, y };
}

/** Often a corner or near one, else anywhere in the box or just outside. */
function pointAround({ minX, minY, maxX, maxY, lower, upper }: Convex): Point {
  const chain = random() < 0.5 ? lower : upper;
  if (random() < 0.3) {
    const i = 2 * below(chain.length / 2);
    return point((chain[i] as number) + below(3) - 1, (chain[i + 1] as number) + below(3) - 1);
  }
  return point(minX - 1 + below(maxX - minX + 3), minY - 1 + below(maxY - minY + 3));
}

function isInsideUpright(convex: Convex, { x, y }: Point): boolean {
  if (x <= convex.minX || x >= convex.maxX) return false;
  return chainFloor(convex.lower, x) < y && y < chainCeil(convex.upper, x);
}

function isInsideLevel(convex: Convex, { x, y }: Point): boolean {
  if (y <= convex.minY || y >= convex.maxY) return false;
  return leftAt(convex, y) < x && x < rightAt(convex, y);
}

function isInside(ring: Ring, p: Point): boolean {
  return ring.every((a, i) => orientation(a, ring[(i + 1) % ring.length] as Point, p) > 0);
}

function isInsideOrOn(ring: Ring, p: Point): boolean {
  return ring.every((a, i) => orientation(a, ring[(i + 1) % ring.length] as Point, p) >= 0);
}
