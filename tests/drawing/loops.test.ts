import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  boxOfLoop,
  circleLoop,
  circleOf,
  contourLoop,
  type Loop,
  nearestOn,
  runsBetween,
} from '../../src/drawing/loops.ts';
import { boxOfShape, placeContour } from '../../src/geometry/pose.ts';
import { type Contour, reverseContour } from '../../src/geometry/shape.ts';
import { toMm } from '../../src/model/units.ts';
import { contour, disc } from '../helpers/plan-builder.ts';

/** A D with a long arc, a lens, a disc, a slot and a rectangle. */
const CONTOURS: readonly Contour[] = [
  contour([0, 0], [100, 0, 180, 60], [100, 120], [0, 120]),
  contour([0, 40, 100, 10], [200, 40, 100, 70]),
  disc(140),
  contour([30, 0], [150, 0, 180, 30], [150, 60], [30, 60, 0, 30]),
  contour([0, 0], [300, 0], [300, 50], [0, 50]),
];
const loops = fc
  .tuple(fc.constantFrom(...CONTOURS), fc.integer({ min: 0, max: 359 }), fc.boolean(), fc.boolean())
  .map(([shape, turn, mirrored, back]) => {
    const placed = placeContour(shape, { x: 8000, y: -16000, turn, mirrored });
    return contourLoop(back ? reverseContour(placed) : placed);
  });

/** Points along a loop by its own definition of a bulge, some hundred on each side. */
function sampled(loop: Loop): readonly { x: number; y: number }[] {
  return loop.flatMap(({ from, to, bulge }) => {
    const [cx, cy] = [to.x - from.x, to.y - from.y];
    return Array.from({ length: 400 }, (_, i) => {
      const share = i / 400;
      if (bulge === 0) return { x: from.x + share * cx, y: from.y + share * cy };
      const sweep = 4 * Math.atan(bulge);
      const radius = Math.hypot(cx, cy) / (2 * Math.sin(sweep / 2));
      const start = Math.atan2(cy, cx) - sweep / 2 - Math.PI / 2;
      const angle = start + share * sweep;
      return {
        x: from.x + radius * (Math.cos(angle) - Math.cos(start)),
        y: from.y + radius * (Math.sin(angle) - Math.sin(start)),
      };
    });
  });
}

function lengthOf(loop: Loop): number {
  return loop.reduce((sum, { from, to, bulge }) => {
    const chord = Math.hypot(to.x - from.x, to.y - from.y);
    const half = Math.abs(2 * Math.atan(bulge));
    return sum + (half === 0 ? chord : (chord * half) / Math.sin(half));
  }, 0);
}

describe('loops', () => {
  it('have the point nearest to a place, as a look at many points finds it', () => {
    fc.assert(
      fc.property(
        loops,
        fc.double({ min: -300, max: 300, noNaN: true }),
        fc.double({ min: -300, max: 300, noNaN: true }),
        (loop, x, y) => {
          const { distance, point, along } = nearestOn(loop, { x, y });
          const least = Math.min(...sampled(loop).map((p) => Math.hypot(p.x - x, p.y - y)));
          expect(distance).toBeLessThanOrEqual(least + 1e-9);
          expect(least - distance).toBeLessThan(1);
          expect(Math.hypot(point.x - x, point.y - y)).toBeCloseTo(distance, 9);
          expect(Math.hypot(along.x, along.y)).toBeCloseTo(1, 9);
        },
      ),
    );
  });

  it('less their gaps are open runs, end to end as long as the rest', () => {
    fc.assert(
      fc.property(
        loops,
        fc.array(fc.tuple(fc.nat(1_000_000), fc.double({ min: 1, max: 60, noNaN: true })), {
          minLength: 1,
          maxLength: 6,
        }),
        (loop, wishes) => {
          const points = sampled(loop);
          const gaps = wishes.map(([pick, width]) => ({
            at: points[pick % points.length]!,
            width,
          }));
          const runs = runsBetween(loop, gaps);
          for (const run of runs)
            run.slice(1).forEach(({ from }, i) => {
              expect(Math.hypot(from.x - run[i]!.to.x, from.y - run[i]!.to.y)).toBeLessThan(1e-6);
            });
          const length = lengthOf(loop);
          // The gaps as stretches of the way round, joined on a grid of their own.
          const cells = 20_000;
          const open = new Uint8Array(cells);
          for (const { at, width } of gaps) {
            const middle = nearestOn(loop, at).way;
            for (let c = 0; c < cells; c++) {
              const way = ((c + 0.5) / cells) * length;
              const off = Math.abs(way - middle);
              if (Math.min(off, length - off) < width / 2) open[c] = 1;
            }
          }
          const left = length * (1 - open.reduce((sum, cell) => sum + cell, 0) / cells);
          const found = runs.reduce((sum, run) => sum + lengthOf(run), 0);
          expect(Math.abs(found - left)).toBeLessThan((length / cells) * 2 * gaps.length);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('have the box that the plane geometry finds', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...CONTOURS),
        fc.integer({ min: 0, max: 359 }),
        fc.boolean(),
        (shape, turn, mirrored) => {
          const placed = placeContour(shape, { x: 0, y: 0, turn, mirrored });
          const exact = boxOfShape({ outer: placed, inner: [] });
          const box = boxOfLoop(contourLoop(placed));
          for (const side of ['minX', 'minY', 'maxX', 'maxY'] as const)
            expect(Math.abs(box[side] - toMm(exact[side]))).toBeLessThan(0.001);
        },
      ),
    );
  });

  it.each([0, 15, 90, 203])('are circles again when they were, turned by %i degrees', (turn) => {
    const placed = placeContour(disc(140), { x: 800, y: 1600, turn, mirrored: turn === 203 });
    const round = circleOf(contourLoop(placed));
    expect(round?.radius).toBeCloseTo(70, 3);
    const box = boxOfShape({ outer: placed, inner: [] });
    expect(round?.centre.x).toBeCloseTo(toMm((box.minX + box.maxX) / 2), 3);
    expect(round?.centre.y).toBeCloseTo(toMm((box.minY + box.maxY) / 2), 3);
  });

  it('are no circles when they are lenses, slots or arcs over a chord', () => {
    for (const shape of CONTOURS) {
      const isDisc = shape.length === 2 && shape[0]?.via?.y !== 80_000;
      expect(circleOf(contourLoop(shape)) !== null).toBe(isDisc);
    }
    expect(circleOf(contourLoop(contour([0, 0], [100, 0, 50, 50])))).toBeNull();
    expect(circleOf(circleLoop({ x: 3, y: 4 }, 5))).toEqual({ centre: { x: 3, y: 4 }, radius: 5 });
  });
});
