import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { regionArea } from '../../src/geometry/area.ts';
import { unite } from '../../src/geometry/boolean.ts';
import { boxRegion, type Region } from '../../src/geometry/shape.ts';
import { type Sunk, terraceArea, terracesOf } from '../../src/geometry/terraces.ts';

function box(minX: number, minY: number, length: number, width: number): Region {
  return boxRegion({ minX, minY, maxX: minX + length, maxY: minY + width });
}

const GROUND = box(0, 0, 1000, 1000);

function sizes(sunk: readonly Sunk[], ground = GROUND): (readonly [number, number])[] {
  return terracesOf(sunk, ground).map((each) => [each.depth, terraceArea(each)] as const);
}

describe('terraces', () => {
  it('give what lies over what to the deeper one, and leave what is outside', () => {
    const sunk = [
      { region: box(0, 0, 400, 400), depth: 3 },
      { region: box(200, 200, 400, 400), depth: 5 },
      { region: box(900, 900, 200, 200), depth: 3 },
    ];
    expect(sizes(sunk)).toEqual([
      [5, 160_000],
      [3, 160_000 - 40_000 + 10_000],
    ]);
  });

  it('leave nothing of what a deeper one takes whole, and nothing of openings', () => {
    const sunk = [
      { region: box(100, 100, 100, 100), depth: 1 },
      { region: box(50, 50, 300, 300), depth: 2 },
    ];
    expect(sizes(sunk)).toEqual([[2, 90_000]]);
    const opened = { ...GROUND, holes: [box(50, 50, 300, 150).outer.toReversed()] };
    expect(sizes(sunk, opened)).toEqual([[2, 45_000]]);
    expect(sizes([])).toEqual([]);
  });

  it('cover what all of them cover, whatever their order', () => {
    const each = fc.tuple(...[0, 0, 0, 0, 0].map(() => fc.integer({ min: 1, max: 400 }))).map(
      ([x, y, length, width, depth]): Sunk => ({
        region: box(x!, y!, length!, width!),
        depth: depth! % 4,
      }),
    );
    fc.assert(
      fc.property(fc.array(each, { minLength: 1, maxLength: 6 }), (sunk) => {
        const own = sizes(sunk);
        expect(sizes(sunk.toReversed())).toEqual(own);
        const whole = unite(sunk.map(({ region }) => region)).map(regionArea);
        const sum = (list: readonly number[]) => list.reduce((a, b) => a + b, 0);
        expect(sum(own.map(([, area]) => area))).toBe(sum(whole));
      }),
      { seed: 3, numRuns: 80 },
    );
  });
});
