import { describe, expect, it } from 'vitest';
import { type LiftTask, liftFactors } from '../../src/costing/lifting.ts';
import type { FileUnit } from '../../src/model/job.ts';

const IDEAL: Readonly<Record<FileUnit, LiftTask>> = {
  mm: { horizontal: 25, height: 75, travel: 25, twistDeg: 0, grip: 'good' },
  in: { horizontal: 10, height: 30, travel: 10, twistDeg: 0, grip: 'good' },
};

/** Waters, Putz-Anderson and Garg 1994, publication 94-110, tables 1 to 4 and 7: the last value of each condition, and one beyond it. */
const ENDS: readonly [FileUnit, Partial<LiftTask>, string, number][] = [
  ['mm', { horizontal: 63 }, 'horizontal', 25 / 63],
  ['mm', { horizontal: 63.1 }, 'horizontal', 0],
  ['in', { horizontal: 25 }, 'horizontal', 10 / 25],
  ['in', { horizontal: 25.1 }, 'horizontal', 0],
  ['mm', { horizontal: 20 }, 'horizontal', 1],
  ['mm', { height: 175 }, 'vertical', 0.7],
  ['mm', { height: 175.1 }, 'vertical', 0],
  ['in', { height: 70 }, 'vertical', 0.7],
  ['in', { height: 70.1 }, 'vertical', 0],
  ['mm', { travel: 175 }, 'distance', 0.82 + 4.5 / 175],
  ['mm', { travel: 175.1 }, 'distance', 0],
  ['in', { travel: 70 }, 'distance', 0.82 + 1.8 / 70],
  ['in', { travel: 70.1 }, 'distance', 0],
  ['mm', { travel: 0 }, 'distance', 1],
  ['mm', { twistDeg: 135 }, 'asymmetry', 0.568],
  ['mm', { twistDeg: 135.1 }, 'asymmetry', 0],
  ['mm', { grip: 'fair', height: 74.9 }, 'coupling', 0.95],
  ['mm', { grip: 'fair' }, 'coupling', 1],
  ['in', { grip: 'poor', height: 29.9 }, 'coupling', 0.9],
];

describe('what reduces the load that one person should lift', () => {
  it.each(ENDS)('in %s at %j: %s %f', (unit, changes, factor, value) => {
    const factors = liftFactors({ ...IDEAL[unit], ...changes }, unit);
    expect(factors[factor as keyof typeof factors]).toBeCloseTo(value, 9);
  });
});
