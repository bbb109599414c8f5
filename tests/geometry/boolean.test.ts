import { describe, expect, it } from 'vitest';
import { regionArea, ringArea } from '../../src/geometry/area.ts';
import { intersect, subtract, unite } from '../../src/geometry/boolean.ts';
import { placeRegion } from '../../src/geometry/pose.ts';
import type { Region } from '../../src/geometry/shape.ts';
import { seededRandom } from '../../src/packing/random.ts';
import { randomInteger, randomRegion } from './random-shapes.ts';
import { fromLeast, moveRegion, ringOf, scaleRegion, WAYS } from './ways.ts';

const SQUARE: Region = { outer: ringOf([0, 0], [10, 0], [10, 10], [0, 10]), holes: [] };
const FRAME: Region = { outer: SQUARE.outer, holes: [ringOf([2, 2], [2, 8], [8, 8], [8, 2])] };
const CORE: Region = { outer: ringOf([4, 4], [6, 4], [6, 6], [4, 6]), holes: [] };

const total = (regions: readonly Region[]) =>
  regions.reduce((sum, region) => sum + regionArea(region), 0);

describe('areas', () => {
  it.each<[string, readonly Region[], number, number]>([
    ['union of two that overlap', unite([SQUARE, moveRegion(SQUARE, 5, 5)]), 175, 1],
    ['union of two apart', unite([SQUARE, moveRegion(SQUARE, 20, 0)]), 200, 2],
    ['union of two side by side', unite([SQUARE, moveRegion(SQUARE, 10, 0)]), 200, 1],
    ['union of one twice', unite([SQUARE, SQUARE]), 100, 1],
    ['union with what lies in the hole', unite([FRAME, CORE]), 68, 2],
    ['union that fills the hole', unite([FRAME, moveRegion(SQUARE, 0, 0)]), 100, 1],
    ['difference that bores a hole', subtract([SQUARE], [CORE]), 96, 1],
    [
      'difference that cuts in two',
      subtract([SQUARE], [{ outer: ringOf([4, -1], [6, -1], [6, 11], [4, 11]), holes: [] }]),
      80,
      2,
    ],
    ['difference of everything', subtract([CORE], [SQUARE]), 0, 0],
    ['difference of a frame leaves its core', subtract([SQUARE], [FRAME]), 36, 1],
    ['intersection', intersect([SQUARE], [moveRegion(SQUARE, 5, 5)]), 25, 1],
    ['intersection with a frame', intersect([SQUARE], [moveRegion(FRAME, 5, 0)]), 32, 1],
    ['intersection of two that touch', intersect([SQUARE], [moveRegion(SQUARE, 10, 0)]), 0, 0],
    ['of nothing', unite([]), 0, 0],
  ])('%s', (_, regions, area, count) => {
    expect(total(regions)).toBe(area);
    expect(regions).toHaveLength(count);
    for (const { outer, holes } of regions) {
      expect(ringArea(outer)).toBeGreaterThan(0);
      expect(holes.every((hole) => ringArea(hole) < 0)).toBe(true);
    }
  });

  it('of nothing: only a union with something is something', () => {
    expect(unite([])).toEqual([]);
    expect(subtract([], [CORE])).toEqual([]);
    expect(intersect([], [CORE])).toEqual([]);
    expect(total(subtract([CORE], []))).toBe(regionArea(CORE));
  });

  it('keep the corners they were given', () => {
    expect(unite([CORE]).map(({ outer }) => fromLeast(outer))).toEqual([CORE.outer]);
  });

  it('add up, whichever way the bodies lie', () => {
    const random = seededRandom(61);
    for (let i = 0; i < 100; i++) {
      const way = WAYS[i % WAYS.length] ?? SQUARE_ON;
      const [a, b] = [0, 1].map(() =>
        placeRegion(
          scaleRegion(randomRegion(random, 4 + randomInteger(random, 6), 6, 2), 10_000),
          way,
        ),
      ) as [Region, Region];
      const common = total(intersect([a], [b]));
      // Each corner that is rounded shifts two edges by up to a unit.
      const slack = 60 * 240_000;
      expect(
        Math.abs(total(unite([a, b])) - (regionArea(a) + regionArea(b) - common)),
      ).toBeLessThan(slack);
      expect(Math.abs(total(subtract([a], [b])) - (regionArea(a) - common))).toBeLessThan(slack);
    }
  });
});

const SQUARE_ON = { x: 0, y: 0, turn: 0, mirrored: false };
