import { describe, expect, it } from 'vitest';
import { planRecord } from '../../src/index.ts';
import { planJob } from '../../src/plan.ts';
import { readRecord } from '../../src/record/read-record.ts';
import { rebuild } from '../../src/record/rebuild.ts';
import { jobOf } from '../partsfile/reading.ts';

/** Two kinds of sheets of one size and without names, of which a plan takes the second only. */
const file = (first: string, second: string) => `unit: mm
materials:
  ply: { family: plywood, thickness: 18, sheets: [{ size: 1000 x 500, ${first} }, { size: 1000 x 500, ${second} }] }
parts: [{ name: Top, material: ply, size: 960 x 460, count: 2 }]
`;

describe('sheets of one name are known in a record', () => {
  it.each([
    ['price: 20', 'price: 14'],
    ['price: 20, trim: 30', 'price: 20, trim: 10'],
    ['price: 20, keep-out: [{ at: [400, 200], size: 50 x 50 }]', 'price: 20'],
    ['price: 20, on-hand: 0', 'price: 20'],
  ])('%s or %s', async (first, second) => {
    const job = jobOf(file(first, second));
    const { plan } = await planJob(
      job,
      { effort: 'quick', seed: 1, seconds: null },
      { pack: null, stopCause: () => null, onProgress: () => {} },
    );
    expect(plan!.layouts[0]!.sheets.map(({ stock }) => stock)).toEqual([1, 1]);
    const record = readRecord(planRecord(plan!, '0'.repeat(64))).plan!;
    const { layouts, faults } = rebuild(job, record);
    expect(faults).toEqual([]);
    expect(layouts[0]!.layout.sheets).toEqual(plan!.layouts[0]!.sheets);
  });
});
