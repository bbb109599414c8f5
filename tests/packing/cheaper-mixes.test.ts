import { describe, expect, it } from 'vitest';
import { packingTask } from '../../src/packing/bodies.ts';
import { mixFinder } from '../../src/packing/cheaper-mixes.ts';
import { jobOf, type StockSketch } from './jobs.ts';

const one = { length: 100, width: 50, priceCents: 30 };
const three = { length: 100, width: 150, priceCents: 100 };

/** For so many strips that each fill the smaller sheet. */
function mixesBelow(stocks: readonly StockSketch[], strips: number, below: number) {
  const job = jobOf(stocks, [{ width: 100, height: 50, count: strips }]);
  return mixFinder(packingTask(job, 0))(below);
}

describe('mixes of packs that cost less', () => {
  it.each([
    {
      // 300 buy two packs, one pack and one large sheet, or two large ones; less than 300 no two packs.
      what: 'with room enough, the roomiest first, and none to which a pack could be added',
      stocks: [{ ...one, pack: 5 }, three],
      strips: 6,
      below: 300,
      mixes: [
        [5, 1],
        [0, 2],
      ],
    },
    {
      what: 'less what area rules out',
      stocks: [{ ...one, pack: 5 }, three],
      strips: 7,
      below: 300,
      mixes: [[5, 1]],
    },
    { what: 'none', stocks: [{ ...one, pack: 5 }, three], strips: 7, below: 250, mixes: [] },
    {
      what: 'as far as the stock on hand goes',
      stocks: [
        { ...one, pack: 5 },
        { ...three, onHand: 1 },
      ],
      strips: 3,
      below: 400,
      mixes: [
        [10, 0],
        [5, 1],
      ],
    },
    {
      what: 'nothing of a size that takes no piece',
      stocks: [
        { ...one, pack: 5 },
        { length: 90, width: 40, priceCents: 5 },
      ],
      strips: 3,
      below: 200,
      mixes: [[5, 0]],
    },
    {
      what: 'all of what costs nothing',
      stocks: [
        { ...one, pack: 2 },
        { ...three, onHand: 2, priceCents: 0 },
      ],
      strips: 7,
      below: 100,
      mixes: [[2, 2]],
    },
  ])('$what', ({ stocks, strips, below, mixes }) => {
    expect(mixesBelow(stocks, strips, below)).toEqual(mixes);
  });

  it('has a dozen at most, and soon, of many sizes', () => {
    const many = Array.from({ length: 12 }, (_, k) => ({
      length: 100 + k,
      width: 150,
      priceCents: 100 + k,
      pack: 1 + (k % 3),
    }));
    const mixes = mixesBelow(many, 400, 15_000);
    expect(mixes.length).toBeLessThanOrEqual(12);
    for (const mix of mixes)
      expect(mix.reduce((sum, count, k) => sum + count * many[k]!.priceCents, 0)).toBeLessThan(
        15_000,
      );
  });
});
