import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boxOf } from '../../src/geometry/box.ts';
import type { Shape } from '../../src/geometry/shape.ts';
import { pack } from '../../src/packing/pack.ts';
import { verifyLayout } from '../../src/verify/verify.ts';
import { jobOf, partOf, sheetOf } from '../helpers/jobs.ts';
import { oddSheets } from '../helpers/odd-sheets.ts';
import { disc, lShape, polygon, rect } from '../helpers/shapes.ts';
import { secondComplaints } from './placed-sheets.ts';

const SEED = 20_026;

const side = fc.integer({ min: 20, max: 300 });
const count = fc.integer({ min: 1, max: 6 });
const rectangles = fc
  .record({ width: side, height: side, count })
  .map(({ width, height, count }) => partOf(rect(width, height), { count }));
const outlines = fc.oneof(
  fc.record({ across: side, count }).map(({ across, count }) => partOf(disc(across), { count })),
  fc
    .record({ width: side, height: side, count })
    .map(({ width, height, count }) =>
      partOf(polygon([0, 0], [width, 0], [0, height]), { count, turns: [0, 90, 180, 270] }),
    ),
  fc
    .record({ limb: fc.integer({ min: 10, max: 40 }), count })
    .map(({ limb, count }) =>
      partOf(lShape(5 * limb, 4 * limb, limb), { count, turns: [0, 45, 90, 180] }),
    ),
  fc
    .record({ across: side, count })
    .map(({ across, count }) => partOf(cog(across), { count, turns: [0, 30, 90, 180] })),
);

/** A wheel of so many teeth that its overlaps, with the edges of a sheet too, are told part by part. */
function cog(across: number): Shape {
  const corners = Array.from({ length: 120 }, (_, i) => {
    const angle = (2 * Math.PI * i) / 120;
    const reach = (i % 4 < 2 ? 0.5 : 0.35) * across;
    return { x: reach * Math.cos(angle), y: reach * Math.sin(angle) };
  });
  const { minX, minY } = boxOf(corners);
  return polygon(...corners.map(({ x, y }) => [x - minX, y - minY] as const));
}

describe('odd-shaped sheets', () => {
  it.each([
    ['rectangles', rectangles, 30],
    ['outlines', fc.oneof(rectangles, outlines), 15],
  ])('carry %s legally, beside other sheets, as two checks see it', (_, part, numRuns) => {
    const legal = fc.property(
      fc.array(oddSheets(), { minLength: 1, maxLength: 2 }),
      fc.boolean(),
      fc.constantFrom(0, 3.2, 8),
      fc.constantFrom(0, 2, 10),
      fc.array(part, { minLength: 1, maxLength: 4 }),
      (sheets, withWhole, spacing, trim, parts) => {
        const odd = sheets.map((sheet) => ({
          ...sheetOf(sheet.length, sheet.width, { trim, onHand: 2 }),
          boundary: sheet.boundary,
        }));
        const whole = withWhole ? [sheetOf(700, 500, { trim })] : [];
        const job = jobOf({ spacing, sheets: [...odd, ...whole], parts });
        const search = { effort: 'quick', seed: 1, onProgress: () => {} } as const;
        let asked = 0;
        const { layout } = pack(job, 0, { ...search, shouldStop: () => ++asked > 4 });
        expect(verifyLayout(job, layout).faults).toEqual([]);
        expect(secondComplaints(job, layout)).toEqual([]);
        // Every sheet is of some use here: the whole one takes any of the parts.
        if (withWhole) expect(layout.unplaced).toEqual([]);
      },
    );
    fc.assert(legal, { seed: SEED, numRuns });
  });
});
