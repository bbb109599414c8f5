import { describe, expect, it } from 'vitest';
import type { Job } from '../../src/model/job.ts';
import { pack } from '../../src/packing/pack.ts';
import { seededRandom } from '../../src/packing/random.ts';
import { readPartsFile } from '../../src/partsfile/read-parts-file.ts';
import { withRack } from '../../src/rack/onto-job.ts';
import { readRack } from '../../src/rack/read-rack.ts';
import { verifyLayout } from '../../src/verify/verify.ts';
import { smallJob } from '../helpers/command.ts';
import { disc } from '../helpers/shapes.ts';
import { jobOf, type PartSketch, QUARTERS, type StockSketch } from '../packing/jobs.ts';
import { smallRack } from './racks.ts';

const SHEET = { length: 100, width: 100 };

describe('the rack as further stock', () => {
  it('matches by the very key of the material and the very thickness, and leaves out what no piece goes on', () => {
    const text =
      smallRack(`  - { id: R3, material: ply, thickness: 17.9, size: 800 x 700, grain: first }
  - { id: R4, material: Ply, thickness: 18, size: 800 x 700, grain: first }
  - { id: R5, material: ply, thickness: 18, size: 800 x 700, grain: first, state: used }
  - { id: R6, material: ply, thickness: 18, size: 59 x 700, grain: first }
  - { id: R7, material: ply, thickness: 18, size: 59 x 39, grain: first }
`);
    const { job } = readPartsFile(smallJob(), () => ({ ok: false, reason: 'missing', detail: '' }));
    const racked = withRack(job!, readRack(text).rack!);
    const [{ sheets }] = racked.job.materials as unknown as [Job['materials'][0]];
    expect(sheets.map(({ index, rack }) => [index, rack])).toEqual([
      [0, null],
      [1, 'R1'],
      [2, 'R2'],
      [3, 'R6'],
    ]);
    const inches = text
      .replace('unit: mm', 'unit: in')
      .replaceAll(/size: \d+ x \d+/g, 'size: 32 x 16');
    const other = withRack(
      job!,
      readRack(inches.replaceAll('thickness: 18', 'thickness: 18mm')).rack!,
    );
    expect(other.job.materials[0]?.sheets[1]?.name).toBe('R1, 812.8 x 406.4');
    expect([racked.offered, racked.passedOver]).toEqual([3, ['R3']]);
  });

  it.each<{
    name: string;
    stocks: readonly StockSketch[];
    parts: readonly PartSketch[];
    used: number;
    taken: readonly string[];
    objective?: 'cost';
  }>([
    {
      name: 'buys nothing where all goes on the rack',
      stocks: [SHEET, offcut('R1', 60, 40), offcut('R2', 50, 50)],
      parts: [
        { width: 60, height: 40 },
        { width: 50, height: 50 },
      ],
      used: 0,
      taken: ['R1', 'R2'],
    },
    {
      name: 'saves a sheet where the rack takes what is too much for one',
      stocks: [SHEET, offcut('R1', 50, 50), offcut('R2', 10, 10)],
      parts: [{ width: 50, height: 50, count: 5 }],
      used: 1,
      taken: ['R1'],
    },
    {
      name: 'takes each offcut once',
      stocks: [SHEET, offcut('R1', 50, 50), offcut('R2', 50, 50)],
      parts: [{ width: 50, height: 50, count: 7 }],
      used: 2,
      taken: ['R1', 'R2'],
    },
    {
      name: 'proves its sheets in spite of offcuts that only look large enough',
      stocks: [SHEET, offcut('R1', 90, 59), offcut('R2', 99, 59)],
      parts: [{ width: 60, height: 60, count: 2 }],
      used: 2,
      taken: [],
    },
    {
      name: 'does not take an offcut whose grain runs across',
      stocks: [
        { ...SHEET, grainAxis: 'x' },
        { ...offcut('R1', 60, 100), grainAxis: 'y' },
      ],
      parts: [{ width: 60, height: 100, count: 2, grain: 'along', turns: QUARTERS }],
      used: 2,
      taken: [],
    },
    {
      name: 'counts sheets where one stock has a price and the rack has none',
      stocks: [{ ...SHEET, priceCents: 900 }, offcut('R1', 50, 50)],
      parts: [{ width: 50, height: 50, count: 5 }],
      used: 1,
      taken: ['R1'],
    },
    {
      name: 'counts money where there is a choice',
      stocks: [
        { ...SHEET, priceCents: 900 },
        { length: 60, width: 60, priceCents: 400 },
        offcut('R1', 50, 50),
      ],
      parts: [{ width: 50, height: 50, count: 2 }],
      used: 400,
      taken: ['R1'],
      objective: 'cost',
    },
    {
      name: 'buys a sheet rather than an offcut that counts more',
      stocks: [
        { ...SHEET, priceCents: 900 },
        { ...offcut('R1', 100, 100), priceCents: 1000 },
      ],
      parts: [{ width: 100, height: 100 }],
      used: 900,
      taken: [],
      objective: 'cost',
    },
    {
      name: 'takes the rack for outlines too',
      stocks: [{ length: 100 * 8000, width: 100 * 8000 }, offcut('R1', 60 * 8000, 60 * 8000)],
      parts: [{ width: 60 * 8000, height: 60 * 8000, shape: disc(60), count: 2 }],
      used: 1,
      taken: ['R1'],
    },
  ])('$name', ({ stocks, parts, used, taken, objective = 'sheets' }) => {
    const job = jobOf(
      stocks,
      parts.map((part) => ({ ...part })),
    );
    const { layout } = pack(job, 0, OPTIONS);
    expect(verifyLayout(job, layout).faults).toEqual([]);
    expect([layout.used, layout.objective, layout.unplaced]).toEqual([used, objective, []]);
    const ids = layout.sheets.flatMap(({ stock }) => job.materials[0]!.sheets[stock]!.rack ?? []);
    expect(ids.sort()).toEqual(taken);
  });

  it('never buys more than without a rack, and its bounds hold', () => {
    const random = seededRandom(3);
    const upTo = (least: number, most: number) => least + Math.floor(random() * (most - least + 1));
    let saved = 0;
    for (let n = 0; n < 4; n++) {
      const parts = Array.from({ length: 8 }, () => ({
        width: upTo(20, 70),
        height: upTo(20, 70),
        turns: QUARTERS,
      }));
      const rack = Array.from({ length: 5 }, (_, i) => offcut(`R${i}`, upTo(30, 90), upTo(30, 60)));
      const without = pack(jobOf([SHEET], parts), 0, OPTIONS).layout;
      const job = jobOf([SHEET, ...rack], parts);
      const { layout } = pack(job, 0, OPTIONS);
      expect(verifyLayout(job, layout).faults).toEqual([]);
      expect(layout.used).toBeLessThanOrEqual(without.used);
      // What lies on the rack would need a sheet each at most, so no bound may come nearer than that.
      expect(layout.bound.atLeast).toBeGreaterThanOrEqual(without.bound.atLeast - rack.length);
      saved += without.used - layout.used;
    }
    expect(saved).toBeGreaterThan(0);
  });
});

const OPTIONS = {
  effort: 'quick',
  seed: 1,
  shouldStop: () => false,
  onProgress: () => undefined,
} as const;

function offcut(rack: string, length: number, width: number): StockSketch {
  return { length, width, rack, onHand: 1, priceCents: 0 };
}
