import { describe, expect, it } from 'vitest';
import { costPlan } from '../../src/costing/cost-plan.ts';
import { pocketRunMm, pocketVolumeMm3 } from '../../src/costing/pockets.ts';
import { type Contour, circle, rectangle } from '../../src/geometry/shape.ts';
import { fromMm } from '../../src/model/units.ts';
import { at, layoutOf, partOf } from '../helpers/jobs.ts';
import { rect } from '../helpers/shapes.ts';
import { FULL_DEPTH, shopJob } from '../holding/jobs.ts';

function box(x: number, y: number, width: number, height: number): Contour {
  return rectangle(fromMm(x), fromMm(y), fromMm(width), fromMm(height));
}

/** 10 mm cutter, passes of 9 mm. */
function machine(scale = 1) {
  const cutter = { ...FULL_DEPTH.cutter, diameter: fromMm(10 * scale) };
  return { ...FULL_DEPTH, cutter, passDepth: fromMm(9 * scale) };
}

function partWith(contour: Contour, depth: number) {
  const job = shopJob([partOf(rect(500, 400))]);
  return { ...job.parts[0]!, pockets: [{ contour, depth: fromMm(depth) }] };
}

describe('the way that clears a pocket', () => {
  it.each([
    // The middle of the cutter has 90 x 40: 3600 / 5 in rows and 260 round the edge.
    ['a rectangle', box(50, 50, 100, 50), 9, 980],
    ['a rectangle in two passes', box(50, 50, 100, 50), 9.1, 1960],
    ['a groove of twice the cutter: 190 x 10', box(50, 50, 200, 20), 5, 380 + 400],
    ['a groove as wide as the cutter', box(50, 50, 200, 10), 5, 200],
    ['a groove for another cutter', box(50, 50, 200, 5), 5, 100],
  ])('of %s', (_, contour, depth, way) => {
    expect(pocketRunMm(partWith(contour, depth), machine())).toBeCloseTo(way, 1);
  });

  it('of a round one: pi 15^2 / 5 in rows and 2 pi 15 round the edge', () => {
    const contour = circle({ x: fromMm(100), y: fromMm(100) }, fromMm(20));
    const way = (Math.PI * 15 ** 2) / 5 + 2 * Math.PI * 15;
    expect(pocketRunMm(partWith(contour, 5), machine()) / way).toBeCloseTo(1, 2);
  });

  it('grows with the size of everything', () => {
    const small = pocketRunMm(partWith(box(50, 50, 80, 35), 5), machine());
    const large = pocketRunMm(partWith(box(100, 100, 160, 70), 10), machine(2));
    expect(large / small).toBeCloseTo(2, 9);
  });
});

describe('what pockets change of the costs', () => {
  const job = shopJob([partOf(rect(500, 400), { count: 2 })], {
    machine: machine(),
    cutter: machine().cutter,
  });
  const layouts = [layoutOf([{ stock: 0, placements: [at(0, 100, 100), at(1, 700, 100)] }])];
  const pockets = [
    { contour: box(50, 50, 100, 50), depth: fromMm(9) },
    { contour: box(100, 50, 100, 50), depth: fromMm(12) },
  ];
  const recessed = { ...job, parts: job.parts.map((part) => ({ ...part, pockets })) };
  const [plain, other] = [job, recessed].map((each) => costPlan(each, layouts, []));

  it('is the time at the machine: three ways of 0.98 m for each of two pieces at 9 m/min', () => {
    expect(other!.cutTimeS! - plain!.cutTimeS!).toBeCloseTo((2 * 3 * 0.98 * 60) / 9, 6);
    expect(other!.cutLengthMm).toBe(plain!.cutLengthMm);
  });

  it('is the weight of a piece, where they overlap once, and not that of the sheet', () => {
    const mm3 = 100 * 50 * 12 + 50 * 50 * 9;
    expect(pocketVolumeMm3(recessed.parts[0]!)).toBeCloseTo(mm3, 6);
    const density = job.materials[0]!.densityKgPerM3;
    const [before, after] = [plain!, other!].map(({ parts }) => parts[0]!.pieceWeightKg);
    expect(before! - after!).toBeCloseTo(mm3 * 1e-9 * density, 9);
    expect(other!.sheets[0]!.weightKg).toBe(plain!.sheets[0]!.weightKg);
  });
});
