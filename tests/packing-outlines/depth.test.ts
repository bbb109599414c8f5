import { describe, expect, it } from 'vitest';
import { depthAt } from '../../src/packing/outlines/depth.ts';
import { seededRandom } from '../../src/packing/random.ts';
import { randomParts } from './random-parts.ts';
import { isFree, smallSetup } from './small-setup.ts';

const BOX = [
  [
    { x: 0, y: 0 },
    { x: 10, y: 0 },
    { x: 10, y: 4 },
    { x: 0, y: 4 },
  ],
];
const TRIANGLE = [
  [
    { x: 0, y: 0 },
    { x: 8, y: 0 },
    { x: 0, y: 6 },
  ],
];

describe('the depth of an overlap by sums', () => {
  it('is above 0 just where two forms overlap', () => {
    const random = seededRandom(3);
    for (let trial = 0; trial < 25; trial++) {
      const setup = smallSetup([randomParts(random, 9), randomParts(random, 9)], 50, 50);
      const sides = setup.overlaps.sides(0, 1);
      const origin = { form: 1, x: 0, y: 0 };
      for (let x = -9; x <= 9; x++)
        for (let y = -9; y <= 9; y++)
          expect(depthAt(sides, x, y) > 0).toBe(!isFree(setup, { form: 0, x, y }, [origin]));
    }
  });

  it.each([
    { what: 'two boxes side by side', still: BOX, at: [10, 0], depth: 0 },
    { what: 'a box one into the other', still: BOX, at: [9, 1], depth: 1 },
    { what: 'the same box twice', still: BOX, at: [0, 0], depth: 4 },
    { what: 'a box with its corner on a slanted side', still: TRIANGLE, at: [4, 3], depth: 0 },
    { what: 'a box with its corner over a slanted side', still: TRIANGLE, at: [0, 1], depth: 4 },
  ])('of $what is $depth', ({ still, at: [x = 0, y = 0], depth }) => {
    const setup = smallSetup([BOX, still], 50, 50);
    expect(depthAt(setup.overlaps.sides(0, 1), x, y)).toBeCloseTo(depth, 9);
  });
});
