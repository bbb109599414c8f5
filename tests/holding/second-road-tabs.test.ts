import { describe, expect, it } from 'vitest';
import { tabBendingN } from '../../src/holding/tab-strength.ts';
import { forceAtStrengthN } from './second-road-beam.ts';

/** Strength, measure across the force, measure along it, kerf. */
const TABS = [
  [20, 3, 8, 6.35],
  [20, 8, 3, 6.35],
  [24, 4.5, 12.5, 12],
  [5, 6, 1.5, 3.175],
] as const;

describe('the force that bends a tab', () => {
  // A tab is clamped in the sheet and in the piece, and the piece moves without turning: the moment is half the force
  // times the kerf at either end and nothing in the middle.
  it.each(TABS)(
    'at %d MPa, %d mm wide and %d mm deep over %d mm is that of a beam with a guided end',
    (strength, widthMm, depthMm, lengthMm) => {
      const guided = forceAtStrengthN({ widthMm, depthMm, lengthMm, end: 'guided' }, strength);
      expect(tabBendingN(strength, widthMm, depthMm, lengthMm) / guided).toBeCloseTo(1, 9);
    },
  );

  it('is twice that of a beam whose end may turn, so one tab alone would promise too much', () => {
    for (const [strength, widthMm, depthMm, lengthMm] of TABS) {
      const beam = { widthMm, depthMm, lengthMm, end: 'free to turn' } as const;
      const turning = forceAtStrengthN(beam, strength);
      expect(tabBendingN(strength, widthMm, depthMm, lengthMm) / turning).toBeCloseTo(2, 9);
    }
  });
});
