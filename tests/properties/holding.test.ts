import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { airOf, vacuumAt } from '../../src/holding/air.ts';
import { bodyOf } from '../../src/holding/body.ts';
import { holdSheets } from '../../src/holding/hold.ts';
import { loadOf, marginsOf } from '../../src/holding/margins.ts';
import { deepestVacuumKpa } from '../../src/holding/pump.ts';
import { heldRegions } from '../../src/holding/reach.ts';
import { NO_SKIN } from '../../src/holding/skin.ts';
import { reckon, settingOf } from '../../src/holding/stand.ts';
import type { Seal, Table } from '../../src/model/machine.ts';
import { fromMm } from '../../src/model/units.ts';
import { type PartInput, partOf } from '../helpers/jobs.ts';
import { cutOut, disc, frame, lShape, rect } from '../helpers/shapes.ts';
import {
  BLOWER,
  borderedBody,
  DEFAULT_TABLE,
  FULL_DEPTH,
  freeingPass,
  regionOf,
  rows,
  shopJob,
  VANE,
} from '../holding/jobs.ts';

const seals: fc.Arbitrary<Seal | null> = fc.oneof(
  fc.constant(null),
  fc
    .record({
      around: fc.constantFrom('pieces' as const, 'sheet' as const),
      inset: fc.integer({ min: 0, max: 20 }).map(fromMm),
      grooveShare: fc.double({ min: 0, max: 0.5, noNaN: true }),
      leakMm2: fc.integer({ min: 0, max: 300 }),
    })
    .map((gasket) => ({ kind: 'gasket' as const, ...gasket })),
  fc
    .record({
      perPiece: fc.integer({ min: 1, max: 4 }),
      leakMm2: fc.integer({ min: 0, max: 300 }),
    })
    .map((pods) => ({ kind: 'pods' as const, length: fromMm(120), width: fromMm(80), ...pods })),
);

/** Tables of every kind, from a mean one to a good one. */
const tables: fc.Arbitrary<Table> = fc
  .record({
    seal: seals,
    pump: fc.constantFrom({ kind: 'blower', curve: BLOWER }, { kind: 'vane', curve: VANE }),
    pipe: fc.constantFrom(null, {
      kind: 'plain' as const,
      bore: fromMm(50),
      length: fromMm(8000),
      elbows: 4,
    }),
    permeability: fc.double({ min: 4e-14, max: 3e-12, noNaN: true }),
    thickness: fc.integer({ min: 12, max: 25 }),
    altitudeM: fc.integer({ min: 0, max: 2500 }),
    hasSize: fc.boolean(),
  })
  .map(({ permeability, thickness, hasSize, ...table }) => ({
    ...DEFAULT_TABLE,
    ...table,
    size: hasSize ? { length: fromMm(2500), width: fromMm(1250) } : null,
    spoilboard: {
      kind: 'mdf',
      thickness: fromMm(thickness),
      permeabilityM2: { nominal: permeability, low: 2 * permeability },
      alongRatio: 1,
    },
  }));

const sides = fc.integer({ min: 40, max: 420 });
const parts: fc.Arbitrary<PartInput> = fc.oneof(
  fc.tuple(sides, sides).map(([w, h]) => partOf(rect(w, h), { count: 2 })),
  sides.map((d) => partOf(disc(d))),
  fc.tuple(sides, sides).map(([w, h]) => partOf(lShape(w + 60, h + 60, 40))),
  fc.tuple(sides, sides).map(([w, h]) => partOf(frame(w + 100, h + 100, 45))),
  fc
    .tuple(sides, sides)
    .map(([w, h]) => partOf(cutOut(rect(w + 80, h + 80), rect(w / 2, h / 2), 30, 30))),
);

const lists = fc.array(parts, { minLength: 2, maxLength: 8 });

describe('the vacuum on random tables', () => {
  it('falls as kerf opens, and stays within what the pump can do', () => {
    fc.assert(
      fc.property(tables, (table) => {
        const { machine, materials } = shopJob([]);
        const [material] = materials;
        const air = airOf(table, machine.cutter.diameter, material!, material!.sheets[0]!);
        for (const end of ['nominal', 'low'] as const) {
          const vacuums = [0, 1e2, 1e3, 1e4, 1e5, 1e6].map((kerf) => vacuumAt(air, kerf, end));
          expect(vacuums).toEqual(vacuums.toSorted((a, b) => b - a));
          expect(vacuums[0]).toBeLessThanOrEqual(deepestVacuumKpa(air.curve) + 0.005);
          expect(vacuums.at(-1)).toBeGreaterThanOrEqual(0);
        }
        for (const kerf of [1e2, 1e4])
          expect(vacuumAt(air, kerf, 'low')).toBeLessThanOrEqual(vacuumAt(air, kerf, 'nominal'));
      }),
      { seed: 51, numRuns: 150 },
    );
  });
});

describe('the margin of one piece, all else held fixed,', () => {
  it('is never lower for a piece scaled up with its arm', () => {
    const load = loadOf(freeingPass(FULL_DEPTH, shopJob([]).materials[0]!), 1);
    const shapes = fc.oneof(
      fc.tuple(sides, sides).map(
        ([w, h]) =>
          (scale: number) =>
            rect(w * scale, h * scale),
      ),
      sides.map((d) => (scale: number) => disc(d * scale)),
      fc.tuple(sides, sides).map(
        ([w, h]) =>
          (scale: number) =>
            lShape((w + 60) * scale, (h + 60) * scale, 40 * scale),
      ),
    );
    fc.assert(
      fc.property(shapes, fc.double({ min: 1.02, max: 3, noNaN: true }), (shape, scale) => {
        const [small, large] = [1, scale].map((by) => {
          const body = borderedBody(regionOf(shape(by)), 8);
          const grip = { forceN: body.heldAreaMm2 * 0.02 + 1, friction: 0.4, skin: NO_SKIN };
          return marginsOf(body, grip, load);
        });
        for (const kind of ['slide', 'turn', 'tip', 'least'] as const)
          expect(large![kind]).toBeGreaterThanOrEqual(small![kind]);
      }),
      { seed: 52, numRuns: 150 },
    );
  });

  it('is never lower at an earlier place', () => {
    fc.assert(
      fc.property(
        tables,
        parts,
        fc.double({ min: 0, max: 1, noNaN: true }),
        (table, part, share) => {
          const job = shopJob([part]);
          const [material] = job.materials;
          const setting = settingOf(job.machine, table, material!, material!.sheets[0]!);
          const region = regionOf(job.parts[0]!.shape);
          const body = bodyOf(region, heldRegions(setting.air, region, 'piece'));
          const [late, early] = [40_000, 40_000 * share].map((kerf) => reckon(setting, body, kerf));
          for (const end of ['nominal', 'low'] as const)
            expect(early![end].margins.least).toBeGreaterThanOrEqual(late![end].margins.least);
        },
      ),
      { seed: 53, numRuns: 60 },
    );
  });
});

describe('the holding plan of random layouts', () => {
  it('never lets a remedy lower the margin of what it serves, and prices each', () => {
    const seen = new Set<string>();
    fc.assert(
      fc.property(tables, lists, (table, list) => {
        const job = shopJob(list, { table });
        for (const loose of holdSheets(job, [rows(job)]).flatMap((sheet) => sheet.loose)) {
          seen.add(loose.action);
          if (loose.skinFor === 'waste') expect(loose.verdictAfter).toBe('stays');
          else expect(loose.marginAfter).toBeGreaterThanOrEqual(loose.margin);
          const isPaidElsewhere = loose.kind === 'sliver' && loose.action === 'skin';
          const isFree = loose.action === 'none' || loose.action === 'earlier' || isPaidElsewhere;
          expect(loose.remedyS > 0).toBe(!isFree);
        }
      }),
      { seed: 54, numRuns: 40 },
    );
    expect([...seen]).toEqual(expect.arrayContaining(['none', 'skin', 'tabs']));
  });
});
