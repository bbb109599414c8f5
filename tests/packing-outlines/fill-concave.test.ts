import { describe, expect, it } from 'vitest';
import { regionArea } from '../../src/geometry/area.ts';
import { flattenShape } from '../../src/geometry/flatten.ts';
import { pointInRing } from '../../src/geometry/inside.ts';
import type { Region } from '../../src/geometry/shape.ts';
import { firstCrossing } from '../../src/geometry/simple.ts';
import { fromMm } from '../../src/model/units.ts';
import { fillConcave } from '../../src/packing/outlines/fill-concave.ts';
import { arch, cutOut, disc, hollow, lShape, rect } from '../helpers/shapes.ts';

const FINELY_CURVED: readonly { readonly what: string; readonly region: Region }[] = [
  { what: 'a hollowed rail', region: flat(hollow(1200, 200, 80, 90)) },
  { what: 'a frame with a round cut-out', region: flat(cutOut(rect(500, 500), disc(400), 50, 50)) },
];

describe('filling shallow hollows', () => {
  it.each(FINELY_CURVED)(
    'leaves few inward corners of $what and never cuts into it',
    ({ region }) => {
      const filled = fillConcave(region);
      expect(corners(filled)).toBeLessThan(corners(region) / 2);
      expect(regionArea(filled)).toBeGreaterThan(regionArea(region));
      // A filling of at most 0.8 mm along the hollow.
      expect(regionArea(filled) - regionArea(region)).toBeLessThan(fromMm(1300) * fromMm(0.8));
      for (const ring of [filled.outer, ...filled.holes]) expect(firstCrossing(ring)).toBeNull();
      for (const point of region.outer)
        expect(pointInRing(point, filled.outer)).toBeGreaterThanOrEqual(0);
      for (const hole of filled.holes)
        for (const point of hole)
          expect(pointInRing(point, region.holes[0] ?? [])).toBeGreaterThanOrEqual(0);
    },
  );

  it('leaves outlines with few inward corners as they are', () => {
    for (const shape of [rect(300, 200), lShape(300, 200, 50), arch(600, 200, 90)])
      expect(fillConcave(flat(shape))).toEqual(flat(shape));
  });

  it('does not bridge a notch deeper than the filling', () => {
    const teeth = Array.from({ length: 20 }, (_, k) => [
      { x: fromMm(10 * k), y: fromMm(20) },
      { x: fromMm(10 * k + 5), y: fromMm(18) },
    ]).flat();
    const outer = [
      { x: 0, y: 0 },
      { x: fromMm(200), y: 0 },
      { x: fromMm(200), y: fromMm(20) },
      ...teeth.reverse(),
    ];
    expect(fillConcave({ outer, holes: [] })).toEqual({ outer, holes: [] });
  });
});

function flat(shape: Parameters<typeof flattenShape>[0]): Region {
  return flattenShape(shape, 'outside', 400);
}

function corners({ outer, holes }: Region): number {
  return outer.length + holes.flat().length;
}
