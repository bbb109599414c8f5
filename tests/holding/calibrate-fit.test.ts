import { describe, expect, it } from 'vitest';
import { fitLeastSquares, sumOfSquares } from '../../src/holding/calibrate-fit.ts';

const FREE = { start: 0.5, min: -100, max: 100 };
const READINGS = [1, 3, 5, 8];

/** Off a straight line, at 0, 1, 2, 3. */
const offLine = ([a, b]: readonly number[]) => READINGS.map((y, x) => a! + b! * x - y);

describe('a fit by least squares', () => {
  it('of a straight line is that of the normal equations', () => {
    const { values, residuals, spreads } = fitLeastSquares([FREE, FREE], offLine);
    // n = 4, sum x = 6, sum x2 = 14, so the determinant is 20; sum y = 17, sum xy = 37.
    expect(values[0]).toBeCloseTo((14 * 17 - 6 * 37) / 20, 6);
    expect(values[1]).toBeCloseTo((4 * 37 - 6 * 17) / 20, 6);
    expect(spreads[0]).toBeCloseTo(Math.sqrt(14 / 20), 6);
    expect(spreads[1]).toBeCloseTo(Math.sqrt(4 / 20), 6);
    expect(sumOfSquares(residuals)).toBeCloseTo(0.04 + 0.01 + 0.16 + 0.09, 6);
  });

  it('stays within its bounds, and is the best within them', () => {
    const { values } = fitLeastSquares([FREE, { start: 0.5, min: 0, max: 2 }], offLine);
    expect(values[1]).toBe(2);
    // What is left of the mean of 17 / 4.
    expect(values[0]).toBeCloseTo(17 / 4 - 3, 6);
  });

  it('finds a value that bends what it moves', () => {
    const decay = ([rate]: readonly number[]) =>
      [1, 2, 3].map((x) => Math.exp(-rate! * x) - 0.5 ** x);
    const { values } = fitLeastSquares([{ start: 0.1, min: 0, max: 10 }], decay);
    expect(values[0]).toBeCloseTo(Math.LN2, 6);
  });

  it('leaves alone what no reading depends on', () => {
    const { values, spreads } = fitLeastSquares([FREE, FREE], ([a]) => READINGS.map((y) => a! - y));
    expect(values[0]).toBeCloseTo(17 / 4, 6);
    expect(values[1]).toBe(FREE.start);
    expect(spreads[1]).toBe(Number.POSITIVE_INFINITY);
  });
});
