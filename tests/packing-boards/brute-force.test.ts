import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fromMm } from '../../src/model/units.ts';
import { type BoardInput, type BoardJobInput, boardJob } from '../helpers/board-jobs.ts';
import { leastByTrying } from './brute-force.ts';
import { cut } from './cut.ts';

const KERFS = fc.constantFrom(0, 1, 3.2);
const LENGTHS = fc.oneof(fc.integer({ min: 12, max: 60 }), fc.integer({ min: 24, max: 36 }));

/** Few pieces on short boards, so that kerfs, trims and defects decide. */
function jobs(board: fc.Arbitrary<BoardInput>): fc.Arbitrary<BoardJobInput & { kerf: number }> {
  return fc.record({
    kerf: KERFS,
    boards: fc.array(board, { minLength: 1, maxLength: 3 }),
    lengths: fc.array(fc.tuple(LENGTHS, fc.integer({ min: 1, max: 3 })), {
      minLength: 1,
      maxLength: 4,
    }),
  });
}

const defects = fc.oneof(
  fc.constant([]),
  fc.array(
    fc
      .tuple(fc.integer({ min: 0, max: 100 }), fc.constantFrom(0, 0.5, 2, 10))
      .map(([from, width]) => [from, from + width] as const),
    { maxLength: 2 },
  ),
);
const plain = fc.record({
  length: fc.integer({ min: 60, max: 130 }),
  endTrim: fc.constantFrom(0, 2),
});
const flawed = fc.record({ length: fc.integer({ min: 60, max: 130 }), defects });
const priced = fc.record({
  length: fc.integer({ min: 60, max: 130 }),
  priceCents: fc.integer({ min: 0, max: 300 }),
  onHand: fc.constantFrom(null, null, 1, 2),
});

const SETS = [
  { what: 'plain boards', board: plain, slack: 0 },
  // Where two narrow defects lie side by side, lengths given up for the kerf are not shared among three stretches.
  { what: 'boards with defects', board: flawed, slack: 0 },
  { what: 'priced boards, some few', board: priced, slack: 0 },
];

describe('boards of small jobs', () => {
  it.each(SETS)('$what: none better by trying everything', async ({ board }) => {
    let proved = 0;
    await fc.assert(
      fc.asyncProperty(jobs(board), async (input) => {
        const job = boardJob(input);
        const layout = await cut(job);
        const least = leastByTrying(job, fromMm(input.kerf), layout.objective === 'cost');
        if (layout.unplacedLengths.length > 0) {
          expect(least).toBeNull();
          return;
        }
        expect(least).not.toBeNull();
        expect(layout.bound.atLeast).toBeLessThanOrEqual(least!);
        expect(layout.used).toBeGreaterThanOrEqual(least!);
        if (layout.status === 'proved') proved++;
        expect({ ...input, used: layout.used }).toEqual({ ...input, used: least });
      }),
      { seed: 20260331, numRuns: 300 },
    );
    expect(proved).toBeGreaterThan(150);
  });
});
