import { describe, expect, it } from 'vitest';
import { costPlan } from '../../src/costing/cost-plan.ts';
import { roundedShares } from '../../src/costing/yield-rounding.ts';
import { LEAST_SKELETON_MM2 } from '../../src/costing/yield-waste.ts';
import { yieldsOf } from '../../src/costing/yields.ts';
import { CONSTANTS } from '../../src/holding/constants.ts';
import type { BoardCosts } from '../../src/model/costs.ts';
import type { Placement } from '../../src/model/layout.ts';
import { fromMm } from '../../src/model/units.ts';
import { YIELD_USES, type Yield } from '../../src/model/yield.ts';
import {
  at,
  jobOf,
  layoutOf,
  type PartInput,
  partOf,
  type SheetInput,
  sheetOf,
} from '../helpers/jobs.ts';
import { chestPlan, cratePlan } from '../helpers/sawn-plan.ts';
import { frame, rect } from '../helpers/shapes.ts';

describe('roundedShares', () => {
  it.each<[string, number[], number, number[]]>([
    ['thirds', [1, 1, 1], 1000, [333, 334, 333]],
    ['sevenths', [1, 1, 1, 1, 1, 1, 1], 1000, [143, 143, 143, 143, 143, 143, 142]],
    ['the first by itself, upwards', [0.6556, 0.2504, 0.094], 1000, [656, 250, 94]],
    ['the first by itself, downwards', [0.6554, 0.2502, 0.0944], 1000, [655, 250, 95]],
    ['nothing stays nothing', [1, 0, 1, 0, 1], 100, [33, 0, 34, 0, 33]],
    ['all of one', [0, 0, 5], 1000, [0, 0, 1000]],
    ['nothing at all', [0, 0], 1000, [0, 0]],
  ])('%s', (_, amounts, whole, expected) => {
    expect(roundedShares(amounts, whole)).toEqual(expected);
  });

  it('adds up, and nobody is off by one or more, for amounts of all sizes', () => {
    // A linear congruence as in any textbook: the same amounts in every run.
    let state = 1;
    const next = () => {
      state = (state * 48_271) % 2_147_483_647;
      return state / 2_147_483_647;
    };
    for (let trial = 0; trial < 5000; trial++) {
      const amounts = Array.from({ length: 1 + (trial % 8) }, () =>
        next() < 0.2 ? 0 : next() ** 4 * 1e7,
      );
      const total = amounts.reduce((a, b) => a + b, 0);
      const rounded = roundedShares(amounts, 1000);
      if (total === 0) continue;
      expect(rounded.reduce((a, b) => a + b, 0)).toBe(1000);
      rounded.forEach((share, i) => {
        expect(Math.abs(share - (amounts[i]! / total) * 1000)).toBeLessThan(1);
      });
      expect(rounded[0]).toBe(Math.round((amounts[0]! / total) * 1000));
    }
  });
});

interface Laid {
  readonly name: string;
  readonly sheet: SheetInput;
  readonly parts: readonly PartInput[];
  readonly placements: readonly Placement[];
  /** In square millimetres. */
  readonly waste: { readonly keepOuts: number; readonly skeleton: number; readonly loose: number };
}

/** The cutter is 6 mm wide. */
const SHEETS: readonly Laid[] = [
  {
    name: 'a full sheet has no waste',
    sheet: sheetOf(600, 400),
    parts: [partOf(rect(600, 400))],
    placements: [at(0, 0, 0)],
    waste: { keepOuts: 0, skeleton: 0, loose: 0 },
  },
  {
    name: 'what lies round a piece is skeleton',
    sheet: sheetOf(600, 400, { trim: 10 }),
    parts: [partOf(rect(480, 280))],
    placements: [at(0, 60, 60)],
    waste: { keepOuts: 0, skeleton: 580 * 380 - 492 * 292, loose: 0 },
  },
  {
    name: 'the inside of a cut-out is loose, however large',
    sheet: sheetOf(1000, 800),
    parts: [partOf(frame(1000, 800, 100))],
    placements: [at(0, 0, 0)],
    waste: { keepOuts: 0, skeleton: 0, loose: 788 * 588 },
  },
  {
    name: 'the smaller strip beside a row is loose',
    sheet: sheetOf(600, 400),
    parts: [partOf(rect(600, 200))],
    placements: [at(0, 0, 56)],
    waste: { keepOuts: 0, skeleton: 600 * 138, loose: 600 * 50 },
  },
  {
    name: 'a strip of a square foot holds together by itself',
    sheet: sheetOf(2000, 400, { keepOuts: [[0, 306, 2000, 94]] }),
    parts: [partOf(rect(2000, 200))],
    placements: [at(0, 0, 56)],
    waste: { keepOuts: 2000 * 94, skeleton: 2000 * 50 + 2000 * 44, loose: 0 },
  },
  {
    name: 'a keep-out counts once, and only inside the trimmed edges',
    sheet: sheetOf(600, 400, {
      trim: 10,
      keepOuts: [
        [0, 0, 40, 30],
        [20, 10, 30, 20],
      ],
    }),
    parts: [partOf(rect(480, 280))],
    placements: [at(0, 60, 60)],
    waste: { keepOuts: 40 * 20, skeleton: 580 * 380 - 492 * 292 - 40 * 20, loose: 0 },
  },
];

describe('the waste of a sheet', () => {
  it.each(SHEETS)('$name', ({ sheet, parts, placements, waste }) => {
    const job = jobOf({ sheets: [sheet], parts });
    const [costs] = costPlan(job, [layoutOf([{ stock: 0, placements }])], []).sheets;
    expect(costs!.keepOutAreaMm2).toBeCloseTo(waste.keepOuts, 3);
    expect(costs!.skeletonAreaMm2).toBeCloseTo(waste.skeleton, 3);
    expect(costs!.looseAreaMm2).toBeCloseTo(waste.loose, 3);
    expect(costs!.wasteAreaMm2).toBeCloseTo(waste.keepOuts + waste.skeleton + waste.loose, 3);
  });

  it('is told apart by the rule of the hold-down', () => {
    expect(LEAST_SKELETON_MM2).toBe(CONSTANTS.skeletonArea.value);
  });

  it('is loose at a saw, where every cut goes through', () => {
    for (const sheet of [...chestPlan().costs.sheets, ...cratePlan().costs.sheets]) {
      expect(sheet.skeletonAreaMm2).toBe(0);
      expect(sheet.keepOutAreaMm2 + sheet.looseAreaMm2).toBeCloseTo(sheet.wasteAreaMm2, 3);
    }
    const bad = chestPlan().costs.sheets.reduce((sum, sheet) => sum + sheet.keepOutAreaMm2, 0);
    expect(bad).toBeGreaterThan(0);
  });
});

describe('yieldsOf', () => {
  it('tells the yield on purchase and on what is used up, by sheet, by material and in all', () => {
    const job = jobOf({
      materials: [[sheetOf(1000, 600)], [sheetOf(500, 400)]],
      parts: [partOf(rect(500, 600)), partOf(rect(500, 400), { material: 1 })],
    });
    const layouts = [
      layoutOf([{ stock: 0, placements: [at(0, 0, 0)] }]),
      layoutOf([{ stock: 0, placements: [at(1, 0, 0)] }], { material: 1 }),
    ];
    const { yields } = costPlan(job, layouts, []);
    const figures = (own: Yield | null) => [own!.onPurchase, own!.onUsed];
    // An offcut of 492 by 600 mm is kept, one spacing of 8 mm away from the piece.
    const used = 600_000 - 492 * 600;
    expect(figures(yields.sheets[0]!)).toEqual([0.5, 300_000 / used]);
    expect(figures(yields.sheets[1]!)).toEqual([1, 1]);
    expect(figures(yields.materials[0]!.sheets)).toEqual(figures(yields.sheets[0]!));
    expect(figures(yields.job.sheets)).toEqual([500_000 / 800_000, 500_000 / (used + 200_000)]);
    expect(yields.job.boards).toBeNull();
  });

  it('shares out a board by its length, defects once and inside the trimmed ends only', () => {
    const board: BoardCosts = {
      board: 1,
      length: fromMm(2400),
      pieceLength: fromMm(1000),
      leftovers: [
        { from: fromMm(1013), to: fromMm(1200), isKept: false },
        { from: fromMm(1260), to: fromMm(2390), isKept: true },
      ],
      yieldShare: 1000 / 2400,
      priceCents: null,
    };
    const stock = {
      index: 0,
      name: '2400',
      length: fromMm(2400),
      endTrim: fromMm(10),
      defects: [
        { from: fromMm(2395), to: fromMm(2400), why: 'split' },
        { from: fromMm(1240), to: fromMm(1260), why: 'knot' },
        { from: fromMm(1200), to: fromMm(1250), why: 'knot' },
      ],
      priceCents: null,
      onHand: null,
      pack: 1,
      place: { line: 1, column: 1 },
    };
    const [material] = jobOf({ sheets: [], parts: [] }).materials;
    const layout = layoutOf([], { boards: [{ stock: 0, pieces: [] }] });
    const costs = { sheets: [], boards: [board] };
    const { boards, job, materials } = yieldsOf(
      [{ ...material!, boards: [stock] }],
      [layout],
      costs,
    );
    expect(boards[0]!.amounts).toEqual({
      pieces: 1000,
      offcuts: 1130,
      kerf: 3,
      trim: 20,
      keepOuts: 60,
      skeleton: 0,
      loose: 187,
    });
    expect(boards[0]!.bought).toBe(2400);
    expect(boards[0]!.onUsed).toBe(1000 / 1270);
    expect(job.boards).toEqual(boards[0]);
    expect(materials).toEqual([{ sheets: null, boards: boards[0] }]);
  });

  it('makes 100.0 % of every row as printed', () => {
    for (const { costs } of [chestPlan(), cratePlan()]) {
      const { sheets, materials, job } = costs.yields;
      for (const own of [...sheets, ...materials.map((each) => each.sheets), job.sheets]) {
        expect(YIELD_USES.reduce((sum, use) => sum + own!.tenths[use], 0)).toBe(1000);
        expect(YIELD_USES.reduce((sum, use) => sum + own!.amounts[use], 0)).toBeCloseTo(
          own!.bought,
          3,
        );
      }
    }
  });

  it('has none where nothing is laid out', () => {
    const { materials } = jobOf({ sheets: [], parts: [] });
    const nothing = { sheets: [], boards: [] };
    expect(yieldsOf(materials, [layoutOf([])], nothing).job).toEqual({
      sheets: null,
      boards: null,
    });
  });
});
