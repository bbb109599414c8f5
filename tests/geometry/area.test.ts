import { describe, expect, it } from 'vitest';
import { regionArea, ringArea, ringLength } from '../../src/geometry/area.ts';
import { pointInRegion, pointInRing } from '../../src/geometry/inside.ts';
import { placePoint } from '../../src/geometry/pose.ts';
import type { Ring } from '../../src/geometry/shape.ts';
import { seededRandom } from '../../src/packing/random.ts';
import { randomInteger, randomRing } from './random-shapes.ts';
import { placeRing, ringOf, WAYS } from './ways.ts';

const L_SHAPE = ringOf([0, 0], [6, 0], [6, 2], [2, 2], [2, 6], [0, 6]);

describe('area and length', () => {
  it('count an L, a hole and a half unit', () => {
    expect(ringArea(L_SHAPE)).toBe(20);
    expect(ringLength(L_SHAPE)).toBe(24);
    expect(ringArea(ringOf([0, 0], [1, 0], [0, 1]))).toBe(0.5);
    expect(ringArea([...L_SHAPE].reverse())).toBe(-20);
    expect(regionArea({ outer: L_SHAPE, holes: [ringOf([1, 1], [1, 2], [2, 1])] })).toBe(19.5);
    expect([ringArea([]), ringLength([])]).toEqual([0, 0]);
  });

  it('stay exact at the largest span', () => {
    const far = 2 ** 26;
    expect(ringArea(ringOf([-1, 0], [far, 0], [far, far], [0, far]))).toBe(2 ** 51 * 2 + 2 ** 25);
  });

  it.each(WAYS)('do not care how the ring lies: %o', (way) => {
    expect(ringArea(placeRing(L_SHAPE, way))).toBe(20);
    expect(ringLength(placeRing(L_SHAPE, way))).toBe(24);
  });
});

describe('a point in a ring', () => {
  it.each([
    ['inside', [1, 1], 1],
    ['inside, level with a corner', [1, 2], 1],
    ['on a horizontal edge', [3, 0], 0],
    ['on a vertical edge', [0, 3], 0],
    ['on the hollow corner', [2, 2], 0],
    ['on a corner', [0, 6], 0],
    ['in the notch', [3, 3], -1],
    ['outside, level with an edge', [7, 0], -1],
    ['outside, level with the top', [-1, 6], -1],
    ['outside, left and level with a corner', [-3, 2], -1],
  ] as const)('%s', (_, [x, y], place) => {
    for (const way of WAYS) {
      expect(pointInRing(placePoint({ x, y }, way), placeRing(L_SHAPE, way))).toBe(place);
      expect(pointInRing(placePoint({ x, y }, way), [...placeRing(L_SHAPE, way)].reverse())).toBe(
        place,
      );
    }
  });

  it('is settled for all grid points by counting (Pick: area = inside + border / 2 - 1)', () => {
    const random = seededRandom(4);
    for (let i = 0; i < 200; i++) {
      const size = 4 + randomInteger(random, 8);
      const ring = randomRing(random, 3 + randomInteger(random, 9), size);
      const counts = countPoints(ring, size);
      expect(counts.inside + counts.border / 2 - 1).toBe(ringArea(ring));
    }
  });

  it('counts a lap over itself as inside', () => {
    const lapped = ringOf([0, 0], [6, 0], [6, 4], [2, 4], [2, 2], [4, 2], [4, 6], [0, 6]);
    expect(pointInRing({ x: 3, y: 3 }, lapped)).toBe(1);
  });
});

describe('a point in a region', () => {
  const region = {
    outer: ringOf([0, 0], [9, 0], [9, 9], [0, 9]),
    holes: [ringOf([2, 2], [2, 4], [4, 4], [4, 2]), ringOf([6, 6], [6, 8], [8, 8])],
  };

  it.each([
    [[1, 1], 1],
    [[3, 3], -1],
    [[2, 3], 0],
    [[7, 7], 0],
    [[9, 5], 0],
    [[10, 5], -1],
    [[5, 5], 1],
  ] as const)('%o', ([x, y], place) => {
    expect(pointInRegion({ x, y }, region)).toBe(place);
  });
});

function countPoints(ring: Ring, size: number): { inside: number; border: number } {
  let inside = 0;
  let border = 0;
  for (let x = 0; x < size; x++) {
    for (let y = 0; y < size; y++) {
      const place = pointInRing({ x, y }, ring);
      if (place === 1) inside++;
      if (place === 0) border++;
    }
  }
  return { inside, border };
}
