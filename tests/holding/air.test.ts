import { describe, expect, it } from 'vitest';
import { airOf, openAreaMm2, vacuumAt } from '../../src/holding/air.ts';
import { airPressurePa } from '../../src/holding/atmosphere.ts';
import { borderLossMm } from '../../src/holding/border.ts';
import {
  interfaceShare,
  layerResistancePerM,
  leakWidthMm,
  orificeFlowM3h,
  porousFlowM3h,
} from '../../src/holding/leak.ts';
import { operatingVacuumKpa } from '../../src/holding/operating-point.ts';
import { curveAtPressure, pumpFlowM3h } from '../../src/holding/pump.ts';
import type { Table } from '../../src/model/machine.ts';
import type { Material } from '../../src/model/stock.ts';
import { fromMm } from '../../src/model/units.ts';
import { type SheetInput, sheetOf } from '../helpers/jobs.ts';
import { BLOWER, DEFAULT_TABLE, shopJob, VANE } from './jobs.ts';

const SEA_LEVEL_PA = 101_325;

describe('the pump', () => {
  it('is straight between its points, steady before the first and still beyond the last', () => {
    expect(pumpFlowM3h(BLOWER, 2.5)).toBeCloseTo(475, 9);
    expect(pumpFlowM3h(BLOWER, 26)).toBe(0);
    expect(pumpFlowM3h(BLOWER, 40)).toBe(0);
    expect(pumpFlowM3h([{ flowM3h: 100, vacuumKpa: 10 }], 4)).toBe(100);
  });

  it('reaches less vacuum where the air is thinner', () => {
    const thin = curveAtPressure(BLOWER, 0.8);
    expect(pumpFlowM3h(thin, 16)).toBeCloseTo(pumpFlowM3h(BLOWER, 20), 9);
  });
});

describe('leaks', () => {
  it.each([
    [3.175, 16.81],
    [6, 20.7],
    [6.35, 21.13],
    [9.525, 24.82],
    [12.7, 28.26],
    [18, 33.76],
  ])('a kerf of %d mm over 18 mm leaks like a strip of %d mm', (kerf, width) => {
    expect(leakWidthMm(kerf, 18)).toBeCloseTo(width, 2);
  });

  it('agree with the elliptic integrals taken as sums', () => {
    for (const kerf of [1, 5, 18, 40]) {
      const modulus = Math.tanh((Math.PI * kerf) / (4 * 18));
      const complement = 1 / Math.cosh((Math.PI * kerf) / (4 * 18));
      const width = (2 * 18 * ellipticK(modulus)) / ellipticK(complement);
      expect(leakWidthMm(kerf, 18)).toBeCloseTo(width, 6);
    }
  });

  it('pass over without a step into the wide kerf', () => {
    const board = 3;
    const wide = 20 * board;
    expect(leakWidthMm(wide + 1e-9, board)).toBeCloseTo(leakWidthMm(wide, board), 6);
    expect(leakWidthMm(wide, board)).toBeCloseTo(wide + 2 * borderLossMm(board), 6);
  });

  it('grow with the vacuum, through a slot only until the flow is choked', () => {
    const perM = layerResistancePerM(18, 3e-13);
    for (let v = 1; v < 100; v++)
      expect(porousFlowM3h(1e6, perM, v, SEA_LEVEL_PA)).toBeGreaterThan(
        porousFlowM3h(1e6, perM, v - 1, SEA_LEVEL_PA),
      );
    expect(orificeFlowM3h(100, 40, SEA_LEVEL_PA)).toBeGreaterThan(
      orificeFlowM3h(100, 30, SEA_LEVEL_PA),
    );
    expect(orificeFlowM3h(100, 90, SEA_LEVEL_PA)).toBe(orificeFlowM3h(100, 60, SEA_LEVEL_PA));
  });

  it('leave an airtight piece the whole vacuum', () => {
    expect(interfaceShare(Number.POSITIVE_INFINITY, 6e10)).toBe(1);
    expect(porousFlowM3h(1e6, Number.POSITIVE_INFINITY, 20, SEA_LEVEL_PA)).toBe(0);
  });
});

describe('the operating point', () => {
  it('balances pump and leak, and stays within the pump', () => {
    for (const curve of [BLOWER, VANE]) {
      let before = Number.POSITIVE_INFINITY;
      for (const area of [0, 1e3, 1e5, 1e6, 1e8]) {
        const leak = (v: number): number => porousFlowM3h(area, 6e10, v, SEA_LEVEL_PA);
        const vacuum = operatingVacuumKpa(curve, leak);
        expect(vacuum).toBeGreaterThanOrEqual(0);
        expect(vacuum).toBeLessThanOrEqual(before);
        expect(pumpFlowM3h(curve, vacuum) - leak(vacuum)).toBeCloseTo(0, 6);
        before = vacuum;
      }
    }
  });

  it('is the deepest vacuum where nothing leaks, and none where the leak takes everything', () => {
    expect(operatingVacuumKpa(BLOWER, () => 0)).toBe(26);
    expect(operatingVacuumKpa(BLOWER, () => 1e9)).toBe(0);
    expect(operatingVacuumKpa([], () => 1)).toBe(0);
  });
});

describe('the air under a sheet', () => {
  it('reproduces the worked example of the blower on a table larger than the sheet', () => {
    const size = { length: fromMm(2500), width: fromMm(1250) };
    const air = airFor({ table: { size }, material: { filmFaced: true } });
    expect(air.bareMm2).toBeCloseTo(148_200, 0);
    expect(vacuumAt(air, 0, 'nominal')).toBe(25.53);
    expect(vacuumAt(air, 40_000, 'nominal')).toBe(23.11);
    expect(vacuumAt(air, 40_000, 'low')).toBeLessThan(20.7);
  });

  it('takes a sheet that lies across its table as turned to it', () => {
    const size = { length: fromMm(1250), width: fromMm(2500) };
    expect(airFor({ table: { size } }).bareMm2).toBeCloseTo(148_200, 0);
  });

  it('has no bare table where the file gives no size, or the sheet hangs over', () => {
    expect(airFor({}).bareMm2).toBe(0);
    const size = { length: fromMm(2000), width: fromMm(1000) };
    expect(airFor({ table: { size } }).bareMm2).toBe(0);
  });

  it('finds the table bare where an odd-shaped sheet is missing from its box', () => {
    const corner = [
      [0, 0],
      [2440, 0],
      [2440, 610],
      [0, 1220],
    ] as const;
    const sheet = { ...sheetOf(2440, 1220), boundary: corner };
    const size = { length: fromMm(2500), width: fromMm(1250) };
    const missing = (2440 * 610) / 2;
    expect(airFor({ sheet, table: { size } }).bareMm2).toBeCloseTo(148_200 + missing, 0);
    const { bareMm2, coveredMm2, tableMm2 } = airFor({ sheet });
    expect([bareMm2, coveredMm2]).toEqual([0, tableMm2]);
    expect(coveredMm2).toBeCloseTo(2440 * 1220 - missing, 0);
  });

  it('never counts more open area than there is table', () => {
    const air = airFor({});
    expect(openAreaMm2(air, 1e9)).toBe(air.tableMm2);
  });

  it('leaks through a sheet of bare MDF more than through plywood, and not through a faced one', () => {
    const start = (material: Partial<Material>): number =>
      vacuumAt(airFor({ material }), 0, 'nominal');
    expect(start({ family: 'mdf' })).toBeLessThan(start({ family: 'plywood' }));
    expect(start({ family: 'mdf', filmFaced: true })).toBe(26);
  });

  it('is thinner on a mountain', () => {
    const high = airFor({ table: { altitudeM: 1500 } });
    expect(high.atmospherePa).toBeCloseTo(airPressurePa(1500), 6);
    expect(vacuumAt(high, 20_000, 'nominal')).toBeLessThan(
      0.86 * vacuumAt(airFor({}), 20_000, 'nominal'),
    );
  });
});

function airFor(shop: {
  table?: Partial<Table>;
  material?: Partial<Material>;
  sheet?: SheetInput;
}) {
  const job = shopJob([], { sheet: sheetOf(2440, 1220), ...shop });
  const material = job.materials[0]!;
  const table = { ...DEFAULT_TABLE, ...shop.table };
  return airOf(table, job.machine.cutter.diameter, material, material.sheets[0]!);
}

/** Complete elliptic integral of the first kind by the midpoint rule, which is exact enough for a periodic integrand. */
function ellipticK(modulus: number): number {
  const steps = 20_000;
  let sum = 0;
  for (let i = 0; i < steps; i++) {
    const angle = ((i + 0.5) * Math.PI) / (2 * steps);
    sum += 1 / Math.sqrt(1 - (modulus * Math.sin(angle)) ** 2);
  }
  return (sum * Math.PI) / (2 * steps);
}
