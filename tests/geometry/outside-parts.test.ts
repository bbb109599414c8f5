import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ringArea } from '../../src/geometry/area.ts';
import { pointCloserThan } from '../../src/geometry/distance.ts';
import { pointInRing } from '../../src/geometry/inside.ts';
import { partsOutside } from '../../src/geometry/outside-parts.ts';
import type { Point } from '../../src/geometry/point.ts';
import type { Ring } from '../../src/geometry/shape.ts';
import { fromMm } from '../../src/model/units.ts';
import { type Corners, LEG, oddSheets, SLOTTED, TRIANGLE } from '../helpers/odd-sheets.ts';

describe('convex parts outside a polygon', () => {
  it.each([
    ['a leg without clearance', LEG, 0, 400 * 300],
    ['a leg with clearance, its inward corner square', LEG, 10, 400 * 300],
    ['a slot', SLOTTED, 0, 3 * 250],
    ['a slot with clearance', SLOTTED, 4, 11 * 250],
    ['a slanted side', TRIANGLE, 0, (800 * 600) / 2],
  ])('are exact: %s', (_, sheet, clearance, areaMm2) => {
    const parts = partsOutside(...given(sheet, clearance))!;
    expect(parts.reduce((sum, part) => sum + ringArea(part), 0) / 8000 ** 2).toBe(areaMm2);
  });

  it('leave a slanted side its clearance and next to nothing more', () => {
    // The side is 1000 mm long, and the two corners that it is cut off by are sharp ones.
    const parts = partsOutside(...given(TRIANGLE, 10))!;
    const left = 780 * 580 - parts.reduce((sum, part) => sum + ringArea(part), 0) / 8000 ** 2;
    // A triangle with sides as 3, 4 and 5 and an inscribed circle of 200 mm, made smaller by 10 mm.
    const exact = 240_000 * (190 / 200) ** 2;
    expect(left).toBeLessThan(exact);
    expect(left).toBeGreaterThan(exact - 1000 * 0.001);
  });

  it.each([
    ['vanishes', TRIANGLE, 201],
    ['falls apart', SLOTTED, 26],
  ])('are not told where what is left of a polygon %s', (_, sheet, clearance) => {
    expect(partsOutside(...given(sheet, clearance))).toBeNull();
  });

  it('cover what is outside or too near the edge, and nothing far inside', () => {
    let told = 0;
    const shares = fc.array(fc.tuple(share(), share()), { minLength: 40, maxLength: 40 });
    const covers = fc.property(
      oddSheets(),
      fc.constantFrom(0, 1, 7.5, 25),
      shares,
      (sheet, clearanceMm, places) => {
        const [ring, box, clearance] = given(sheet, clearanceMm);
        const parts = partsOutside(ring, box, clearance);
        if (parts === null) return;
        told++;
        for (const [shareX, shareY] of places) {
          const p = {
            x: Math.floor(box.minX + shareX * (box.maxX - box.minX)),
            y: Math.floor(box.minY + shareY * (box.maxY - box.minY)),
          };
          const covered = parts.some((part) => pointInRing(p, part) >= 0);
          if (pointInRing(p, ring) < 0 || isNear(p, ring, clearance)) expect(covered).toBe(true);
          // An inward corner is covered as a point, which is a little sharper than the polygon.
          else if (!isNear(p, ring, 4 * clearance + 8)) expect(covered).toBe(false);
        }
      },
    );
    fc.assert(covers, { seed: 20_026, numRuns: 300 });
    expect(told).toBeGreaterThan(240);
  });
});

function given(
  { boundary, length, width }: { boundary: Corners; length: number; width: number },
  clearanceMm: number,
): Parameters<typeof partsOutside> {
  const by = fromMm(clearanceMm);
  const box = { minX: by, minY: by, maxX: fromMm(length) - by, maxY: fromMm(width) - by };
  return [boundary.map(([x, y]) => ({ x: fromMm(x), y: fromMm(y) })), box, by];
}

function share(): fc.Arbitrary<number> {
  return fc.double({ min: 0, max: 1, noNaN: true });
}

function isNear(p: Point, ring: Ring, distance: number): boolean {
  return ring.some((from, i) => pointCloserThan(p, from, ring[(i + 1) % ring.length]!, distance));
}
