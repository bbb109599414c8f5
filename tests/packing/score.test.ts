import { describe, expect, it } from 'vitest';
import type { Box } from '../../src/geometry/box.ts';
import type { OffcutRule } from '../../src/model/offcut-rule.ts';
import { packingTask } from '../../src/packing/bodies.ts';
import { leftoverValue } from '../../src/packing/leftover.ts';
import { seededRandom } from '../../src/packing/random.ts';
import { bestKeeper } from '../../src/packing/score.ts';
import type { Candidate, Spot } from '../../src/packing/task.ts';
import { unionArea } from '../../src/packing/union-area.ts';
import { jobOf } from './jobs.ts';

const KNOT = { box: { minX: 70, minY: 0, maxX: 80, maxY: 10 }, why: 'knot' };
const taskOf = (offcuts: OffcutRule) =>
  packingTask(
    {
      ...jobOf(
        [
          { length: 100, width: 50 },
          {
            length: 100,
            width: 50,
            keepOuts: [KNOT],
            trim: { left: 0, right: 10, bottom: 0, top: 0 },
          },
        ],
        [{ width: 30, height: 20, count: 3 }],
        5,
      ),
      offcuts,
    },
    0,
  );
const TASK = taskOf({ short: 0, long: 0, prefer: 'area' });
const at = (body: number, x: number, y: number, orientation = 0): Spot => ({
  body,
  orientation,
  x,
  y,
});

describe('leftoverValue', () => {
  it.each([
    { name: 'an empty sheet', stock: 0, spots: [], area: 100 * 50 },
    { name: 'beside a piece, one spacing away', stock: 0, spots: [at(0, 0, 0)], area: 65 * 50 },
    {
      name: 'above a row',
      stock: 0,
      spots: [at(0, 0, 0), at(1, 35, 0), at(2, 70, 0)],
      area: 100 * 25,
    },
    { name: 'beside a turned piece', stock: 0, spots: [at(0, 0, 0, 1)], area: 75 * 50 },
    {
      name: 'inside the trim, above a piece and clear of a keep-out',
      stock: 1,
      spots: [at(0, 0, 0)],
      area: 90 * 25,
    },
  ])('$name', ({ stock, spots, area }) => {
    expect(leftoverValue(TASK, { stock, spots })).toBe(area);
  });
});

describe('the rule of the file', () => {
  // Above the piece 100 x 25 is left, beside it 65 x 50.
  const spots = [at(0, 0, 0)];
  it.each([
    { name: 'area', rule: { short: 20, long: 30, prefer: 'area' }, worth: 65 * 50 },
    { name: 'strips', rule: { short: 20, long: 30, prefer: 'strips' }, worth: 2 * 65 * 50 },
    {
      name: 'strips long enough',
      rule: { short: 20, long: 70, prefer: 'strips' },
      worth: 2 * 2500,
    },
    { name: 'what is long enough', rule: { short: 20, long: 70, prefer: 'area' }, worth: 2500 },
    {
      name: 'nothing large enough',
      rule: { short: 60, long: 60, prefer: 'strips' },
      worth: (65 * 50) / 2 ** 20,
    },
  ] as const)('$name', ({ rule, worth }) => {
    expect(leftoverValue(taskOf(rule), { stock: 0, spots })).toBe(worth);
  });

  it('wants a rectangle in a corner less than a strip of more than half of its area', () => {
    // Two pieces leave 65 x 50 beside neither: 30 x 50 on the right, 65 x 25 in the corner.
    const corner = [at(0, 0, 0), at(1, 35, 0), at(2, 0, 25)];
    const worths = (['area', 'strips'] as const).map((prefer) =>
      leftoverValue(taskOf({ short: 0, long: 0, prefer }), { stock: 0, spots: corner }),
    );
    expect(worths).toEqual([65 * 25, 2 * 30 * 50]);
  });
});

describe('bestKeeper', () => {
  const one = (...spots: Spot[]): Candidate => ({ sheets: [{ stock: 0, spots }], unplaced: [] });
  const two: Candidate = {
    sheets: [
      { stock: 0, spots: [at(0, 0, 0)] },
      { stock: 0, spots: [at(1, 0, 0), at(2, 35, 0)] },
    ],
    unplaced: [],
  };
  const loose = one(at(0, 0, 0), at(1, 35, 0), at(2, 60, 30));
  const tight = one(at(0, 0, 0), at(1, 35, 0), at(2, 70, 0));
  const partial: Candidate = { sheets: [{ stock: 0, spots: [at(0, 0, 0)] }], unplaced: [1, 2] };

  it('wants all placed, then few sheets, then one large leftover, and keeps the first of equals', () => {
    const keeper = bestKeeper(TASK);
    const better = [partial, two, loose, tight, tight, loose, two, partial].map(keeper.offer);
    expect(better).toEqual([true, true, true, true, false, false, false, false]);
    expect(keeper.best()).toBe(tight);
  });

  it('counts pieces left out, not bodies', () => {
    const sketches = [
      { width: 10, height: 10, count: 3, matched: 'x' as const },
      { width: 30, height: 20, count: 2 },
    ];
    const keeper = bestKeeper(packingTask(jobOf([{ length: 100, width: 50 }], sketches), 0));
    const without = (...unplaced: number[]) => ({ sheets: one().sheets, unplaced });
    expect([without(1, 2), without(0), without(1)].map(keeper.offer)).toEqual([true, false, true]);
  });

  it('wants one sheet rather than two of half the price', () => {
    const stocks = [
      { length: 100, width: 50, priceCents: 2000 },
      { length: 50, width: 50, priceCents: 1000 },
    ];
    const keeper = bestKeeper(packingTask(jobOf(stocks, [{ width: 40, height: 40, count: 2 }]), 0));
    const halves = [at(0, 0, 0), at(1, 0, 0)].map((spot) => ({ stock: 1, spots: [spot] }));
    const offers = [{ sheets: halves, unplaced: [] }, one(at(0, 0, 0), at(1, 40, 0))];
    expect(offers.map(keeper.offer)).toEqual([true, true]);
  });

  it('has nothing placed at first', () => {
    expect(bestKeeper(TASK).best()).toEqual({ sheets: [], unplaced: [0, 1, 2] });
  });
});

describe('unionArea', () => {
  it.each([1, 2, 3, 4, 5])('counts every covered cell once (%i)', (seed) => {
    const random = seededRandom(seed);
    const side = () => Math.floor(12 * random());
    const boxes = Array.from({ length: 6 }, (): Box => {
      const [minX, minY] = [side(), side()];
      return { minX, minY, maxX: minX + side(), maxY: minY + side() };
    });
    const cells = new Set<string>();
    for (const { minX, minY, maxX, maxY } of boxes)
      for (let x = minX; x < maxX; x++) for (let y = minY; y < maxY; y++) cells.add(`${x},${y}`);
    expect(unionArea(boxes)).toBe(cells.size);
  });
});
