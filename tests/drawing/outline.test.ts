import { describe, expect, it } from 'vitest';
import type { Run } from '../../src/drawing/display-list.ts';
import { contourRun, ringRun } from '../../src/drawing/outline.ts';
import { circle, reverseContour } from '../../src/geometry/shape.ts';
import { fromMm } from '../../src/model/units.ts';
import { contour, disc } from '../helpers/plan-builder.ts';

describe('contours as runs', () => {
  it('gives a rectangle three lines and closes it by itself', () => {
    const run = contourRun(contour([0, 0], [30, 0], [30, 20], [0, 20]));
    expect(run.closed).toBe(true);
    expect(run.start).toEqual({ x: 0, y: 0 });
    expect(run.sides.map(({ x, y }) => [x, y])).toEqual([
      [30, 0],
      [30, 20],
      [0, 20],
    ]);
  });

  it('keeps a circle as four equal arcs to the left, and to the right when reversed', () => {
    const run = contourRun(disc(100));
    expect(run.sides).toHaveLength(4);
    for (const side of run.sides) expect(side.bend).toEqual({ radius: 50, left: true });
    const reversed = contourRun(reverseContour(circle({ x: 0, y: 0 }, fromMm(50))));
    for (const side of reversed.sides) expect(side.bend?.left).toBe(false);
    expect(endOf(run)).toEqual(run.start);
  });

  it('keeps a shallow arc as one side', () => {
    const { sides } = contourRun(contour([0, 0], [200, 0, 100, 20], [0, 0]).slice(0, 2));
    expect(sides).toHaveLength(2);
    expect(sides[1]?.bend?.radius).toBeCloseTo(260, 9);
  });

  it('splits an arc of more than half a turn so that every end lies on its circle', () => {
    const { sides } = contourRun(contour([0, 0, 300, 0], [0, 10]));
    expect(sides.length).toBeGreaterThan(2);
    const radius = sides[0]?.bend?.radius ?? 0;
    // The circle passes (0, 0), (300, 0) and (0, 10): its centre is (150, 5).
    for (const { x, y } of sides.slice(0, -1)) {
      expect(Math.hypot(x - 150, y - 5)).toBeCloseTo(radius, 9);
    }
  });

  it('takes three points on one line as straight', () => {
    const { sides } = contourRun(contour([0, 0, 50, 0], [100, 0], [100, 40]));
    expect(sides[0]).toEqual({ x: 100, y: 0, bend: null });
  });

  it('draws a ring as a closed polygon', () => {
    const run = ringRun(contour([0, 0], [10, 0], [0, 10]));
    expect(run.sides).toHaveLength(2);
  });
});

function endOf(run: Run): { x: number; y: number } {
  const last = run.sides.at(-1) ?? run.start;
  return { x: last.x, y: last.y };
}
