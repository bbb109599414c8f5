import { describe, expect, it } from 'vitest';
import { rectangle } from '../../src/geometry/shape.ts';
import { packingTask } from '../../src/packing/bodies.ts';
import { areaBound } from '../../src/packing/bounds/area.ts';
import { dualFeasibleBound } from '../../src/packing/bounds/dual-feasible.ts';
import { cheapestMix, type Demand, type Offer } from '../../src/packing/bounds/stock-mix.ts';
import { jobOf, type PartSketch, type StockSketch } from './jobs.ts';

interface Case {
  readonly name: string;
  readonly stocks: readonly StockSketch[];
  readonly parts: readonly PartSketch[];
  readonly spacing?: number;
  readonly area: number;
  readonly dualFeasible: number;
}

const SQUARE: StockSketch = { length: 100, width: 100 };
const STILL = { turns: [0] };

/** What can be proved, reckoned by hand. */
const CASES: readonly Case[] = [
  {
    name: 'pieces over half a side exclude one another, whatever their area',
    stocks: [SQUARE],
    parts: [{ width: 51, height: 51, count: 5 }],
    area: 2,
    dualFeasible: 5,
  },
  {
    name: 'four quarters of a sheet and a spacing too much',
    stocks: [SQUARE],
    parts: [{ width: 49, height: 49, count: 4 }],
    spacing: 3,
    area: 2,
    dualFeasible: 2,
  },
  {
    name: 'two pieces that clear one another only cornerwise: one sheet may do',
    stocks: [SQUARE],
    parts: [{ width: 46, height: 46, count: 2, ...STILL }],
    spacing: 11,
    area: 1,
    dualFeasible: 1,
  },
  {
    name: 'two pieces that are too near even cornerwise',
    stocks: [SQUARE],
    parts: [{ width: 47, height: 47, count: 2, ...STILL }],
    spacing: 11,
    area: 1,
    dualFeasible: 2,
  },
  {
    name: 'planks that may be turned in a sheet that is not square',
    stocks: [{ length: 100, width: 60 }],
    parts: [{ width: 55, height: 35, count: 3 }],
    area: 1,
    dualFeasible: 2,
  },
  {
    name: 'an area that no piece can use counts for nothing',
    stocks: [
      { ...SQUARE, keepOuts: [{ box: { minX: -9, minY: 0, maxX: 50, maxY: 100 }, why: 'split' }] },
    ],
    parts: [{ width: 50, height: 50, count: 3 }],
    area: 2,
    dualFeasible: 1,
  },
  {
    name: 'a frame that smaller pieces may lie in counts with its wood only, and never as a box',
    stocks: [SQUARE],
    parts: [
      {
        width: 100,
        height: 100,
        count: 2,
        nestInside: true,
        shape: {
          outer: rectangle(0, 0, 100, 100),
          inner: [[...rectangle(10, 10, 80, 80)].reverse()],
        },
      },
      { width: 40, height: 40, count: 4 },
    ],
    area: 2,
    dualFeasible: 1,
  },
  {
    name: 'a piece that fits no stock is in no layout',
    stocks: [SQUARE],
    parts: [{ width: 101, height: 10, ...STILL }],
    area: 0,
    dualFeasible: 0,
  },
];

const BOXES = CASES.filter(({ parts }) => parts.every(({ shape }) => shape === undefined));

describe('bounds', () => {
  it.each(CASES)('$name', ({ stocks, parts, spacing, area, dualFeasible }) => {
    const task = packingTask(jobOf(stocks, parts, spacing), 0);
    expect(areaBound(task)).toBe(area);
    expect(dualFeasibleBound(task)).toBe(dualFeasible);
  });

  it.each(BOXES)('$name: the same ten thousand times as large', ({ stocks, parts, spacing }) => {
    const by = 10_000;
    const task = packingTask(jobOf(stocks, parts, spacing), 0);
    const large = jobOf(
      stocks.map((stock) => ({
        ...stock,
        length: stock.length * by,
        width: stock.width * by,
        keepOuts: (stock.keepOuts ?? []).map(({ box, why }) => ({
          why,
          box: {
            minX: box.minX * by,
            minY: box.minY * by,
            maxX: box.maxX * by,
            maxY: box.maxY * by,
          },
        })),
      })),
      parts.map((part) => ({ ...part, width: part.width * by, height: part.height * by })),
      (spacing ?? 0) * by,
    );
    expect(areaBound(packingTask(large, 0))).toBe(areaBound(task));
    expect(dualFeasibleBound(packingTask(large, 0))).toBeGreaterThanOrEqual(
      dualFeasibleBound(task),
    );
  });
});

const NO_LIMIT = Number.POSITIVE_INFINITY;
const offer = (capacity: number, cost: number, onHand = NO_LIMIT): Offer => ({
  capacity: BigInt(capacity),
  cost,
  onHand,
});
const demand = (amount: number, ...from: boolean[]): Demand => ({ amount: BigInt(amount), from });

const MIXES: readonly {
  readonly name: string;
  readonly offers: readonly Offer[];
  readonly demands: readonly Demand[];
  readonly cost: number;
}[] = [
  { name: 'nothing asked', offers: [offer(10, 3)], demands: [demand(0, true)], cost: 0 },
  { name: 'one over', offers: [offer(10, 3)], demands: [demand(21, true)], cost: 9 },
  {
    name: 'whole sheets, not fractions: 7 and 4 are cheaper than 7 and 7',
    offers: [offer(10, 7), offer(5, 4)],
    demands: [demand(15, true, true)],
    cost: 11,
  },
  {
    name: 'the cheap ones are few',
    offers: [offer(10, 1, 2), offer(10, 5)],
    demands: [demand(40, true, true)],
    cost: 12,
  },
  {
    name: 'some pieces fit the dear stock only',
    offers: [offer(10, 1), offer(10, 5)],
    demands: [demand(30, true, true), demand(11, false, true)],
    cost: 11,
  },
  {
    name: 'what costs nothing first, where it may be taken',
    offers: [offer(10, 3), offer(6, 0, 2), offer(4, 0, 1)],
    demands: [demand(31, true, true, false), demand(24, true, false, true)],
    cost: 6,
  },
  {
    name: 'nothing where what costs nothing is enough',
    offers: [offer(10, 0, 2)],
    demands: [demand(20, true)],
    cost: 0,
  },
  {
    name: 'a hundred that cost nothing, each of another size',
    offers: [offer(100, 1), ...Array.from({ length: 100 }, (_, i) => offer(i + 1, 0, 1))],
    demands: [{ amount: 5251n, from: Array.from({ length: 101 }, () => true) }],
    cost: 3,
  },
  {
    name: 'more than there is: all of it',
    offers: [offer(10, 2, 3)],
    demands: [demand(31, true)],
    cost: 6,
  },
];

describe('cheapestMix', () => {
  it.each(MIXES)('$name', ({ offers, demands, cost }) => {
    expect(cheapestMix(offers, demands)).toBe(cost);
  });
});
