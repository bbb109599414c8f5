import { describe, expect, it } from 'vitest';
import { isInside } from '../../src/packing/outlines/depth.ts';
import { doMeet } from '../../src/packing/outlines/meet.ts';
import { seededRandom } from '../../src/packing/random.ts';
import { randomParts } from './random-parts.ts';
import { smallSetup } from './small-setup.ts';

describe('whether two forms overlap', () => {
  it('is the same by their parts as by their sums, at every place of small random forms', () => {
    const random = seededRandom(5);
    for (let trial = 0; trial < 25; trial++) {
      const { overlaps } = smallSetup([randomParts(random, 9), randomParts(random, 9)], 50, 50);
      const [first, second] = [overlaps.partsOf(0), overlaps.partsOf(1)];
      for (let x = -10; x <= 10; x++)
        for (let y = -10; y <= 10; y++)
          expect(doMeet(first, second, x, y)).toBe(isInside(overlaps.sides(0, 1), x, y));
    }
  });

  it('is told exactly where large forms with slanted sides touch', () => {
    const span = 2 ** 25;
    const triangle = [
      { x: 0, y: 0 },
      { x: span, y: 1 },
      { x: 0, y: span - 1 },
    ];
    const turned = [
      { x: span, y: span },
      { x: 0, y: span - 1 },
      { x: span, y: 1 },
    ];
    const { overlaps } = smallSetup([[turned], [triangle]], 4 * span, 4 * span);
    const meetAt = (x: number, y: number) => doMeet(overlaps.partsOf(0), overlaps.partsOf(1), x, y);
    // The box of the turned one begins at a height of 1, where both slanted sides lie on one line; half of their length along it they still do.
    for (const [x, y] of [
      [0, 1],
      [span / 2, 2 - span / 2],
    ] as const) {
      expect(meetAt(x, y)).toBe(false);
      expect(meetAt(x, y - 1)).toBe(true);
      expect(meetAt(x - 1, y)).toBe(true);
      expect(meetAt(x + 1, y)).toBe(false);
    }
  });
});
