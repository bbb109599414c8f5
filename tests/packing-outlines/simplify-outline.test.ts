import { describe, expect, it } from 'vitest';
import { regionArea, ringArea } from '../../src/geometry/area.ts';
import { pointInRing } from '../../src/geometry/inside.ts';
import type { Region, Ring } from '../../src/geometry/shape.ts';
import { firstCrossing } from '../../src/geometry/simple.ts';
import { fromMm } from '../../src/model/units.ts';
import { simplifyOutline } from '../../src/packing/outlines/simplify-outline.ts';
import { seededRandom } from '../../src/packing/random.ts';
import { placeRing, ringOf, WAYS } from '../geometry/ways.ts';

const GROWTH = { distance: 3200, areaShare: 0.001 };

const HEAVY: readonly { readonly what: string; readonly region: Region; readonly left: number }[] =
  [
    {
      what: 'a wavy outline of 415 corners',
      region: { outer: wavy(415, 300, 20, 7), holes: [] },
      left: 155,
    },
    {
      what: 'a finely drawn circle',
      region: { outer: wavy(2000, 400, 0, 1), holes: [] },
      left: 140,
    },
    {
      what: 'a ring with a wavy cut-out',
      region: { outer: wavy(600, 400, 10, 5), holes: [[...wavy(500, 250, 15, 9)].reverse()] },
      left: 310,
    },
    { what: 'a rough outline', region: { outer: rough(700, 300, 0.05), holes: [] }, left: 600 },
    {
      what: 'a star of sharp points',
      region: { outer: rough(200, 300, 60), holes: [] },
      left: 200,
    },
  ];

describe('simplifying an outline', () => {
  it.each(HEAVY)('leaves fewer corners of $what and loses nothing of it', ({ region, left }) => {
    const simple = simplifyOutline(region, GROWTH);
    expect(simple.outer.length + simple.holes.flat().length).toBeLessThanOrEqual(left);
    for (const ring of [simple.outer, ...simple.holes]) expect(firstCrossing(ring)).toBeNull();
    for (const point of region.outer)
      expect(pointInRing(point, simple.outer)).toBeGreaterThanOrEqual(0);
    simple.holes.forEach((hole, i) => {
      for (const point of hole)
        expect(pointInRing(point, region.holes[i] ?? [])).toBeGreaterThanOrEqual(0);
    });
    const added = regionArea(simple) - regionArea(region);
    expect(added).toBeGreaterThanOrEqual(0);
    const enclosed = [region.outer, ...region.holes].reduce(
      (sum, ring) => sum + Math.abs(ringArea(ring)),
      0,
    );
    expect(added).toBeLessThanOrEqual(GROWTH.areaShare * enclosed);
    for (const point of simple.outer)
      expect(distanceTo(region.outer, point)).toBeLessThanOrEqual(GROWTH.distance + 1);
  });

  it('closes no gap between two limbs', () => {
    const [limb, gap] = [fromMm(50), 300];
    const outer = [
      { x: 0, y: 0 },
      { x: 2 * limb + gap, y: 0 },
      { x: 2 * limb + gap, y: 4 * limb },
      { x: limb + gap, y: 4 * limb },
      { x: limb + gap, y: limb },
      { x: limb, y: limb },
      { x: limb, y: 4 * limb },
      { x: 0, y: 4 * limb },
    ];
    const many = outer.flatMap((point, i) => {
      const next = outer[(i + 1) % outer.length] ?? point;
      const at = (k: number) => Math.round((k * (next.x - point.x)) / 8) + point.x;
      const up = (k: number) => Math.round((k * (next.y - point.y)) / 8) + point.y;
      return Array.from({ length: 8 }, (_, k) => ({ x: at(k), y: up(k) }));
    });
    const { outer: simple } = simplifyOutline({ outer: many, holes: [] }, GROWTH);
    expect(simple.length).toBeLessThan(20);
    expect(firstCrossing(simple)).toBeNull();
    expect(ringArea(simple)).toBeLessThan(ringArea(outer) * 1.001);
  });

  it.each([true, false])('fills a dent unless a tooth stands in it: %s', (hasTooth) => {
    const [edge, gap, middle, top] = [fromMm(50), 500, fromMm(60), fromMm(100)];
    const tooth = [
      [edge + gap, middle + 3000],
      [edge - 1000, middle],
      [edge + gap, middle - 3000],
    ] as const;
    const ring = ringOf(
      [0, 0],
      [fromMm(50), -fromMm(10)],
      [fromMm(100), 0],
      [fromMm(110), fromMm(50)],
      [fromMm(100), top],
      [edge + gap, top],
      ...(hasTooth ? tooth : []),
      [edge + gap, fromMm(20)],
      [edge, fromMm(20)],
      [edge, middle - 20_000],
      [edge - 2000, middle],
      [edge, middle + 20_000],
      [edge, top],
      [fromMm(20), fromMm(110)],
      [0, top],
      [-fromMm(10), fromMm(50)],
    );
    for (const way of WAYS) {
      const placed = placeRing(ring, way);
      const { outer } = simplifyOutline({ outer: placed, holes: [] }, GROWTH);
      expect(firstCrossing(outer)).toBeNull();
      const dent = placeRing(ringOf([edge - 2000, middle]), way)[0]!;
      expect(pointInRing(dent, outer)).toBe(hasTooth ? 0 : 1);
    }
  });
});

function wavy(count: number, radius: number, wave: number, waves: number): Ring {
  return Array.from({ length: count }, (_, i) => {
    const angle = (2 * Math.PI * i) / count;
    const reach = fromMm(radius + wave * Math.sin(waves * angle));
    return { x: Math.round(reach * Math.cos(angle)), y: Math.round(reach * Math.sin(angle)) };
  });
}

function rough(count: number, radius: number, by: number): Ring {
  const random = seededRandom(3);
  return Array.from({ length: count }, (_, i) => {
    const angle = (2 * Math.PI * i) / count;
    const reach = fromMm(radius + by * random());
    return { x: Math.round(reach * Math.cos(angle)), y: Math.round(reach * Math.sin(angle)) };
  });
}

function distanceTo(ring: Ring, { x, y }: { readonly x: number; readonly y: number }): number {
  return Math.min(
    ...ring.map((a, i) => {
      const b = ring[(i + 1) % ring.length] ?? a;
      const [dx, dy] = [b.x - a.x, b.y - a.y];
      const along = ((x - a.x) * dx + (y - a.y) * dy) / (dx * dx + dy * dy);
      const share = Math.max(0, Math.min(1, along));
      return Math.hypot(x - a.x - share * dx, y - a.y - share * dy);
    }),
  );
}
