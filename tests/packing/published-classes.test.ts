import { describe, expect, it } from 'vitest';
import { packingTask } from '../../src/packing/bodies.ts';
import { areaBound } from '../../src/packing/bounds/area.ts';
import { dualFeasibleBound } from '../../src/packing/bounds/dual-feasible.ts';
import { pack } from '../../src/packing/pack.ts';
import { CLASSES, type ClassInstance, classInstance, SIZES } from './class-instances.ts';
import { jobOf } from './jobs.ts';
import { faultsOf } from './legal.ts';

/**
 * Sums over the ten published instances of a class and size: the area bound, for sizes 20, 40, 60, 80, 100 (reckoned from the published rule), and the sheets of
 * a simple level heuristic for size 20 and 40 (pieces not turned). Rule and sources: class-instances.ts.
 */
const AREA_BOUNDS: Readonly<Record<number, readonly number[]>> = {
  1: [64, 120, 185, 253, 305],
  2: [10, 19, 25, 31, 39],
  3: [44, 82, 125, 173, 205],
  4: [10, 19, 23, 30, 37],
  5: [54, 101, 157, 215, 259],
  6: [10, 15, 21, 30, 32],
  7: [47, 97, 140, 197, 238],
  8: [48, 96, 141, 195, 241],
  9: [94, 180, 276, 371, 450],
  10: [38, 69, 94, 122, 153],
};
const LEVEL_SHEETS_20 = [72, 10, 54, 10, 66, 10, 57, 60, 143, 45];

/** Bounds that others report for 20 pieces, not turned; ours may be stronger but must not pass what is found. */
const KNOWN_BOUNDS_20 = [70, 10, 49, 10, 64, 10, 55, 57, 143, 41];

const NUMBERS = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10] as const;

describe.each(CLASSES)('class %i', (group) => {
  it.each(SIZES.map((size, i) => ({ size, i })))(
    'has the published area bounds for $size pieces',
    ({ size, i }) => {
      const bounds = NUMBERS.map((number) =>
        areaBound(taskOf(classInstance(group, size, number), false)),
      );
      expect(bounds.reduce((a, b) => a + b)).toBe(AREA_BOUNDS[group]![i]);
    },
  );

  it('is packed within bound and level heuristic for 20 pieces', () => {
    let sheets = 0;
    let bounds = 0;
    for (const number of NUMBERS) {
      const instance = classInstance(group, 20, number);
      const job = jobFor(instance, false);
      const layout = packed(job);
      expect(faultsOf(job, layout)).toEqual([]);
      sheets += layout.used;
      bounds += layout.bound.atLeast;
    }
    expect(bounds).toBeLessThanOrEqual(sheets);
    expect(bounds).toBeGreaterThanOrEqual(KNOWN_BOUNDS_20[group - 1]!);
    expect(sheets).toBeLessThanOrEqual(LEVEL_SHEETS_20[group - 1]!);
  });

  it('has no lower sheet count, and no lower bound, where pieces may not turn', () => {
    for (const number of NUMBERS.slice(0, 3)) {
      const instance = classInstance(group, 40, number);
      const [still, turned] = [taskOf(instance, false), taskOf(instance, true)];
      expect(dualFeasibleBound(turned)).toBeLessThanOrEqual(dualFeasibleBound(still));
      expect(dualFeasibleBound(turned)).toBeLessThanOrEqual(packed(jobFor(instance, true)).used);
    }
  });
});

function jobFor({ side, pieces }: ClassInstance, mayTurn: boolean) {
  const turns = mayTurn ? [0, 90, 180, 270] : [0];
  return jobOf(
    [{ length: side, width: side }],
    pieces.map((piece) => ({ ...piece, turns })),
  );
}

function taskOf(instance: ClassInstance, mayTurn: boolean) {
  return packingTask(jobFor(instance, mayTurn), 0);
}

/** With a little counted work only: the test is about what must hold of any layout. */
function packed(job: ReturnType<typeof jobFor>) {
  let asked = 0;
  const shouldStop = () => ++asked > 4;
  return pack(job, 0, { effort: 'quick', seed: 1, shouldStop, onProgress: () => {} }).layout;
}
