import { describe, expect, it } from 'vitest';
import { usualChipIn } from '../../src/holding/chip.ts';
import { FAMILY_CONSTANTS } from '../../src/holding/constants.ts';
import {
  freeingDepthMm,
  freeingPasses,
  type PassForce,
  passForce,
} from '../../src/holding/cutting-force.ts';
import { type Cutter, passCount, type Router } from '../../src/model/machine.ts';
import { FAMILIES } from '../../src/model/stock.ts';
import { fromMm, UNITS_PER_INCH } from '../../src/model/units.ts';
import { FULL_DEPTH, freeingPass, shopJob } from './jobs.ts';

const PLYWOOD = shopJob([]).materials[0]!;
const MDF = { ...PLYWOOD, family: 'mdf', densityKgPerM3: 750 } as const;

describe('the force of a pass', () => {
  it('reproduces the worked example in MDF', () => {
    const machine = router(
      { diameter: fromMm(9.525), spiral: 'up-cut', helixDeg: 30 },
      { feedMmPerMin: 10_000 },
    );
    expect(passForce(machine, MDF, 18).tangentialN).toBeCloseTo(136, 1);
    expect(passForce(machine, MDF, 18).axialN).toBeCloseTo(78.5, 1);
    expect(passForce(machine, MDF, 6).tangentialN).toBeCloseTo(45.3, 1);
    expect(passForce(machine, MDF, 1).tangentialN).toBeCloseTo(7.56, 2);
    expect(passForce(machine, MDF, 0.5).tangentialN).toBeCloseTo(3.78, 2);
  });

  it('is 157 N across and 47 N along the cut in plywood at 0.25 mm a tooth', () => {
    const { tangentialN, resultantN, pushes } = freeingPass(FULL_DEPTH, PLYWOOD);
    expect(tangentialN).toBeCloseTo(156.6, 9);
    expect(resultantN).toBeCloseTo(156.6 * Math.sqrt(1.09), 9);
    expect(pushes[0]).toEqual({ deg: 0, acrossN: tangentialN, alongN: 0.3 * tangentialN });
  });

  it('pushes along the cut most somewhere between the front and the side', () => {
    const { pushes, resultantN } = freeingPass(FULL_DEPTH, PLYWOOD);
    expect(pushes[1]!.deg).toBeGreaterThan(0);
    expect(pushes[1]!.deg).toBeLessThan(90);
    expect(pushes[1]!.alongN).toBeGreaterThan(pushes[0]!.alongN);
    expect(Math.hypot(pushes[1]!.alongN, pushes[1]!.acrossN)).toBeLessThan(resultantN);
  });

  it('makes at no other angle of the tooth a moment more than a sixth above the instants looked at', () => {
    for (const machine of [
      FULL_DEPTH,
      router({ worn: true }),
      router({}, { feedMmPerMin: 3000 }),
    ]) {
      const pass = freeingPass(machine, PLYWOOD);
      for (let arm = 0; arm <= 90; arm++) {
        const [along, across] = [Math.cos(radians(arm)), Math.sin(radians(arm))];
        const looked = pass.pushes.map((p) => p.acrossN * along + p.alongN * across);
        expect(sweptMoment(pass, along, across) / Math.max(...looked)).toBeLessThan(7 / 6);
      }
    }
  });

  it.each([
    ['straight', 0, 0, 0],
    ['up-cut', 30, 0, 18],
    ['down-cut', 30, 0, -18],
    ['compression', 30, 6, -6],
    ['compression', 30, 25, 18],
  ] as const)('of a %s cutter lifts %d degrees x %d mm of tip', (spiral, helixDeg, tip, net) => {
    const pass = freeingPass(router({ spiral, helixDeg, upcutLength: fromMm(tip) }), PLYWOOD);
    const tangent = Math.tan((helixDeg * Math.PI) / 180);
    expect(pass.axialN).toBeCloseTo((pass.tangentialN / 18) * tangent * net, 9);
  });

  it('of a compression cutter in a skin is that of an up-cut one', () => {
    const tip = router({ spiral: 'compression', helixDeg: 30, upcutLength: fromMm(6) });
    const up = router({ spiral: 'up-cut', helixDeg: 30 });
    expect(passForce(tip, PLYWOOD, 0.5).axialN).toBe(passForce(up, PLYWOOD, 0.5).axialN);
  });

  it('grows with wear and with density', () => {
    const sharp = freeingPass(FULL_DEPTH, PLYWOOD);
    const worn = freeingPass(router({ worn: true }), PLYWOOD);
    const dense = freeingPass(FULL_DEPTH, { ...PLYWOOD, densityKgPerM3: 2 * 680 });
    expect(worn.resultantN / sharp.resultantN).toBeGreaterThan(1.3);
    expect(worn.resultantN / sharp.resultantN).toBeLessThan(2);
    expect(dense.resultantN).toBeCloseTo(2 * sharp.resultantN, 9);
  });

  it('is in a finishing cut that of a thin chip over the whole depth', () => {
    // 0.3 mm of 6.35: the tooth is in for acos(1 - 2 x 0.3 / 6.35) = 25.1 degrees, its chip 0.424 of the feed.
    const [freeing, finishing] = freeingPasses({ ...FULL_DEPTH, finish: fromMm(0.3) }, PLYWOOD);
    expect([freeing.kind, finishing!.kind, finishing!.depthMm]).toEqual([
      'freeing',
      'finishing',
      18,
    ]);
    expect(finishing!.chipMm).toBeCloseTo(0.25 * 0.4243, 4);
    expect(finishing!.tangentialN).toBeLessThan(freeing.tangentialN);
    const half = freeingPasses({ ...FULL_DEPTH, finish: fromMm(3.1749) }, PLYWOOD)[1]!;
    expect(half.resultantN).toBeCloseTo(freeing.resultantN, 1);
  });

  it('is that of the last pass where the file keeps one, and of the passes above it', () => {
    const machine = { ...FULL_DEPTH, passDepth: fromMm(9), lastPass: fromMm(1) };
    const depths = (router: Router): (string | number)[][] =>
      freeingPasses(router, PLYWOOD).map(({ kind, depthMm }) => [kind, depthMm]);
    expect(depths(machine)).toEqual([
      ['freeing', 1],
      ['above', 8.5],
    ]);
    expect(depths({ ...machine, lastPass: fromMm(20) })).toEqual([['freeing', 9]]);
  });

  it('takes as many equal passes as the depth needs', () => {
    const at = (depth: number): number =>
      freeingDepthMm({ ...FULL_DEPTH, passDepth: fromMm(depth) }, 18);
    expect([18, 20, 17, 9, 8, 6].map(at)).toEqual([18, 18, 9, 9, 6, 6]);
  });

  it.each([
    [3 / 4, 1 / 4, 3],
    [3 / 4, 1 / 8, 6],
    [1 / 2, 1 / 16, 8],
    [23 / 32, 23 / 96, 3],
  ])('goes through %f inch with a pass depth of %f inch in %i passes', (inches, pass, count) => {
    const passDepth = Math.ceil(pass * UNITS_PER_INCH);
    const machine = { ...FULL_DEPTH, passDepth };
    const thicknessMm = inches * 25.4;
    expect(freeingDepthMm(machine, thicknessMm)).toBeCloseTo(thicknessMm / count, 9);
    expect(passCount(machine, inches * UNITS_PER_INCH)).toBe(count);
  });

  it('is known for every family', () => {
    for (const family of FAMILIES) {
      const { edgeNPerMm, shearNPerMm2, permeabilityM2, strength } = FAMILY_CONSTANTS[family];
      const numbers = [edgeNPerMm, shearNPerMm2, permeabilityM2, ...Object.values(strength)];
      for (const number of numbers) expect(number, family).toBeGreaterThan(0);
    }
  });
});

describe('the usual feed per tooth', () => {
  it('lies between the rows of the chart for sizes between them, and at its ends beyond', () => {
    expect(usualChipIn('mdf', 5 / 16, 5 / 16).low).toBeCloseTo(0.0145, 9);
    expect(usualChipIn('mdf', 1, 1)).toEqual({ low: 0.02, high: 0.025 });
    expect(usualChipIn('mdf', 1 / 16, 1 / 16)).toEqual({ low: 0.004, high: 0.007 });
    expect(usualChipIn('hardwood', 1 / 2, 10).high).toBeCloseTo(0.0095, 9);
  });
});

/** The greatest moment over all angles of the tooth, on arms along and across the cut. */
function sweptMoment(pass: PassForce, along: number, across: number): number {
  let most = 0;
  for (let deg = -90; deg <= 90; deg += 0.5) {
    const [sin, cos] = [Math.sin(radians(deg)), Math.cos(radians(deg))];
    const tangential = pass.depthMm * (pass.edgeNPerMm + pass.shearNPerMm2 * pass.chipMm * cos);
    const acrossN = tangential * Math.abs(cos - pass.radialRatio * sin);
    const alongN = tangential * Math.abs(sin + pass.radialRatio * cos);
    most = Math.max(most, acrossN * along + alongN * across);
  }
  return most;
}

function radians(deg: number): number {
  return (deg * Math.PI) / 180;
}

function router(cutter: Partial<Cutter>, machine: Partial<Router> = {}): Router {
  return { ...FULL_DEPTH, ...machine, cutter: { ...FULL_DEPTH.cutter, ...cutter } };
}
