import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rectangle } from '../../src/geometry/shape.ts';
import { airOf, floorFlowM3h, vacuumAt } from '../../src/holding/air.ts';
import { explainPiece } from '../../src/holding/explain.ts';
import { floorPerM } from '../../src/holding/floors.ts';
import { holdSheets } from '../../src/holding/hold.ts';
import { layerResistancePerM, porousFlowM3h } from '../../src/holding/leak.ts';
import { pocketWarnings } from '../../src/holding/pocket-warnings.ts';
import { settingOf, shareUnder } from '../../src/holding/stand.ts';
import type { Holding } from '../../src/model/holding.ts';
import type { RouterJob } from '../../src/model/job.ts';
import type { Layout } from '../../src/model/layout.ts';
import type { Hole, Pocket } from '../../src/model/part.ts';
import { fromMm } from '../../src/model/units.ts';
import { at, layoutOf, partOf, sheetOf } from '../helpers/jobs.ts';
import { frame, rect } from '../helpers/shapes.ts';
import { mirrorScene, turnScene } from '../helpers/symmetry.ts';
import { type Shop, shopJob } from './jobs.ts';

const MDF: Shop = { material: { family: 'mdf', densityKgPerM3: 750 } };

function pocket(x: number, y: number, width: number, height: number, depth: number): Pocket {
  const contour = rectangle(fromMm(x), fromMm(y), fromMm(width), fromMm(height));
  return { contour, depth: fromMm(depth) };
}

interface Recessed {
  readonly pockets?: readonly Pocket[];
  readonly holes?: readonly Hole[];
}

/** One piece of 400 x 300 in MDF of 18 mm. */
function recessed({ pockets = [], holes = [] }: Recessed, shop: Shop = MDF): [RouterJob, Layout[]] {
  const job = shopJob([partOf(rect(400, 300))], shop);
  const parts = job.parts.map((part) => ({ ...part, pockets, holes }));
  return [{ ...job, parts }, [layoutOf([{ stock: 0, placements: [at(0, 600, 400)] }])]];
}

function heldPiece([job, layouts]: [RouterJob, Layout[]]): Holding {
  return holdSheets(job, layouts)[0]!.loose.find(({ kind }) => kind === 'piece')!;
}

describe('the air under a floor', () => {
  it('is that of two layers in series', () => {
    // 0.01 m2 of 3 mm with 5e-14 m2 on 18 mm with 3e-13 m2, both 6e10 1/m: 18026 Pa / (1.813e-5 x 12e10) x 0.01 m2 = 0.2983 m3/h at 20 kPa.
    const [job] = recessed({});
    const [material] = job.materials;
    const floors = [{ areaMm2: 10_000, depthMm: 15 }];
    const air = airOf(
      job.table,
      job.machine.cutter.diameter,
      material!,
      material!.sheets[0]!,
      floors,
    );
    expect(floorFlowM3h(air, 'nominal', 20)).toBeCloseTo(0.2983, 4);
    const whole = airOf(job.table, job.machine.cutter.diameter, material!, material!.sheets[0]!);
    expect(vacuumAt(air, 5000, 'nominal')).toBeLessThanOrEqual(vacuumAt(whole, 5000, 'nominal'));
  });

  it('agrees with the check values for layers in series', () => {
    // A_skin_series_MDF: a layer of 0.5 mm of the same permeability on 18 mm of board lets 0.97297 of the air through.
    const board = layerResistancePerM(18, 3e-13);
    const through = (perM: number): number => porousFlowM3h(1e6, perM, 1, 101_325);
    const left = through(board + floorPerM(board, 18, 17.5)) / through(board);
    expect(left).toBeCloseTo(0.97297, 5);
    // A_interface_fraction at hardly any vacuum: 0.85714 under the whole 18 mm, 1 / 2 under 3 mm of it.
    const [job] = recessed({});
    const [material] = job.materials;
    const { air } = settingOf(job.machine, job.table, material!, material!.sheets[0]!);
    expect(shareUnder(air, 1e-6, 'nominal', 0)).toBeCloseTo(0.85714, 5);
    expect(shareUnder(air, 1e-6, 'nominal', 15)).toBeCloseTo(0.5, 5);
  });

  it('stays out where the faces are sealed', () => {
    const [job] = recessed({}, { material: { ...MDF.material, filmFaced: true } });
    const [material] = job.materials;
    const floors = [{ areaMm2: 100_000, depthMm: 17 }];
    const air = airOf(
      job.table,
      job.machine.cutter.diameter,
      material!,
      material!.sheets[0]!,
      floors,
    );
    expect(floorFlowM3h(air, 'nominal', 20)).toBe(0);
    expect(shareUnder(air, 20, 'nominal', 17)).toBe(1);
  });
});

describe('a piece with pockets', () => {
  it('weighs less by what was taken out, where they overlap once', () => {
    // Nothing of the table works, so that the weight alone holds it: 400 x 300 x 18 mm less 100 x 100 x 12 and 50 x 100 x 6.
    const mm3 = 400 * 300 * 18 - 100 * 100 * 12 - 50 * 100 * 6;
    const table = {
      size: { length: fromMm(2440), width: fromMm(1220) },
      masked: [{ minX: 0, minY: 0, maxX: fromMm(2440), maxY: fromMm(1220) }],
    };
    const pockets = [pocket(50, 50, 100, 100, 6), pocket(100, 50, 100, 100, 12)];
    const held = heldPiece(recessed({ pockets }, { ...MDF, table }));
    expect(held.holdingForceN).toBeCloseTo(mm3 * 1e-9 * 750 * 9.80665, 1);
  });

  it('is held less, the more the thinner their floor, by what its share of the vacuum is', () => {
    const force = (depth: number): number =>
      heldPiece(recessed({ pockets: [pocket(50, 50, 300, 200, depth)] })).holdingForceN;
    const forces = [1, 6, 12, 17].map(force);
    expect(forces).toEqual(forces.toSorted((a, b) => b - a));
    expect(forces[3]!).toBeLessThan(0.85 * forces[0]!);
    const veneer = (depth: number): Holding =>
      heldPiece(recessed({ pockets: [pocket(50, 50, 300, 200, depth)] }, {}));
    expect(veneer(17).holdingForceN).toBeGreaterThan(0.95 * veneer(1).holdingForceN);
  });

  it('counts blind holes likewise, and none that goes through', () => {
    const hole = (depth: number | null): Hole => ({
      x: fromMm(200),
      y: fromMm(150),
      diameter: fromMm(150),
      depth: depth === null ? null : fromMm(depth),
    });
    const [plain, blind] = [[], [hole(16)]].map((holes) => heldPiece(recessed({ holes })));
    expect(blind!.holdingForceN).toBeLessThan(plain!.holdingForceN);
    expect(blind!.pocketing).toBeNull();
    const [job, layouts] = recessed({ holes: [hole(null)] });
    const lines = explainPiece(job, layouts, 0).map(({ quantity }) => quantity);
    expect(lines.filter((text) => /floor|Taken out/.test(text))).toEqual([]);
  });

  it('has them cut before its holes and its cut-outs, also inside another piece', () => {
    const job = shopJob([
      partOf(frame(600, 500, 60), { nestInside: true }),
      partOf(rect(200, 150)),
    ]);
    const parts = job.parts.map((part) => ({
      ...part,
      pockets: [pocket(10, 10, 40, 40, 6), pocket(10, 60, 40, 20, 9)],
      holes: [{ x: fromMm(30), y: fromMm(100), diameter: fromMm(8), depth: null }],
    }));
    const layout = layoutOf([{ stock: 0, placements: [at(0, 100, 100), at(1, 300, 250)] }]);
    const { steps, loose } = holdSheets({ ...job, parts }, [layout])[0]!;
    expect(steps.map((step) => step.kind).filter((kind) => kind !== 'skin')).toEqual([
      ...['pocket', 'pocket', 'hole', 'outline'],
      ...['pocket', 'pocket', 'hole', 'cut-out', 'outline'],
    ]);
    // They free nothing, so they have no number of their own.
    const freed = loose.filter(({ kind }) => kind !== 'sliver').map(({ cutOrder }) => cutOrder);
    expect(Math.max(...freed)).toBe(3);
  });

  it('is part of the sheet when they are cut, which is held against the pass', () => {
    // MDF, h = 0.25 mm: 9 mm deep in two passes of 4.5 mm push by 4.5 x (2 + 20 x 0.25) x sqrt(1 + 0.3^2) = 32.9 N.
    const machine = { passDepth: fromMm(6) };
    const pockets = [pocket(50, 50, 100, 100, 9), pocket(200, 50, 100, 100, 3)];
    const { pocketing } = heldPiece(recessed({ pockets }, { ...MDF, machine }));
    expect(pocketing!.cuttingForceN).toBe(32.9);
    expect(pocketing!.verdict).toBe('stays');
    expect(pocketing!.margin).toBeGreaterThan(100);
  });

  it('is warned of where the sheet is so small that it moves itself', () => {
    const job = shopJob([partOf(rect(120, 100))], { ...MDF, sheet: sheetOf(140, 120) });
    const parts = job.parts.map((part) => ({ ...part, pockets: [pocket(10, 10, 50, 50, 15)] }));
    const layout = layoutOf([{ stock: 0, placements: [at(0, 10, 10)] }]);
    const held = { ...job, parts };
    const holding = holdSheets(held, [layout]);
    expect(holding[0]!.loose.find(({ kind }) => kind === 'piece')!.pocketing!.verdict).toBe(
      'moves',
    );
    expect(pocketWarnings(held, holding).join()).toMatch(/Sheet 1: .* will move \(margin 0\.\d\d/);
  });

  it('is warned of where a pocket is narrower than the cutter, but not where it is as wide', () => {
    const warned = (width: number): boolean => {
      const [job, layouts] = recessed({ pockets: [pocket(50, 50, 200, width, 6)] });
      return pocketWarnings(job, holdSheets(job, layouts)).length > 0;
    };
    expect([6, 6.3, 6.35, 18].map(warned)).toEqual([true, true, false, false]);
  });

  it('is reckoned alike seen from below and turned', () => {
    const depths = fc.record({
      depth: fc.integer({ min: 1, max: 17 }),
      x: fc.integer({ min: 0, max: 90 }),
    });
    fc.assert(
      fc.property(depths, ({ depth, x }) => {
        const [job, [layout]] = recessed({
          pockets: [pocket(x, 0, 120, 80, depth), pocket(100, 40, 200, 18.5, 6)],
        });
        const figures = (scene: { job: RouterJob; layout: Layout }) =>
          holdSheets(scene.job, [scene.layout])[0]!.loose.map(
            ({ holdingForceN, margin, marginLow, vacuumKpa, pocketing }) => [
              holdingForceN,
              margin,
              marginLow,
              vacuumKpa,
              pocketing,
            ],
          );
        const scene = { job, layout: layout! };
        const plain = figures(scene);
        for (const other of [mirrorScene(scene), turnScene(scene)])
          expect(figures(other)).toEqual(plain);
      }),
      { seed: 4, numRuns: 12 },
    );
  });

  it('shows all of it step by step', () => {
    const [job, layouts] = recessed({ pockets: [pocket(50, 50, 100, 100, 15)] });
    const lines = explainPiece(job, layouts, 0);
    const shown = (start: string): string =>
      lines.find(({ quantity }) => quantity.startsWith(start))!.value;
    expect(shown('Taken out by pockets')).toBe('150.0 cm3');
    expect(shown('Resistance of the thinnest floor')).toBe('6.00e10 1/m');
    expect(shown('Share of the vacuum under the floors')).toMatch(/^0\.4\d+ under 10000 mm2$/);
    expect(shown('Air through floors')).toMatch(/m3\/h$/);
    expect(shown('Cutting force of its pockets')).toMatch(/ N$/);
    expect(shown('Margin of the sheet against it')).toMatch(/: stays$/);
  });
});
