import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { packingTask } from '../../src/packing/bodies.ts';
import { areaBound } from '../../src/packing/bounds/area.ts';
import { sheetOf } from '../helpers/jobs.ts';
import type { Report, Row } from './benchmark.ts';
import { curvedPieces } from './curved-pieces.ts';
import { kitchenMix } from './kitchen-mix.ts';
import { outlineInstances } from './outline-instances.ts';
import { outlineTables, reached } from './outline-tables.ts';
import { knownTargetOf, parsePublished, publishedDensities, targetOf } from './outline-targets.ts';
import { type OutlineFigures, outlines } from './outlines.ts';

const ROOT = join(import.meta.dirname, '..', '..');
const folder = mkdtempSync(join(tmpdir(), 'holdfast-outlines-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** Two triangles make a rectangle of 40 x 30, and the strip is 30 wide. */
const TRIANGLE = [
  [0, 0],
  [40, 0],
  [0, 30],
];
const ITEM = { quantity: 2, allowedRotationsDegrees: [0, 180], outline: TRIANGLE };
writeFileSync(
  join(folder, 'pair.json'),
  JSON.stringify({ name: 'pair', stripWidth: 30, items: [ITEM] }),
);
writeFileSync(
  join(folder, 'free.json'),
  JSON.stringify({
    name: 'pair_c',
    stripWidth: 30,
    items: [{ ...ITEM, allowedRotationsDegrees: null }],
  }),
);
writeFileSync(
  join(folder, 'known.json'),
  JSON.stringify({
    instances: [{ name: 'K1', binWidth: 40, binHeight: 30, optimumBins: 1, items: [ITEM] }],
  }),
);
writeFileSync(
  join(folder, 'published-densities.csv'),
  'instance,one_best_pct,two_avg_pct_memory,two_best_pct_memory\npair,98,95.5,97\nother,,,\n',
);

describe('the instances of a folder', () => {
  const instances = outlineInstances(folder, ROOT);

  it('are its strips, its jobs without waste, and those made by a rule', () => {
    expect(instances.map(({ name, variants }) => `${name}: ${variants.join()}`)).toEqual([
      'pair_c: given',
      'pair: given',
      'sheets_K1: still,turned',
      'kitchen_strip: given',
      'kitchen_sheets: given',
      ...[20, 50, 100, 200, 500].map((count) => `growth_${count}: given`),
    ]);
  });

  it('are turned as their file says', () => {
    const turnsOf = (name: string, variant: string) =>
      instances.find((one) => one.name === name)?.job(variant).parts[0]?.turns;
    expect(turnsOf('pair', 'given')).toEqual([0, 180]);
    expect(turnsOf('pair_c', 'given')?.length).toBeGreaterThan(4);
    expect(turnsOf('sheets_K1', 'still')).toEqual([0]);
    expect(turnsOf('sheets_K1', 'turned')).toEqual([0, 180]);
  });

  it.each([
    { instance: 'pair', variant: 'given', figures: { density: 100, sheets: 1, optimum: null } },
    { instance: 'sheets_K1', variant: 'turned', figures: { density: null, sheets: 1, optimum: 1 } },
    { instance: 'sheets_K1', variant: 'still', figures: { density: null, sheets: 2, optimum: 1 } },
  ])('are measured: $instance, $variant', async ({ instance, variant, figures }) => {
    const measure = outlines.measure(folder, ROOT);
    const measured = await measure({ instance, variant, seed: 1, effort: '1e6' });
    expect(measured).toMatchObject({ faults: 0, figures });
    // The length of a strip gets all the work of both tracks, though its one sheet is proved at once.
    if (instance === 'pair') expect(measured.figures.work).toBeGreaterThan(1.8e6);
  });
});

describe('the jobs made by a rule', () => {
  it('are a kitchen of 60 rectangles of 48 sizes and 12 curved pieces', () => {
    const job = kitchenMix(sheetOf(2440, 1220));
    const rectangles = job.parts.filter(({ rectangular }) => rectangular);
    expect([rectangles.length, job.pieces.length]).toEqual([60, 72]);
    expect(new Set(rectangles.map(({ width, height }) => `${width} ${height}`)).size).toBe(48);
    expect(areaBound(packingTask(job, 0))).toBe(6);
  });

  it('are curved pieces, where more begin with fewer', () => {
    const shapesOf = (count: number) => curvedPieces(count).parts.map(({ shape }) => shape);
    expect(shapesOf(50).slice(0, 20)).toEqual(shapesOf(20));
    expect(new Set(curvedPieces(50).parts.map(({ rectangular }) => rectangular))).toEqual(
      new Set([false]),
    );
  });
});

describe('what is published and aimed at', () => {
  it('is taken from a list, the highest of each kind, and else from memory', () => {
    expect(
      parsePublished('name,a_avg_pct,b_avg_pct_memory,b_best_pct\nx,80,79,90.5\ny,80,,\nz,,70,71'),
    ).toEqual([
      ['x', { average: 80, best: 90.5, fromMemory: false }],
      ['z', { average: 70, best: 71, fromMemory: true }],
    ]);
    const published = publishedDensities(folder);
    expect(published.get('pair')).toEqual({ average: 95.5, best: 98, fromMemory: true });
    expect(published.get('fu')).toEqual({ average: 90.68, best: 92.41, fromMemory: true });
  });

  it.each([
    { strip: 'fu', work: 1e9, is: 90.5 },
    { strip: 'fu', work: 6e10, is: 92.4 },
    { strip: 'fu', work: 1e8, is: null },
    { strip: 'pair', work: 1e9, is: null },
  ])('for $strip at $work: $is', ({ strip, work, is }) => {
    expect(targetOf(strip, work)).toBe(is);
  });

  it('has shares of the jobs without waste', () => {
    expect(knownTargetOf(6e9)).toEqual({ still: 0.6, turned: 0.4 });
    expect(knownTargetOf(1e7)).toBeNull();
  });

  it.each([
    { mean: 89.09, target: 89.1, is: 'yes' },
    { mean: 89.04, target: 89.1, is: '-0.06' },
    { mean: 85.2, target: 86.5, is: '-1.30' },
    { mean: 90, target: 86.5, is: 'yes' },
  ])('is reached by $mean for $target: $is', ({ mean, target, is }) => {
    expect(reached(mean, target)).toBe(is);
  });
});

describe('the tables', () => {
  const rows = [
    row('fu', 1, { density: 91, published: { average: 90.68, best: 92.41, fromMemory: true } }),
    row('fu', 2, { density: 89.8, published: { average: 90.68, best: 92.41, fromMemory: true } }),
    row('sheets_A', 1, { group: 'known', sheets: 5, optimum: 5 }, 'still'),
    row('sheets_A', 2, { group: 'known', sheets: 6, optimum: 5 }, 'still'),
    row('sheets_A', 1, { group: 'known', sheets: 7, optimum: 5 }, 'turned'),
    row('growth_20', 1, { group: 'growth', pieces: 20, cpuMs: 1000, firstMs: 10 }),
    row('growth_200', 1, { group: 'growth', pieces: 200, cpuMs: 1000, firstMs: 1000 }),
  ];
  const tables = outlineTables(reportOf(rows));

  it('set the seeds beside the target and what is published', () => {
    expect(tables[0]?.rows).toEqual([
      ['fu', '~90.68', '~92.41', '90.5', '90.40', '-0.10', '1.00', '91.00', '89.80'],
    ]);
  });

  it('count the sheets over the fewest, and the shares of the jobs', () => {
    expect(tables[1]?.rows).toEqual([['A', '10', '5', '0 1', '2']]);
    expect(tables[2]?.rows).toEqual([
      ['still', '2', '50.0 %', '50.0 %', '0.0 %', '45.0 %', 'yes', '1.00'],
      ['turned', '1', '0.0 %', '0.0 %', '100.0 %', '25.0 %', '-25.0', '1.00'],
    ]);
  });

  it('tell sheets, speed and growth', () => {
    expect(tables[3]?.rows[0]).toEqual([
      'growth_20',
      ...['20', '1', '7', '6', '6', '25.0 %', '0.01', '1.00', '100.0'],
    ]);
    expect(tables[3]?.notes.join(' ')).toContain('first layout 2.00, all seconds 0.00');
  });

  it('are left out where nothing was run', () => {
    expect(outlineTables(reportOf(rows.slice(0, 1))).length).toBe(1);
    expect(outlineTables(reportOf([]))).toEqual([]);
  });
});

function row(
  instance: string,
  seed: number,
  changes: Partial<OutlineFigures>,
  variant = 'given',
): Row<OutlineFigures> {
  const figures: OutlineFigures = {
    group: 'strip',
    pieces: 10,
    sheets: 7,
    bound: 6,
    areaBound: 6,
    optimum: null,
    density: null,
    lastUse: 0.25,
    published: null,
    firstMs: 10,
    ms: 1000,
    cpuMs: 1000,
    work: 1e8,
    ...changes,
  };
  return {
    instance,
    variant,
    seed,
    effort: '1e9',
    commit: 'abc',
    proved: false,
    faults: 0,
    figures,
  };
}

function reportOf(rows: readonly Row<OutlineFigures>[]): Report<OutlineFigures> {
  const request = {
    benchmark: 'outlines' as const,
    file: null,
    efforts: ['1e9'],
    seeds: [1, 2],
    variants: [],
    only: [],
    every: 1,
    draw: null,
    count: null,
    jobs: 1,
    fresh: false,
  };
  return { request, rows, before: [], drawnFrom: null };
}
