import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { shareOut } from '../../src/costing/shares.ts';

describe('shareOut', () => {
  it.each<readonly [string, number, readonly number[], readonly number[]]>([
    ['gives what is left to the largest remainder', 10, [5, 3, 1], [6, 3, 1]],
    ['lets the earlier one win where remainders are equal', 100, [1, 1, 1], [34, 33, 33]],
    ['gives two that are left to the two that lost most', 11, [3, 3, 5, 5], [2, 2, 4, 3]],
    ['gives nothing to no weight', 7, [0, 2, 0], [0, 7, 0]],
    ['shares alike without weights', 5, [0, 0], [3, 2]],
    ['shares nothing', 0, [1, 2], [0, 0]],
    ['shares nothing among nobody', 0, [], []],
    // 9e15 times 9e15 is far beyond exact doubles.
    ['loses nothing of large numbers', 9e15, [9e15, 3, 9e15], [45e14 - 1, 2, 45e14 - 1]],
  ])('%s', (_, amount, weights, shares) => {
    expect(shareOut(amount, weights)).toEqual(shares);
  });

  it('shares out the seats of the book as it does', () => {
    // Balinski & Young 1982, "Fair Representation", the example of 26 seats for five states by largest remainders; from memory, reproduced by hand.
    expect(shareOut(26, [9061, 7179, 5259, 3319, 1182])).toEqual([9, 7, 5, 4, 1]);
  });

  it('adds up, and is never a whole unit away from the exact share', () => {
    const amounts = fc.nat(10_000_000);
    const weights = fc.array(fc.nat(1_000_000), { minLength: 1, maxLength: 30 });
    const holds = fc.property(amounts, weights, (amount, given) => {
      const shares = shareOut(amount, given);
      expect(shares.reduce((sum, share) => sum + share, 0)).toBe(amount);
      const whole = given.reduce((sum, weight) => sum + weight, 0);
      if (whole === 0) return;
      shares.forEach((share, i) => {
        expect(Number.isInteger(share) && share >= 0).toBe(true);
        expect(Math.abs(share - (amount * given[i]!) / whole)).toBeLessThan(1);
      });
    });
    fc.assert(holds, { seed: 7, numRuns: 300 });
  });
});
