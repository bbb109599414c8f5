import { describe, expect, it } from 'vitest';
import { packSurplus } from '../../src/costing/packs.ts';
import type { Layout } from '../../src/model/layout.ts';
import { jobOf, type StockSketch } from '../packing/jobs.ts';

const SIZE = { length: 100, width: 50 };

/** What is bought and not cut where so many sheets of each stock are taken. */
function surplusOf(stocks: readonly Partial<StockSketch>[], taken: readonly number[]) {
  const job = jobOf(
    stocks.map((stock) => ({ ...SIZE, ...stock })),
    [],
  );
  const sheets = taken.flatMap((count, stock) => Array.from({ length: count }, () => ({ stock })));
  return packSurplus(job, [{ material: 0, sheets } as unknown as Layout]);
}

describe('sheets sold in packs', () => {
  it.each([
    { what: 'singly', stocks: [{ priceCents: 900 }], taken: [7], spare: [] },
    { what: 'none taken', stocks: [{ pack: 5, priceCents: 900 }], taken: [0], spare: [] },
    { what: 'packs come out even', stocks: [{ pack: 5, priceCents: 900 }], taken: [10], spare: [] },
    {
      what: 'one over a pack',
      stocks: [{ pack: 5, priceCents: 900 }],
      taken: [6],
      spare: [{ stock: 0, count: 4, priceCents: 3600 }],
    },
    {
      what: 'without a price',
      stocks: [{ pack: 3 }],
      taken: [1],
      spare: [{ stock: 0, count: 2, priceCents: null }],
    },
    { what: 'on hand', stocks: [{ pack: 5, priceCents: 900, onHand: 7 }], taken: [6], spare: [] },
    {
      what: 'two sizes',
      stocks: [
        { pack: 2, priceCents: 900 },
        { pack: 4, priceCents: 500 },
      ],
      taken: [3, 2],
      spare: [
        { stock: 0, count: 1, priceCents: 900 },
        { stock: 1, count: 2, priceCents: 1000 },
      ],
    },
  ])('$what', ({ stocks, taken, spare }) => {
    expect(surplusOf(stocks, taken)).toEqual(spare.map((each) => ({ material: 0, ...each })));
  });
});
