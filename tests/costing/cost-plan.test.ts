import { describe, expect, it } from 'vitest';
import { costPlan } from '../../src/costing/cost-plan.ts';
import { brokenLimits } from '../../src/costing/limits.ts';
import { holdSheets } from '../../src/holding/hold.ts';
import type { Costs } from '../../src/model/costs.ts';
import { type Job, type Limits, NO_LIMITS } from '../../src/model/job.ts';
import type { Layout } from '../../src/model/layout.ts';
import type { Plan } from '../../src/model/plan.ts';
import { fromMm, toMm } from '../../src/model/units.ts';
import { at, jobOf, layoutOf, partOf, sheetOf } from '../helpers/jobs.ts';
import { disc, frame, rect } from '../helpers/shapes.ts';
import { singleRectangle } from '../holding/jobs.ts';

const PARTS = [
  { name: 'one rectangle', shape: rect(500, 400), areaMm2: 200_000, lengthMm: 1800 },
  { name: 'a disc', shape: disc(400), areaMm2: Math.PI * 200 ** 2, lengthMm: Math.PI * 400 },
  { name: 'a frame', shape: frame(400, 400, 100), areaMm2: 120_000, lengthMm: 1600 + 800 },
];

describe('the time that remedies take', () => {
  it.each([
    ['a skin is cut', 150, 18, 'skin', 'cutTimeS'],
    ['tabs are cut by hand', 100, 2.9, 'tabs', 'handTimeS'],
  ] as const)('counts where %s', (_, side, thickness, action, where) => {
    const [job, layouts] = singleRectangle(side, 0.8 * side, {
      material: { thickness: fromMm(thickness) },
    });
    const holding = holdSheets(job, layouts);
    const [loose] = holding[0]!.loose;
    expect(loose!.action).toBe(action);
    const [plain, held] = [costPlan(job, layouts, []), costPlan(job, layouts, holding)];
    expect(loose!.remedyS).toBeGreaterThan(0);
    const other = where === 'cutTimeS' ? 'handTimeS' : 'cutTimeS';
    for (const costs of [(c: Costs) => c, (c: Costs) => c.sheets[0]!]) {
      expect((costs(held)[where] ?? 0) - (costs(plain)[where] ?? 0)).toBeCloseTo(loose!.remedyS, 9);
      expect(costs(held)[other]).toBe(costs(plain)[other]);
    }
  });
});

describe('costPlan', () => {
  it.each(PARTS)('shares out the sheet of $name', ({ shape, areaMm2, lengthMm }) => {
    const { job, layouts } = lay(
      jobOf({
        sheets: [sheetOf(1000, 600, { trim: 10, priceCents: 4050 })],
        parts: [partOf(shape)],
      }),
    );
    const costs = costPlan(job, layouts, []);
    const [sheet] = costs.sheets;
    expect(sheet!.pieceAreaMm2 / areaMm2).toBeCloseTo(1, 4);
    expect(sheet!.cutLengthMm / lengthMm).toBeCloseTo(1, 4);
    expect(sheet!.trimAreaMm2).toBeCloseTo(600_000 - 980 * 580, 6);
    const parts = [
      sheet!.pieceAreaMm2,
      sheet!.trimAreaMm2,
      sheet!.kerfAreaMm2,
      sheet!.offcutAreaMm2,
      sheet!.wasteAreaMm2,
    ];
    expect(parts.every((part) => part >= 0)).toBe(true);
    expect(parts.reduce((a, b) => a + b)).toBeCloseTo(sheet!.areaMm2, 6);
    expect(costs.totalCents).toBe(4050);
    expect(costs.yieldShare).toBeCloseTo(areaMm2 / 600_000, 4);
    // 18 mm at 680 kg/m3 is 12.24 kg/m2.
    expect(costs.parts[0]!.pieceWeightKg).toBeCloseTo(areaMm2 * 12.24e-6, 3);
  });

  it('counts a kerf that two pieces share once', () => {
    const two = jobOf({
      spacing: 6,
      sheets: [sheetOf(1000, 600)],
      parts: [partOf(rect(300, 600), { count: 2 })],
    });
    const layouts = [layoutOf([{ stock: 0, placements: [at(0, 0, 0), at(1, 306, 0)] }])];
    // The cutter of 6 mm leaves 6 mm between the pieces and 6 mm beyond the second.
    expect(costPlan(two, layouts, []).sheets[0]!.kerfAreaMm2).toBeCloseTo(12 * 600, 0);
  });

  it('keeps the largest leftover one spacing away from the piece', () => {
    const { job, layouts } = lay(
      jobOf({ sheets: [sheetOf(1000, 600)], parts: [partOf(rect(500, 600))] }),
    );
    const [offcut] = costPlan(job, layouts, []).sheets[0]!.offcuts;
    expect(offcut!.box).toEqual({
      minX: fromMm(508),
      minY: 0,
      maxX: fromMm(1000),
      maxY: fromMm(600),
    });
  });

  it('shares out an odd-shaped sheet, and keeps leftovers inside it only', () => {
    const sheet = { ...sheetOf(1000, 600, { trim: 10 }), boundary: SLANTED };
    const { job, layouts } = lay(jobOf({ sheets: [sheet], parts: [partOf(rect(300, 250))] }));
    const [costs] = costPlan(job, layouts, []).sheets;
    expect(costs!.areaMm2).toBe(450_000);
    expect(costs!.weightKg).toBeCloseTo(0.45 * 0.018 * 680, 1);
    expect(costs!.yieldShare).toBeCloseTo(75_000 / 450_000, 9);
    const { pieceAreaMm2, trimAreaMm2, kerfAreaMm2, offcutAreaMm2, wasteAreaMm2 } = costs!;
    const shares = [pieceAreaMm2, trimAreaMm2, kerfAreaMm2, offcutAreaMm2, wasteAreaMm2];
    expect(shares.every((share) => share > 0)).toBe(true);
    expect(shares.reduce((a, b) => a + b)).toBeCloseTo(450_000, 6);
    // The trim runs along sides of 1000, 600, 500 and, slanted, the root of 500 and 600 squared.
    const around = 1000 + 600 + 500 + Math.sqrt(500 ** 2 + 600 ** 2);
    expect(trimAreaMm2 / (10 * around)).toBeCloseTo(1, 1);
    expect(costs!.offcuts.length).toBeGreaterThan(0);
    for (const { box } of costs!.offcuts) {
      // The slanted side is the line 6 x + 5 y = 6000.
      expect(6 * toMm(box.maxX) + 5 * toMm(box.maxY)).toBeLessThanOrEqual(6000);
    }
  });

  it('keeps no leftover that is too small, and measures the used length from the trimmed edge', () => {
    const { job, layouts } = lay(
      jobOf({
        sheets: [sheetOf(640, 600, { trim: { left: 10 } })],
        parts: [partOf(rect(500, 600))],
      }),
    );
    const [sheet] = costPlan(job, layouts, []).sheets;
    expect(sheet!.offcuts).toEqual([]);
    expect(toMm(sheet!.usedLength)).toBe(500);
  });

  it('does not know the total where a sheet has no price', () => {
    const { job, layouts } = lay(
      jobOf({ sheets: [sheetOf(1000, 600)], parts: [partOf(rect(500, 400))] }),
    );
    expect(costPlan(job, layouts, []).totalCents).toBeNull();
  });
});

const LIMITS: { name: string; limits: Partial<Limits>; broken: string[] }[] = [
  { name: 'none', limits: {}, broken: [] },
  { name: 'sheets just kept', limits: { sheets: 1 }, broken: [] },
  { name: 'sheets broken', limits: { sheets: 0 }, broken: ['sheets'] },
  { name: 'yield just kept', limits: { yieldShare: 1 / 3 }, broken: [] },
  { name: 'yield broken', limits: { yieldShare: 0.34 }, broken: ['yield'] },
  { name: 'cost just kept', limits: { costCents: 4050 }, broken: [] },
  { name: 'cost broken', limits: { costCents: 4049 }, broken: ['cost'] },
  { name: 'proof kept', limits: { proof: true }, broken: [] },
  // 500 x 400 x 18 mm of plywood.
  { name: 'weight of a sheet kept', limits: { weightKg: 20 }, broken: [] },
  { name: 'weight of a sheet broken', limits: { weightKg: 1 }, broken: ['weight'] },
  { name: 'time broken', limits: { timeS: 1 }, broken: ['time'] },
  { name: 'time kept', limits: { timeS: 3600 }, broken: [] },
  {
    name: 'all broken',
    limits: { sheets: 0, yieldShare: 0.5, costCents: 1 },
    broken: ['sheets', 'yield', 'cost'],
  },
];

describe('brokenLimits', () => {
  it.each(LIMITS)('$name', ({ limits, broken }) => {
    const { job, layouts } = lay(
      jobOf({
        sheets: [sheetOf(1000, 600, { priceCents: 4050 })],
        parts: [partOf(rect(500, 400))],
      }),
    );
    const limited = { ...job, limits: { ...NO_LIMITS, ...limits } };
    expect(brokenLimits(planOf(limited, layouts)).map(({ limit }) => limit)).toEqual(broken);
  });

  it('says that pieces found no sheet', () => {
    const { job, layouts } = lay(
      jobOf({ sheets: [sheetOf(1000, 600)], parts: [partOf(rect(500, 400), { count: 2 })] }),
    );
    const short = layouts.map(
      (layout): Layout => ({ ...layout, unplaced: [{ piece: 1, why: 'no-stock' }] }),
    );
    expect(brokenLimits(planOf(job, short))).toEqual([
      { limit: 'stock', allowed: 0, found: 1, rule: null, what: null },
    ]);
  });
});

const SLANTED = [
  [0, 0],
  [1000, 0],
  [500, 600],
  [0, 600],
] as const;

/** The first piece of a job at the lower left of the trimmed sheet. */
function lay(job: Job): { job: Job; layouts: readonly Layout[] } {
  const { trim } = job.materials[0]!.sheets[0]!;
  const placements = [at(0, toMm(trim.left), toMm(trim.bottom))];
  return { job, layouts: [layoutOf([{ stock: 0, placements }])] };
}

function planOf(job: Job, layouts: readonly Layout[]): Plan {
  const options = { effort: 'quick', seed: 1, seconds: null } as const;
  return {
    job,
    options,
    stopped: null,
    layouts,
    holding: [],
    sensitivity: [],
    cutWarnings: [],
    costs: costPlan(job, layouts, []),
  };
}
