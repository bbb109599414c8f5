import { describe, expect, it } from 'vitest';
import { cutWarnings } from '../../src/holding/cut-warnings.ts';
import { holdSheets, weakMaterials } from '../../src/holding/hold.ts';
import type { FileUnit } from '../../src/model/job.ts';
import type { Layout } from '../../src/model/layout.ts';
import { fromMm, UNITS_PER_INCH } from '../../src/model/units.ts';
import { at, layoutOf, partOf } from '../helpers/jobs.ts';
import { rect } from '../helpers/shapes.ts';
import { routerJobOf } from '../partsfile/reading.ts';
import { type Shop, shopJob } from './jobs.ts';

const SIX_MM_PASSES = { passDepth: fromMm(6) };

/** The usual feed of 1/4 inch in plywood is 0.006 to 0.009 inch a tooth at one diameter deep. */
const cases: readonly (readonly [string, Shop, FileUnit, readonly string[]])[] = [
  ['usual', { machine: { ...SIX_MM_PASSES, feedMmPerMin: 7200 } }, 'mm', []],
  [
    'at the end of the range, as printed',
    { machine: { ...SIX_MM_PASSES, feedMmPerMin: 5400 } },
    'mm',
    [],
  ],
  [
    'a hair slower',
    { machine: { ...SIX_MM_PASSES, feedMmPerMin: 5200 } },
    'mm',
    [
      'Plywood: 0.14 mm a tooth is under the usual 0.15 to 0.23 mm for this cutter and depth (common practice): it rubs and heats; feed faster or turn the spindle slower.',
    ],
  ],
  [
    'fast, and deep',
    { machine: { feedMmPerMin: 9000 } },
    'mm',
    [
      'Plywood: 0.25 mm a tooth is over the usual 0.08 to 0.12 mm for this cutter and depth (common practice): it tears edges and may break the cutter; feed slower or turn the spindle faster.',
    ],
  ],
  [
    'slow, in inches',
    { machine: { ...SIX_MM_PASSES, feedMmPerMin: 3600 } },
    'in',
    [
      'Plywood: 0.004 in a tooth is under the usual 0.006 to 0.009 in for this cutter and depth (common practice): it rubs and heats; feed faster or turn the spindle slower.',
    ],
  ],
  [
    'a cutter that the chart does not know',
    { machine: SIX_MM_PASSES, cutter: { diameter: fromMm(20) } },
    'mm',
    [],
  ],
  [
    'a compression cutter whose tip is as long as a pass',
    {
      machine: { ...SIX_MM_PASSES, feedMmPerMin: 7200 },
      cutter: { spiral: 'compression', helixDeg: 30, upcutLength: fromMm(6) },
    },
    'mm',
    [
      'Plywood: the up-cut tip of 6 mm takes the whole pass of 6 mm, so this compression cutter only lifts; cut deeper or take a shorter tip.',
    ],
  ],
  [
    'the same in inches',
    {
      machine: { passDepth: UNITS_PER_INCH / 4, feedMmPerMin: 7200 },
      cutter: { spiral: 'compression', helixDeg: 30, upcutLength: (UNITS_PER_INCH * 5) / 16 },
      material: { thickness: (UNITS_PER_INCH * 3) / 4 },
    },
    'in',
    [
      'Plywood: the up-cut tip of 5/16 in takes the whole pass of 1/4 in, so this compression cutter only lifts; cut deeper or take a shorter tip.',
    ],
  ],
  [
    'a compression cutter in deeper passes',
    {
      machine: { passDepth: fromMm(9), feedMmPerMin: 7200 },
      cutter: { spiral: 'compression', helixDeg: 30, upcutLength: fromMm(6) },
    },
    'mm',
    [],
  ],
];

describe('what is said of the cutter', () => {
  it.each(cases)('%s', (_, shop, unit, sentences) => {
    const material = { name: 'Plywood', ...shop.material };
    const job = { ...shopJob([partOf(rect(300, 200))], { ...shop, material }), unit };
    expect(cutWarnings(job)).toEqual(sentences);
  });

  it('warns that a thicker chip pushes harder where pieces do not stay', () => {
    const machine = { ...SIX_MM_PASSES, feedMmPerMin: 5200 };
    const job = shopJob([partOf(rect(300, 200)), partOf(rect(30, 30))], { machine });
    const whole = [layoutOf([{ stock: 0, placements: [at(0, 100, 100)] }])];
    const small = [layoutOf([{ stock: 0, placements: [at(1, 100, 100)] }])];
    const saidOf = (layouts: readonly Layout[]): string =>
      cutWarnings(job, [0], weakMaterials(layouts, holdSheets(job, layouts))).join();
    expect(saidOf(small)).toContain('slower, but both push harder, and some pieces do not stay');
    expect(saidOf(whole)).toMatch(/turn the spindle slower\.$/);
  });

  const file = (machine: string) => `unit: mm
${machine}
materials:
  ply: { name: Birch, thickness: 18, family: plywood, sheets: [{ size: 1200 x 800, price: 1 }] }
  poplar: { name: Poplar, thickness: 18, family: plywood, sheets: [{ size: 1200 x 800, price: 1 }] }
  mdf: { name: MDF, thickness: 18, family: mdf, sheets: [{ size: 1200 x 800, price: 1 }] }
parts:
  - { name: A, material: ply, size: 300 x 200, grain: any }
  - { name: B, material: poplar, size: 300 x 200, grain: any }`;
  const given = [
    ['cutter', '{ diameter: 6.35, flutes: 2, spiral: straight, worn: no }'],
    ['speed', '18000 rpm'],
    ['feed', '9000'],
    ['pass-depth', '18'],
    ['spacing', '8'],
  ] as const;
  const machineOf = (keys: readonly (readonly [string, string])[]) =>
    `machine: { ${keys.map(([key, value]) => `${key}: ${value}`).join(', ')} }`;

  it('is said once of all materials that have it, and not of one without pieces', () => {
    const sentences = cutWarnings(routerJobOf(file(machineOf(given))));
    expect(sentences.map((text) => text.split(':')[0])).toEqual(['Birch, Poplar']);
  });

  it.each(['cutter', 'speed', 'feed', 'pass-depth'])(
    'is not said of a chip that the tool assumed, without %s',
    (left) => {
      const machine = machineOf(given.filter(([key]) => key !== left));
      expect(cutWarnings(routerJobOf(file(machine)))).toEqual([]);
    },
  );

  it('nor without the flutes', () => {
    const machine = machineOf(given).replace('flutes: 2, ', '');
    expect(cutWarnings(routerJobOf(file(machine)))).toEqual([]);
  });
});
