import { describe, expect, it } from 'vitest';
import { attainableSums } from '../../src/packing/attainable-sums.ts';

describe('the least sum of costs from a number on', () => {
  it.each([
    { costs: [500], from: 501, sum: 1000 },
    { costs: [500], from: 500, sum: 500 },
    { costs: [500], from: 0, sum: 0 },
    // 3a + 5b is every number but 1, 2, 4 and 7.
    { costs: [300, 500], from: 601, sum: 800 },
    { costs: [300, 500], from: 801, sum: 900 },
    { costs: [300, 500, 0], from: 301, sum: 500 },
    { costs: [0], from: 7, sum: 0 },
    { costs: [], from: 7, sum: 0 },
    // Beyond what is looked up the number itself, in what divides all costs.
    { costs: [200, 300], from: 300_000_001, sum: 300_000_100 },
  ])('$costs from $from', ({ costs, from, sum }) => {
    expect(attainableSums(costs)(from)).toBe(sum);
  });
});
