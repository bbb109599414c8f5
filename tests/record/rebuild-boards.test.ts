import { describe, expect, it } from 'vitest';
import { planRecord } from '../../src/index.ts';
import { readPartsFile } from '../../src/partsfile/read-parts-file.ts';
import { planJob } from '../../src/plan.ts';
import { readRecord } from '../../src/record/read-record.ts';
import { rebuild } from '../../src/record/rebuild.ts';

/** Two kinds of boards of one length and without names, of which a plan takes the second only. */
const file = (first: string, second: string) => `unit: mm
materials:
  ash: { family: hardwood, thickness: 40, boards: [{ length: 2400, ${first} }, { length: 2400, ${second} }] }
parts: [{ name: Rail, material: ash, length: 2300, count: 2 }]
`;

describe('boards of one name are known in a record', () => {
  it.each([
    ['price: 20', 'price: 14'],
    ['price: 20, defects: [{ at: 1000, length: 60 }]', 'price: 20'],
    ['price: 20, trim: 80', 'price: 20, trim: 10'],
    ['price: 20, on-hand: 0', 'price: 20'],
  ])('%s or %s', async (first, second) => {
    const { job } = readPartsFile(file(first, second), () => ({
      ok: false,
      reason: 'missing',
      detail: '',
    }));
    const { plan } = await planJob(
      job!,
      { effort: 'quick', seed: 1, seconds: null },
      { pack: null, stopCause: () => null, onProgress: () => {} },
    );
    expect(plan!.layouts[0]!.boards.map(({ stock }) => stock)).toEqual([1, 1]);
    const record = readRecord(planRecord(plan!, '0'.repeat(64))).plan!;
    const { layouts, faults } = rebuild(job!, record);
    expect(faults).toEqual([]);
    expect(layouts[0]!.layout.boards).toEqual(plan!.layouts[0]!.boards);
  });
});
