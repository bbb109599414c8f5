import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pointCloserThan } from '../../src/geometry/distance.ts';
import { pointInRing } from '../../src/geometry/inside.ts';
import { boxesOutside } from '../../src/geometry/outside-boxes.ts';
import type { Point } from '../../src/geometry/point.ts';
import type { Ring } from '../../src/geometry/shape.ts';
import { fromMm } from '../../src/model/units.ts';
import { unionArea } from '../../src/packing/union-area.ts';
import { type Corners, LEG, oddSheets, SLOTTED, TRIANGLE } from '../helpers/odd-sheets.ts';

const STEP = fromMm(10);

describe('boxes outside a polygon', () => {
  it.each([
    ['a leg without clearance', LEG, 0, 400 * 300],
    ['a leg with clearance, its inward corner square', LEG, 10, 400 * 300],
    ['a slot', SLOTTED, 0, 3 * 250],
    ['a slot with clearance', SLOTTED, 4, 11 * 250],
  ])('are exact along the axes: %s', (_, { boundary, length, width }, clearance, areaMm2) => {
    const by = fromMm(clearance);
    const box = { minX: by, minY: by, maxX: fromMm(length) - by, maxY: fromMm(width) - by };
    const boxes = boxesOutside(ringOf(boundary), box, by, STEP);
    expect(unionArea(boxes) / 8000 ** 2).toBe(areaMm2);
  });

  it('are a staircase on a slanted edge, little more than a step deep', () => {
    const { boundary, length, width } = TRIANGLE;
    const box = { minX: 0, minY: 0, maxX: fromMm(length), maxY: fromMm(width) };
    const boxes = boxesOutside(ringOf(boundary), box, 0, STEP);
    const over = unionArea(boxes) / 8000 ** 2 - (length * width) / 2;
    expect(over).toBeGreaterThan(0);
    expect(over).toBeLessThan(1000 * 10);
    expect(boxes.length).toBeLessThan(80);
  });

  it('cover what is outside or too near the edge, and nothing far inside', () => {
    const covers = fc.property(
      oddSheets(),
      fc.constantFrom(0, 1, 7.5, 25),
      fc.array(
        fc.tuple(
          fc.double({ min: 0, max: 1, noNaN: true }),
          fc.double({ min: 0, max: 1, noNaN: true }),
        ),
        {
          minLength: 40,
          maxLength: 40,
        },
      ),
      ({ boundary, length, width }, clearanceMm, shares) => {
        const ring = ringOf(boundary);
        const clearance = fromMm(clearanceMm);
        const box = { minX: 0, minY: 0, maxX: fromMm(length), maxY: fromMm(width) };
        const boxes = boxesOutside(ring, box, clearance, STEP);
        expect(boxes.length).toBeLessThan(400);
        for (const [shareX, shareY] of shares) {
          const p = { x: Math.floor(shareX * box.maxX), y: Math.floor(shareY * box.maxY) };
          const covered = boxes.some(
            ({ minX, minY, maxX, maxY }) =>
              minX <= p.x && p.x <= maxX && minY <= p.y && p.y <= maxY,
          );
          const inside = pointInRing(p, ring) === 1;
          if (!inside || isNear(p, ring, clearance)) expect(covered).toBe(true);
          else if (!isNear(p, ring, 3 * clearance + 4 * STEP)) expect(covered).toBe(false);
        }
      },
    );
    fc.assert(covers, { seed: 20_026, numRuns: 300 });
  });
});

function isNear(p: Point, ring: Ring, distance: number): boolean {
  return ring.some((from, i) => pointCloserThan(p, from, ring[(i + 1) % ring.length]!, distance));
}

function ringOf(corners: Corners): Ring {
  return corners.map(([x, y]) => ({ x: fromMm(x), y: fromMm(y) }));
}
