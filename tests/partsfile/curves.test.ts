import { describe, expect, it } from 'vitest';
import {
  arcsFromCurve,
  type Curve,
  type FinePoint,
  type FineSide,
} from '../../src/partsfile/arcs-from-curves.ts';
import { ellipseSides } from '../../src/partsfile/ellipse-arcs.ts';

const MM = 8000;
const DISTANCE = 80;

function bezier(numbersMm: readonly number[]): Curve {
  const c = numbersMm.map((n) => n * MM);
  const along = (i: number, t: number) => {
    const s = 1 - t;
    const [a = 0, b = 0, d = 0, e = 0] = [c[i], c[i + 2], c[i + 4], c[i + 6]];
    return s * s * s * a + 3 * s * s * t * b + 3 * s * t * t * d + t * t * t * e;
  };
  return (t) => ({ x: along(0, t), y: along(1, t) });
}

function quarterEllipse(rxMm: number, ryMm: number): Curve {
  return (t) => ({
    x: rxMm * MM * Math.cos((t * Math.PI) / 2),
    y: ryMm * MM * Math.sin((t * Math.PI) / 2),
  });
}

/** Points on the sides, by the circle through three points: another road than that of the fit. */
function walk(start: FinePoint, sides: readonly FineSide[]): FinePoint[] {
  let from = start;
  return sides.flatMap(({ via, to }) => {
    const points = Array.from({ length: 20 }, (_, i) => pointOnSide(from, via, to, i / 20));
    from = to;
    return points;
  });
}

function pointOnSide(a: FinePoint, via: FinePoint | null, b: FinePoint, share: number): FinePoint {
  const straight = { x: a.x + share * (b.x - a.x), y: a.y + share * (b.y - a.y) };
  if (via === null) return straight;
  const turn = 2 * ((via.x - a.x) * (b.y - a.y) - (via.y - a.y) * (b.x - a.x));
  if (Math.abs(turn) < 1e-3) return straight;
  const v = (via.x - a.x) ** 2 + (via.y - a.y) ** 2;
  const w = (b.x - a.x) ** 2 + (b.y - a.y) ** 2;
  const cx = ((b.y - a.y) * v - (via.y - a.y) * w) / turn;
  const cy = ((via.x - a.x) * w - (b.x - a.x) * v) / turn;
  const begin = Math.atan2(-cy, -cx);
  let sweep = Math.atan2(b.y - a.y - cy, b.x - a.x - cx) - begin;
  if (0 < turn && sweep < 0) sweep += 2 * Math.PI;
  if (turn < 0 && 0 < sweep) sweep -= 2 * Math.PI;
  const angle = begin + share * sweep;
  const radius = Math.sqrt(cx * cx + cy * cy);
  return { x: a.x + cx + radius * Math.cos(angle), y: a.y + cy + radius * Math.sin(angle) };
}

/** The largest distance of any of `points` from the polyline through 4,000 points of the curve. */
function farthest(points: readonly FinePoint[], curve: Curve): number {
  const line = Array.from({ length: 4001 }, (_, i) => curve(i / 4000));
  return Math.max(
    ...points.map((p) => {
      let least = Number.POSITIVE_INFINITY;
      for (let i = 1; i < line.length; i++)
        least = Math.min(least, toSegment(p, line[i - 1] as FinePoint, line[i] as FinePoint));
      return least;
    }),
  );
}

function toSegment(p: FinePoint, a: FinePoint, b: FinePoint): number {
  const [ux, uy] = [b.x - a.x, b.y - a.y];
  const square = ux * ux + uy * uy;
  const share =
    square === 0 ? 0 : Math.max(0, Math.min(1, ((p.x - a.x) * ux + (p.y - a.y) * uy) / square));
  return Math.hypot(a.x + share * ux - p.x, a.y + share * uy - p.y);
}

describe('circular arcs in place of curves', () => {
  it.each<readonly [string, Curve, number]>([
    ['an S', bezier([0, 0, 300, 0, 0, 200, 300, 200]), 48],
    ['an arch', bezier([0, 0, 300, 160, 600, 160, 900, 0]), 16],
    ['a cusp', bezier([0, 0, 300, 200, 0, 200, 300, 0]), 36],
    ['a loop', bezier([0, 0, 400, 200, -100, 200, 300, 0]), 60],
    ['a straight line', bezier([0, 0, 100, 0, 200, 0, 300, 0]), 1],
    ['repeated control points', bezier([0, 0, 0, 0, 300, 200, 300, 0]), 40],
    ['a curve of 0.04 mm', bezier([0, 0, 0.01, 0.02, 0.03, 0.01, 0.04, 0]), 2],
    ['a quarter of an ellipse', quarterEllipse(300, 100), 26],
    ['a quarter of a flat ellipse', quarterEllipse(1000, 10), 26],
    ['a quarter of a circle', quarterEllipse(300, 300), 2],
    ['the usual cubic of a quarter circle', bezier([18, 0, 18, 9.9411, 9.9411, 18, 0, 18]), 2],
  ])('%s', (_, curve, mostSides) => {
    const sides = arcsFromCurve(curve, DISTANCE);
    expect(sides.length).toBeLessThanOrEqual(mostSides);
    expect(sides.at(-1)?.to).toEqual(curve(1));
    expect(farthest(walk(curve(0), sides), curve)).toBeLessThanOrEqual(DISTANCE);
  });

  it('holds the distance for fifty curves drawn at random', () => {
    let state = 7;
    const random = () => {
      state = (Math.imul(state, 1103515245) + 12345) >>> 0;
      return (state % 65536) / 65536;
    };
    for (let i = 0; i < 50; i++) {
      const curve = bezier(Array.from({ length: 8 }, () => 300 * random()));
      const sides = arcsFromCurve(curve, DISTANCE);
      const some = walk(curve(0), sides).filter((_, k) => k % 11 === 0);
      expect(farthest(some, curve)).toBeLessThanOrEqual(DISTANCE);
    }
  });

  it('keeps its direction from one arc to the next', () => {
    const curve = quarterEllipse(300, 100);
    const points = walk(curve(0), arcsFromCurve(curve, DISTANCE));
    const turns = points.slice(2).map((p, i) => {
      const [a, b] = [points[i] as FinePoint, points[i + 1] as FinePoint];
      return Math.atan2(
        (b.x - a.x) * (p.y - b.y) - (b.y - a.y) * (p.x - b.x),
        (b.x - a.x) * (p.x - b.x) + (b.y - a.y) * (p.y - b.y),
      );
    });
    // An ellipse only ever turns left; a kink between two arcs would turn right somewhere.
    expect(Math.min(...turns)).toBeGreaterThan(0);
  });
});

describe('the elliptical arc of a path', () => {
  const at = (x: number, y: number) => ({ x: x * MM, y: y * MM });
  const half = { from: at(10, 0), to: at(-10, 0), rx: 10 * MM, ry: 10 * MM, angleDeg: 0 };

  it('is one true arc for a half circle, on the side that its flags say', () => {
    const [up] = ellipseSides({ ...half, large: false, sweep: true }, DISTANCE);
    const [down] = ellipseSides({ ...half, large: false, sweep: false }, DISTANCE);
    expect(up?.via?.y).toBeCloseTo(10 * MM, 3);
    expect(down?.via?.y).toBeCloseTo(-10 * MM, 3);
  });

  it('is two arcs where it sweeps more than half a circle', () => {
    const arc = { ...half, to: at(0, 10), large: true, sweep: false };
    const sides = ellipseSides(arc, DISTANCE);
    expect(sides).toHaveLength(2);
    expect(sides[1]?.to).toEqual(at(0, 10));
  });

  it('grows radii that are too short for the chord, draws a line without a radius, and nothing without a chord', () => {
    const grown = ellipseSides({ ...half, rx: MM, ry: MM, large: false, sweep: true }, DISTANCE);
    expect(grown[0]?.via?.y).toBeCloseTo(10 * MM, 3);
    const line = ellipseSides({ ...half, rx: 0, large: false, sweep: true }, DISTANCE);
    expect(line).toEqual([{ via: null, to: half.to }]);
    const none = ellipseSides({ ...half, to: half.from, large: false, sweep: true }, DISTANCE);
    expect(none).toEqual([]);
  });
});
