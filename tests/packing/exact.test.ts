import { describe, expect, it } from 'vitest';
import type { Layout } from '../../src/model/layout.ts';
import { packingTask } from '../../src/packing/bodies.ts';
import { areaBound } from '../../src/packing/bounds/area.ts';
import { dualFeasibleBound } from '../../src/packing/bounds/dual-feasible.ts';
import { pack } from '../../src/packing/pack.ts';
import { verifyLayout } from '../../src/verify/verify.ts';
import { jobOf, type PartSketch, type StockSketch } from './jobs.ts';
import { faultsOf } from './legal.ts';

/** Small jobs whose answer a person can see; lengths in base units. */
interface Case {
  readonly name: string;
  readonly stocks: readonly StockSketch[];
  readonly parts: readonly PartSketch[];
  readonly spacing?: number;
  readonly status: Layout['status'];
  readonly used: number;
  readonly unplaced?: readonly string[];
}

const STILL = { turns: [0] };
const KEEP_OUT = { box: { minX: 40, minY: 40, maxX: 60, maxY: 60 }, why: 'knot' };

const CASES: readonly Case[] = [
  {
    name: 'nothing to lay',
    stocks: [{ length: 100, width: 100 }],
    parts: [],
    status: 'proved',
    used: 0,
  },
  {
    name: 'one piece as large as the sheet',
    stocks: [{ length: 100, width: 60 }],
    parts: [{ width: 100, height: 60 }],
    status: 'proved',
    used: 1,
  },
  {
    name: 'the same piece turned',
    stocks: [{ length: 100, width: 60 }],
    parts: [{ width: 60, height: 100 }],
    status: 'proved',
    used: 1,
  },
  {
    name: 'two strips with an even spacing, exactly',
    stocks: [{ length: 100, width: 68 }],
    parts: [{ width: 100, height: 30, count: 2 }],
    spacing: 8,
    status: 'proved',
    used: 1,
  },
  {
    name: 'two strips with an odd spacing, exactly',
    stocks: [{ length: 100, width: 67 }],
    parts: [{ width: 100, height: 30, count: 2 }],
    spacing: 7,
    status: 'proved',
    used: 1,
  },
  {
    name: 'one unit too little for two strips',
    stocks: [{ length: 100, width: 66 }],
    parts: [{ width: 100, height: 30, count: 2 }],
    spacing: 7,
    status: 'proved',
    used: 2,
  },
  {
    name: 'a full square of four that must turn',
    stocks: [{ length: 50, width: 50 }],
    parts: [{ width: 30, height: 20, count: 4 }],
    status: 'proved',
    used: 1,
  },
  {
    name: 'the same four, not turned: two and two',
    stocks: [{ length: 50, width: 50 }],
    parts: [{ width: 30, height: 20, count: 4, ...STILL }],
    status: 'proved',
    used: 2,
  },
  {
    name: 'pieces a little over half a side, one a sheet',
    stocks: [{ length: 100, width: 100 }],
    parts: [{ width: 51, height: 51, count: 5 }],
    status: 'proved',
    used: 5,
  },
  {
    name: 'grain along a sheet whose grain runs upwards',
    stocks: [{ length: 100, width: 60, grainAxis: 'y' }],
    parts: [{ width: 60, height: 40, count: 2, grain: 'along' }],
    status: 'proved',
    used: 1,
  },
  {
    name: 'grain that leaves no room',
    stocks: [{ length: 100, width: 60, grainAxis: 'x' }],
    parts: [{ width: 60, height: 100, count: 1, grain: 'along' }],
    status: 'impossible',
    used: 0,
    unplaced: ['no-room'],
  },
  {
    name: 'round a keep-out in the middle',
    stocks: [{ length: 100, width: 100, keepOuts: [KEEP_OUT] }],
    parts: [{ width: 60, height: 40, count: 4 }],
    status: 'proved',
    used: 1,
  },
  {
    name: 'a keep-out that leaves no room',
    stocks: [{ length: 100, width: 100, keepOuts: [KEEP_OUT] }],
    parts: [{ width: 70, height: 70 }],
    status: 'impossible',
    used: 0,
    unplaced: ['no-room'],
  },
  {
    name: 'a keep-out one unit nearer than the spacing',
    stocks: [{ length: 100, width: 100, keepOuts: [KEEP_OUT] }],
    parts: [{ width: 34, height: 100, ...STILL }],
    spacing: 7,
    status: 'impossible',
    used: 0,
    unplaced: ['no-room'],
  },
  {
    name: 'a keep-out just one spacing away',
    stocks: [{ length: 100, width: 100, keepOuts: [KEEP_OUT] }],
    parts: [{ width: 33, height: 100, ...STILL }],
    spacing: 7,
    status: 'proved',
    used: 1,
  },
  {
    name: 'trimmed edges',
    stocks: [{ length: 110, width: 80, trim: { left: 4, right: 6, bottom: 15, top: 5 } }],
    parts: [{ width: 100, height: 60, ...STILL }],
    status: 'proved',
    used: 1,
  },
  {
    name: 'the sheets on hand used up',
    stocks: [{ length: 100, width: 100, onHand: 2 }],
    parts: [{ width: 60, height: 60, count: 3 }],
    status: 'impossible',
    used: 2,
    unplaced: ['no-stock'],
  },
  {
    name: 'one large sheet costs less than three small ones',
    stocks: [
      { length: 100, width: 50, priceCents: 40 },
      { length: 100, width: 150, priceCents: 100 },
    ],
    parts: [{ width: 100, height: 50, count: 3 }],
    status: 'proved',
    used: 100,
  },
  {
    name: 'three small ones cost less than a large one',
    stocks: [
      { length: 100, width: 50, priceCents: 30 },
      { length: 100, width: 150, priceCents: 100 },
    ],
    parts: [{ width: 100, height: 50, count: 3 }],
    status: 'proved',
    used: 90,
  },
  {
    name: 'the one cheap sheet first, then dear ones',
    stocks: [
      { length: 100, width: 50, priceCents: 10, onHand: 1 },
      { length: 100, width: 50, priceCents: 30 },
    ],
    parts: [{ width: 100, height: 50, count: 3 }],
    status: 'proved',
    used: 70,
  },
  {
    name: 'a matched set side by side',
    stocks: [{ length: 100, width: 40 }],
    parts: [{ width: 30, height: 40, count: 3, matched: 'x', ...STILL }],
    spacing: 5,
    status: 'proved',
    used: 1,
  },
  {
    name: 'a matched set that is kept together',
    stocks: [{ length: 60, width: 40 }],
    parts: [{ width: 30, height: 40, count: 3, matched: 'x', ...STILL }],
    status: 'impossible',
    used: 0,
    unplaced: ['no-room', 'no-room', 'no-room'],
  },
];

describe('pack', () => {
  it.each(CASES)('$name', ({ stocks, parts, spacing, status, used, unplaced }) => {
    const job = jobOf(stocks, parts, spacing);
    const layout = packed(job);
    expect(faultsOf(job, layout)).toEqual([]);
    expect(verifyLayout(job, layout).faults).toEqual([]);
    expect(layout.status).toBe(status);
    expect(layout.used).toBe(used);
    expect(layout.unplaced.map(({ why }) => why)).toEqual(unplaced ?? []);
    if (unplaced === undefined) {
      expect(areaBound(packingTask(job, 0))).toBeLessThanOrEqual(used);
      expect(dualFeasibleBound(packingTask(job, 0))).toBeLessThanOrEqual(used);
    }
  });

  it('packs the last sheet to one end, so that what is left is one piece', () => {
    const job = jobOf([{ length: 1000, width: 500 }], [{ width: 240, height: 120, count: 6 }], 10);
    const [sheet] = packed(job).sheets;
    const ends = sheet!.placements.map(({ piece, x, turn }) => {
      const part = job.parts[job.pieces[piece]!.part]!;
      return x + (turn % 180 === 0 ? part.width : turn === 90 ? 0 : part.height);
    });
    // Six pieces of 240 x 120 fill two columns of three, or fewer with turns: more than 40 % of the length is left over.
    expect(Math.max(...ends)).toBeLessThanOrEqual(600);
  });

  it('gives the same layout for the same seed, and a legal one however early it is stopped', () => {
    const parts = [31, 47, 23, 59, 37].map((width, i) => ({ width, height: 20 + 7 * i, count: 9 }));
    const job = jobOf([{ length: 200, width: 150 }], parts, 3);
    expect(packed(job)).toEqual(packed(job));
    for (const asks of [0, 1, 2]) {
      const layout = packed(job, { seed: 5, asks });
      expect(faultsOf(job, layout)).toEqual([]);
    }
  });
});

function packed(job: Parameters<typeof pack>[0], { seed = 1, asks = 20 } = {}): Layout {
  let asked = 0;
  const shouldStop = () => ++asked > asks;
  return pack(job, 0, { effort: 'quick', seed, shouldStop, onProgress: () => {} }).layout;
}
