import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { costPlan } from '../../src/costing/cost-plan.ts';
import { LEAST_SKELETON_MM2 } from '../../src/costing/yield-waste.ts';
import { type Box, growBox } from '../../src/geometry/box.ts';
import { boxOfShape, placeShape } from '../../src/geometry/pose.ts';
import type { Offcut } from '../../src/model/costs.ts';
import type { Job } from '../../src/model/job.ts';
import type { SheetLayout } from '../../src/model/layout.ts';
import { cutWidth } from '../../src/model/machine.ts';
import { usableBox } from '../../src/model/stock.ts';
import { fromMm, toMm } from '../../src/model/units.ts';
import { YIELD_USES, type YieldUse } from '../../src/model/yield.ts';
import { pack } from '../../src/packing/pack.ts';
import { jobOf, partOf, sheetOf } from '../helpers/jobs.ts';
import { oddSheets } from '../helpers/odd-sheets.ts';
import { disc, frame, lShape, rect } from '../helpers/shapes.ts';

const SEED = 41;
const SEARCH = { effort: 'quick', seed: 1, onProgress: () => {} } as const;

const side = fc.integer({ min: 20, max: 260 });
const count = fc.integer({ min: 1, max: 5 });
const rectangles = fc
  .record({ width: side, height: side, count })
  .map(({ width, height, count: pieces }) => partOf(rect(width, height), { count: pieces }));
const outlines = fc.oneof(
  rectangles,
  fc.record({ across: side, count }).map((each) => partOf(disc(each.across), each)),
  fc
    .record({ limb: fc.integer({ min: 10, max: 40 }), count })
    .map(({ limb, count: pieces }) => partOf(lShape(5 * limb, 4 * limb, limb), { count: pieces })),
  fc
    .record({ limb: fc.integer({ min: 10, max: 40 }), count })
    .map(({ limb, count: pieces }) =>
      partOf(frame(8 * limb, 6 * limb, limb), { count: pieces, nestInside: true }),
    ),
);

describe('the shares of what is bought', () => {
  it('are never negative and add up to it, exact and as printed, for shapes and sheets of all kinds', () => {
    const adds = fc.property(
      fc.array(oddSheets(), { minLength: 1, maxLength: 2 }),
      fc.constantFrom(0, 10),
      fc.array(outlines, { minLength: 1, maxLength: 4 }),
      (odd, trim, parts) => {
        const sheets = [
          ...odd.map((sheet) => ({
            ...sheetOf(sheet.length, sheet.width, { trim, onHand: 2 }),
            boundary: sheet.boundary,
          })),
          sheetOf(700, 500, { trim, keepOuts: [[0, 0, 40, 30]] }),
        ];
        const job = jobOf({ sheets, parts });
        const { yields } = costPlan(job, [layoutOf(job)], []);
        for (const own of [...yields.sheets, ...(yields.job.sheets ? [yields.job.sheets] : [])]) {
          const sum = YIELD_USES.reduce((total, use) => total + own.amounts[use], 0);
          expect(sum).toBeCloseTo(own.bought, 3);
          expect(YIELD_USES.every((use) => own.amounts[use] > -1e-6)).toBe(true);
          expect(YIELD_USES.reduce((total, use) => total + own.tenths[use], 0)).toBe(1000);
          expect(own.onUsed).toBeGreaterThanOrEqual(own.onPurchase);
        }
      },
    );
    fc.assert(adds, { seed: SEED, numRuns: 25 });
  });

  it('are those that counting square millimetres gives, for rectangles', () => {
    const counted = fc.property(
      fc.constantFrom(0, 10, 25),
      fc.constantFrom(
        [],
        [[100, 100, 60, 50]] as const,
        [
          [0, 0, 30, 30],
          [20, 10, 40, 10],
        ] as const,
      ),
      fc.constantFrom([700, 500], [1200, 320]),
      fc.array(rectangles, { minLength: 1, maxLength: 5 }),
      (trim, keepOuts, [length, width], parts) => {
        const sheet = sheetOf(length!, width!, { trim, keepOuts });
        const job = jobOf({ sheets: [sheet], parts });
        const layout = layoutOf(job);
        const costs = costPlan(job, [layout], []);
        layout.sheets.forEach((laid, i) => {
          const found = squares(job, laid, costs.sheets[i]!.offcuts);
          for (const use of YIELD_USES)
            expect(costs.yields.sheets[i]!.amounts[use], use).toBeCloseTo(found[use], 1);
        });
      },
    );
    fc.assert(counted, { seed: SEED, numRuns: 10 });
  });
});

function layoutOf(job: Job) {
  let asked = 0;
  return pack(job, 0, { ...SEARCH, shouldStop: () => ++asked > 4 }).layout;
}

/** Every square millimetre of a sheet by itself; all boxes lie on whole millimetres, as does the spacing. */
function squares(job: Job, { placements }: SheetLayout, offcuts: readonly Offcut[]) {
  const stock = job.materials[0]!.sheets[0]!;
  const [length, width] = [toMm(stock.length), toMm(stock.width)];
  const pieces = placements.map((placement) =>
    boxOfShape(placeShape(job.parts[job.pieces[placement.piece]!.part]!.shape, placement)),
  );
  const grown = pieces.map((box) => growBox(box, cutWidth(job.machine)));
  const usable = usableBox(stock);
  const island = islands(length, width, (x, y) => grown.some((box) => holds(box, x, y)));
  const found: Record<YieldUse, number> = {
    pieces: 0,
    offcuts: 0,
    kerf: 0,
    trim: 0,
    keepOuts: 0,
    skeleton: 0,
    loose: 0,
  };
  for (let y = 0; y < width; y++) {
    for (let x = 0; x < length; x++) {
      const isIn = (box: Box) => holds(box, x, y);
      const use: YieldUse = !isIn(usable)
        ? 'trim'
        : pieces.some(isIn)
          ? 'pieces'
          : grown.some(isIn)
            ? 'kerf'
            : offcuts.some(({ box }) => isIn(box))
              ? 'offcuts'
              : stock.keepOuts.some(({ box }) => isIn(box))
                ? 'keepOuts'
                : island.isFirm(x, y)
                  ? 'skeleton'
                  : 'loose';
      found[use]++;
    }
  }
  return found;
}

function holds({ minX, minY, maxX, maxY }: Box, x: number, y: number): boolean {
  const [u, v] = [fromMm(x + 0.5), fromMm(y + 0.5)];
  return minX < u && u < maxX && minY < v && v < maxY;
}

/** What hangs together of the squares that are not cut away, side by side. */
function islands(length: number, width: number, isCut: (x: number, y: number) => boolean) {
  const label = new Int32Array(length * width).fill(-1);
  const sizes: number[] = [];
  const isFree = Array.from(label, (_, i) => !isCut(i % length, Math.floor(i / length)));
  for (let start = 0; start < label.length; start++) {
    if (label[start] !== -1 || !isFree[start]) continue;
    const stack = [start];
    label[start] = sizes.length;
    let size = 0;
    for (let at = stack.pop(); at !== undefined; at = stack.pop()) {
      size++;
      const x = at % length;
      const beside = [
        ...(x > 0 ? [at - 1] : []),
        ...(x < length - 1 ? [at + 1] : []),
        at - length,
        at + length,
      ];
      for (const next of beside) {
        if (label[next] !== -1 || !isFree[next]) continue;
        label[next] = sizes.length;
        stack.push(next);
      }
    }
    sizes.push(size);
  }
  const largest = Math.max(0, ...sizes);
  const isFirm = (x: number, y: number) => {
    const size = sizes[label[y * length + x] ?? -1] ?? 0;
    return size === largest || size >= LEAST_SKELETON_MM2;
  };
  return { isFirm };
}
