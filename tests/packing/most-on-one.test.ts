import { describe, expect, it } from 'vitest';
import { packingTask } from '../../src/packing/bodies.ts';
import { rectangularKinds } from '../../src/packing/bounds/dual-feasible.ts';
import { mostOnOne } from '../../src/packing/bounds/most-on-one.ts';
import { jobOf, type PartSketch } from './jobs.ts';

/** What one sheet of 100 x 50 carries at most, by its own area; there is another one with the grain across. */
function most(parts: readonly PartSketch[]): bigint {
  const stock = { length: 100, width: 50, grainAxis: 'x' } as const;
  const task = packingTask(jobOf([stock, { ...stock, grainAxis: 'y' }], parts), 0);
  const straight = rectangularKinds(task).map(({ body, count }) => {
    const { width, height } = body.orientations[0]!;
    return { body, count, area: BigInt(width * height) };
  });
  return mostOnOne(task, 0, straight, 5000n);
}

const SMALL = { width: 30, height: 40, turns: [0] };

describe('the most that one sheet carries', () => {
  it.each<readonly [string, readonly PartSketch[], bigint]>([
    ['one, where no two go together', [{ width: 60, height: 40, turns: [0], count: 3 }], 2400n],
    ['two side by side', [{ width: 50, height: 40, turns: [0], count: 3 }], 4000n],
    ['two one above the other', [{ width: 90, height: 25, turns: [0], count: 3 }], 4500n],
    [
      'the two that go together',
      [
        { width: 80, height: 40, turns: [0] },
        { ...SMALL, count: 2 },
      ],
      3200n,
    ],
    // 60 + 30 beside each other, and the third is too much for the area.
    [
      'no more than its area',
      [
        { width: 60, height: 50, turns: [0] },
        { width: 30, height: 50, turns: [0], count: 2 },
      ],
      4500n,
    ],
    ['a turned one', [{ width: 40, height: 90, turns: [0, 90] }], 3600n],
    ['nothing too long', [{ width: 110, height: 30, turns: [0] }, SMALL], 1200n],
    ['nothing too high', [{ width: 80, height: 51, turns: [0] }, SMALL], 1200n],
    [
      'nothing against the grain',
      [{ width: 80, height: 40, turns: [0], grain: 'across' }, SMALL],
      1200n,
    ],
    ['nothing at all', [{ width: 110, height: 51, turns: [0] }], 0n],
  ])('is %s', (_, parts, area) => {
    expect(most(parts)).toBe(area);
  });

  it('is not told where a body is no rectangle', () => {
    const shape = [
      { x: 0, y: 0, via: null },
      { x: 10, y: 0, via: null },
      { x: 0, y: 10, via: null },
    ];
    expect(most([SMALL, { width: 10, height: 10, shape: { outer: shape, inner: [] } }])).toBe(
      5000n,
    );
  });
});
