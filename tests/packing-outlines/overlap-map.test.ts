import { describe, expect, it } from 'vitest';
import { isInside } from '../../src/packing/outlines/depth.ts';
import { type Measure, type Overlaps, rootAt } from '../../src/packing/outlines/overlap.ts';
import { addMap, rootOnMap, UNSURE } from '../../src/packing/outlines/overlap-map.ts';
import { seededRandom } from '../../src/packing/random.ts';
import { randomParts } from './random-parts.ts';
import { smallSetup } from './small-setup.ts';

const SPAN = 300;
const MEASURES: readonly Measure[] = ['depth', 'circles'];
const PLACES = Array.from({ length: 41 }, (_, k) => 17 * k - 340).flatMap((x) =>
  Array.from({ length: 41 }, (_, k) => ({ x, y: 17 * k - 340 })),
);

/** Two random forms, the one to the other before there is a map and with one. */
function pairs(measure: Measure): readonly Overlaps[] {
  const random = seededRandom(11);
  return Array.from({ length: 12 }, () => {
    const parts = [randomParts(random, SPAN), randomParts(random, SPAN)];
    return smallSetup(parts, 2 * SPAN, 2 * SPAN, measure).overlaps;
  });
}

function mapOf({ maps }: Overlaps, first: number, second: number): number {
  return maps.ofForm[first]?.[second] ?? 0;
}

function rootOf(overlaps: Overlaps, map: number, x: number, y: number): number {
  return rootAt(overlaps, map, 0, 1, x, y, Number.POSITIVE_INFINITY);
}

describe('a map of overlaps', () => {
  it.each(MEASURES)('never says wrongly whether two forms overlap, by %s', (measure) => {
    for (const overlaps of pairs(measure)) {
      const sides = overlaps.sides(0, 1);
      addMap(overlaps.maps, [0, 1], sides, true);
      const map = mapOf(overlaps, 0, 1);
      let known = 0;
      for (const { x, y } of PLACES) {
        const told = rootOnMap(overlaps.maps, map, x, y, false);
        if (told !== UNSURE) expect(told > 0).toBe(isInside(sides, x, y));
        if (told > 0) {
          known++;
          expect(rootOnMap(overlaps.maps, map, x, y, true)).toBe(told);
        }
        expect(rootOf(overlaps, map, x, y) > 0).toBe(isInside(sides, x, y));
      }
      expect(known).toBeGreaterThan(0);
    }
  });

  it.each(MEASURES)('gives about the root that is asked for exactly, by %s', (measure) => {
    for (const overlaps of pairs(measure)) {
      const exact = PLACES.map(({ x, y }) => rootOf(overlaps, 0, x, y));
      addMap(overlaps.maps, [0, 1], overlaps.sides(0, 1), true);
      const map = mapOf(overlaps, 0, 1);
      const most = Math.max(...exact);
      for (const [k, { x, y }] of PLACES.entries())
        expect(Math.abs(rootOf(overlaps, map, x, y) - (exact[k] as number)) / most).toBeLessThan(
          0.1,
        );
    }
  });

  it('is read mirrored for the same two forms the other way round', () => {
    for (const overlaps of pairs('circles')) {
      addMap(overlaps.maps, [0, 1], overlaps.sides(0, 1), true);
      for (const { x, y } of PLACES)
        expect(rootOnMap(overlaps.maps, mapOf(overlaps, 1, 0), 0 - x, 0 - y, false)).toBe(
          rootOnMap(overlaps.maps, mapOf(overlaps, 0, 1), x, y, false),
        );
    }
  });

  it('is not made once there is no room', () => {
    const [overlaps] = pairs('circles') as readonly [Overlaps];
    overlaps.maps.room = 0;
    addMap(overlaps.maps, [0, 1], overlaps.sides(0, 1), true);
    expect(mapOf(overlaps, 0, 1)).toBe(0);
  });
});
