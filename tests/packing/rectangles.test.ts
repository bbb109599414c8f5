import { describe, expect, it } from 'vitest';
import type { Job } from '../../src/model/job.ts';
import type { Layout } from '../../src/model/layout.ts';
import { fromMm } from '../../src/model/units.ts';
import { packingTask } from '../../src/packing/bodies.ts';
import { areaBound } from '../../src/packing/bounds/area.ts';
import { dualFeasibleBound } from '../../src/packing/bounds/dual-feasible.ts';
import { pack } from '../../src/packing/pack.ts';
import { type Random, seededRandom } from '../../src/packing/random.ts';
import type { Progress } from '../../src/packing/task.ts';
import { verifyLayout } from '../../src/verify/verify.ts';
import { cabinetPieces } from './cabinet-pieces.ts';
import { classInstance } from './class-instances.ts';
import { jobOf, type PartSketch, QUARTERS, type StockSketch } from './jobs.ts';
import { faultsOf } from './legal.ts';

const SEEDS = Array.from({ length: 60 }, (_, k) => k + 1);

describe('random jobs of rectangles', () => {
  it.each(SEEDS)('are laid out legally and within the bounds (%i)', (seed) => {
    const job = randomJob(seededRandom(seed));
    const { layout } = packed(job, { asks: 3 });
    expect(faultsOf(job, layout)).toEqual([]);
    expect(verifyLayout(job, layout).faults).toEqual([]);
    const bounds = [areaBound, dualFeasibleBound].map((bound) => bound(packingTask(job, 0)));
    expect(layout.bound.atLeast).toBe(Math.max(...bounds));
    if (layout.unplaced.length === 0) {
      expect(layout.used).toBeGreaterThanOrEqual(layout.bound.atLeast);
      expect(layout.status).toBe(layout.used === layout.bound.atLeast ? 'proved' : 'limit');
    } else expect(layout.status).toBe('impossible');
  });
});

describe('a keep-out from edge to edge, which leaves one free rectangle', () => {
  it.each([
    { minX: 0, minY: 0, maxX: 200, maxY: 1000, sheets: 3 },
    { minX: 300, minY: 0, maxX: 1000, maxY: 1000, sheets: 7 },
    { minX: 0, minY: 700, maxX: 1000, maxY: 1000, sheets: 4 },
  ])('from $minX, $minY to $maxX, $maxY: $sheets sheets', ({ sheets, ...box }) => {
    const stock = { length: 1000, width: 1000, keepOuts: [{ box, why: 'clamp' }] };
    const job = jobOf([stock], [{ width: 250, height: 250, count: 20 }], 10);
    const { layout } = packed(job, { asks: 3 });
    expect(faultsOf(job, layout)).toEqual([]);
    expect(layout.used).toBe(sheets);
  });
});

describe('how many pieces there may be', () => {
  const SHEET: StockSketch = { length: fromMm(2440), width: fromMm(1220) };

  it.each([0, 1, 2000])('lays out %i cabinet pieces even when it is stopped at once', (count) => {
    const sketches = cabinetPieces(count, 3).map(({ width, height }) => ({
      width: fromMm(width),
      height: fromMm(height),
    }));
    const job = jobOf([SHEET], sketches, fromMm(6));
    const { layout, stopped } = packed(job, { asks: 0 });
    expect(faultsOf(job, layout)).toEqual([]);
    expect(layout.unplaced).toEqual([]);
    // The first layout is already a fair one.
    expect(layout.used).toBeLessThanOrEqual(Math.ceil(1.2 * layout.bound.atLeast));
    // Where there is little to do, nobody is asked.
    expect(stopped).toBe(count === 2000);
  });

  it('says where the search stands, and never that it went back', () => {
    const job = jobOf(
      [SHEET],
      cabinetPieces(60, 3).map(({ width, height }) => ({
        width: fromMm(width),
        height: fromMm(height),
      })),
    );
    const { layout, progress } = packed(job, { asks: 30 });
    const used = progress.map((step) => step.used ?? Number.POSITIVE_INFINITY);
    const workLeft = progress.map((step) => step.workLeft);
    expect(used).toEqual(used.toSorted((a, b) => b - a));
    expect(workLeft).toEqual(workLeft.toSorted((a, b) => b - a));
    expect(used.at(-1)).toBe(layout.used);
    for (const share of workLeft) expect(share >= 0 && share <= 1).toBe(true);
  });
});

/** What proves a layout, and what is said where nothing does. */
const PROOFS: readonly {
  readonly name: string;
  readonly sheet: StockSketch;
  readonly parts: readonly PartSketch[];
  readonly bound: Layout['bound'];
  readonly status: Layout['status'];
}[] = [
  {
    name: 'a full sheet, by area',
    sheet: { length: 100, width: 100 },
    parts: [{ width: 50, height: 50, count: 5 }],
    bound: { atLeast: 2, provedBy: 'area' },
    status: 'proved',
  },
  {
    name: 'more than half a side, by dual feasible functions',
    sheet: { length: 100, width: 100 },
    parts: [{ width: 51, height: 51, count: 3 }],
    bound: { atLeast: 3, provedBy: 'dual feasible functions' },
    status: 'proved',
  },
  {
    name: 'a published instance (class 1, 20 pieces, the third) of which nobody has found less than the 9 sheets: not proved',
    sheet: { length: 10, width: 10 },
    parts: classInstance(1, 20, 3).pieces.map((piece) => ({ ...piece, turns: [0] })),
    bound: { atLeast: 8, provedBy: 'dual feasible functions' },
    status: 'limit',
  },
];

describe('proof', () => {
  it.each(PROOFS)('$name', ({ sheet, parts, bound, status }) => {
    const { layout } = packed(jobOf([sheet], parts), { asks: 5 });
    expect(layout.bound).toEqual(bound);
    expect(layout.status).toBe(status);
  });
});

function randomJob(random: Random): Job {
  const length = between(random, 150, 300);
  const stocks = [randomStock(random, length), randomStock(random, length)];
  const parts = Array.from({ length: between(random, 1, 8) }, (): PartSketch => {
    const matched = random() < 0.15;
    return {
      width: between(random, 5, length / 2),
      height: between(random, 5, 80),
      count: matched ? 2 : between(random, 1, 6),
      grain: oneOf(random, ['along', 'across', 'any', 'any'] as const),
      turns: oneOf(random, [[0], [0, 180], [0, 90], QUARTERS]),
      ...(matched ? { matched: oneOf(random, ['x', 'y'] as const) } : {}),
    };
  });
  return jobOf(random() < 0.5 ? stocks : stocks.slice(1), parts, oneOf(random, [0, 3, 4, 7]));
}

function randomStock(random: Random, length: number): StockSketch {
  const [x, y] = [between(random, 0, length - 20), between(random, 0, 80)];
  const keepOut = { box: { minX: x, minY: y, maxX: x + 20, maxY: y + 15 }, why: 'knot' };
  const trim = between(random, 0, 5);
  return {
    length,
    width: between(random, 100, 200),
    grainAxis: oneOf(random, ['x', 'y', null]),
    keepOuts: random() < 0.4 ? [keepOut] : [],
    trim: { left: trim, right: 0, bottom: 2 * trim, top: 1 },
    priceCents: between(random, 50, 90),
    onHand: random() < 0.3 ? between(random, 1, 3) : null,
  };
}

function between(random: Random, least: number, most: number): number {
  return least + Math.floor(random() * (Math.floor(most) - least + 1));
}

function oneOf<T>(random: Random, values: readonly T[]): T {
  return values[Math.floor(random() * values.length)] as T;
}

/** Stopped when it asks once more than `asks` times, so that the same job gives the same layout. */
function packed(job: Job, { asks }: { readonly asks: number }) {
  let asked = 0;
  const progress: Progress[] = [];
  const packing = pack(job, 0, {
    effort: 'quick',
    seed: 1,
    shouldStop: () => ++asked > asks,
    onProgress: (step) => progress.push(step),
  });
  return { ...packing, progress };
}
