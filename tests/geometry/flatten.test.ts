import { describe, expect, it } from 'vitest';
import { regionArea, ringArea } from '../../src/geometry/area.ts';
import { boxOf } from '../../src/geometry/box.ts';
import { distanceToSegment2 } from '../../src/geometry/distance.ts';
import {
  CHECKING_CHORD_ERROR,
  DRAWING_CHORD_ERROR,
  type FlatSide,
  flattenContour,
  flattenShape,
  PACKING_CHORD_ERROR,
  ROUNDING_SHORTFALL,
} from '../../src/geometry/flatten.ts';
import { pointInRing } from '../../src/geometry/inside.ts';
import type { Point } from '../../src/geometry/point.ts';
import { boxOfShape, placeShape } from '../../src/geometry/pose.ts';
import {
  type Contour,
  circle,
  type Ring,
  rectangle,
  reverseContour,
  type Shape,
} from '../../src/geometry/shape.ts';
import { firstCrossing } from '../../src/geometry/simple.ts';
import { arcSamples, fromLeast, moveRegion, ringOf, WAYS } from './ways.ts';

const corner = (x: number, y: number, via: readonly [number, number] | null = null) => ({
  x,
  y,
  via: via === null ? null : { x: via[0], y: via[1] },
});

const CONTOURS: Readonly<Record<string, Contour>> = {
  disc: circle({ x: 0, y: 0 }, 800_001),
  'small disc': circle({ x: 0, y: 0 }, 150),
  'rounded end': [
    corner(0, 0),
    corner(4_000_000, 0, [4_400_000, 400_000]),
    corner(4_000_000, 800_000),
    corner(0, 800_000),
  ],
  'hollow side': [
    corner(0, 0),
    corner(4_000_000, 0),
    corner(4_000_000, 2_000_000, [2_000_000, 1_400_000]),
    corner(0, 2_000_000),
  ],
  'long flat arc': [corner(0, 0, [15_000_000, -3000]), corner(30_000_000, 0), corner(0, 500_000)],
  'more than a half circle': [corner(0, 0, [2_000_000, 300_000]), corner(100, 600_000)],
  'arc by a point near its end': [
    corner(0, 0),
    corner(500_000, 0, [499_000, 60_000]),
    corner(0, 300_000),
  ],
};

const SIDES: readonly FlatSide[] = ['outside', 'curve', 'inside'];
const ERRORS = [PACKING_CHORD_ERROR, DRAWING_CHORD_ERROR, CHECKING_CHORD_ERROR, 7];

describe.each(Object.entries(CONTOURS))('%s', (_, contour) => {
  it.each(SIDES)('as hole and body, %s, keeps its side and its error', (side) => {
    for (const error of ERRORS) {
      for (const [body, lies] of [
        [contour, 1],
        [reverseContour(contour), -1],
      ] as const) {
        const ring = flattenContour(body, side, error);
        const samples = sampleContour(body);
        const beyond = side === 'outside' ? lies : -lies;
        for (const p of samples) {
          const away = distanceToRing(p, ring);
          expect(away).toBeLessThanOrEqual(error + ROUNDING_SHORTFALL);
          if (side !== 'curve' && away > ROUNDING_SHORTFALL)
            expect(pointInRing(p, ring)).toBe(beyond);
        }
      }
    }
  });

  it('has an area between inside and outside, nearer with every step', () => {
    const areas = ERRORS.map((error) =>
      SIDES.map((side) => ringArea(flattenContour(contour, side, error))),
    );
    for (const [outside, curve, inside] of areas as [number, number, number][]) {
      expect(outside).toBeGreaterThanOrEqual(curve);
      expect(curve).toBeGreaterThanOrEqual(inside);
    }
    const gap = ([outside, , inside]: number[]) => (outside as number) - (inside as number);
    for (let i = 1; i < areas.length; i++)
      expect(gap(areas[i] as number[])).toBeLessThanOrEqual(gap(areas[i - 1] as number[]));
  });

  it('nests: a finer outside polygon lies in a coarser one, a finer inside one around it', () => {
    for (let i = 1; i < ERRORS.length; i++) {
      const [coarse, fine] = [ERRORS[i - 1] as number, ERRORS[i] as number];
      const [outer, inner] = [
        flattenContour(contour, 'outside', coarse),
        flattenContour(contour, 'outside', fine),
      ];
      expect(inner.every((p) => liesIn(p, outer))).toBe(true);
      const [around, within] = [
        flattenContour(contour, 'inside', fine),
        flattenContour(contour, 'inside', coarse),
      ];
      expect(within.every((p) => liesIn(p, around))).toBe(true);
    }
  });

  it('moves and turns with the shape', () => {
    const shape: Shape = { outer: contour, inner: [] };
    for (const side of SIDES) {
      const flat = flattenShape(shape, side, 100);
      const moved = placeShape(shape, { x: 12_345, y: -777, turn: 0, mirrored: false });
      expect(flattenShape(moved, side, 100)).toEqual(moveRegion(flat, 12_345, -777));
      for (const way of WAYS) {
        const area = regionArea(flattenShape(placeShape(shape, way), side, 100));
        // Corners round the other way where the contour runs the other way.
        const slack = way.mirrored ? flat.outer.length * 8_000_000 : 0;
        expect(Math.abs(area - regionArea(flat))).toBeLessThanOrEqual(slack);
      }
    }
  });

  it('has the box of the shape where the arcs are halved at their extremes', () => {
    const box = boxOfShape({ outer: contour, inner: [] });
    const outside = boxOf(flattenContour(contour, 'outside', 40));
    expect(outside.minX).toBeLessThanOrEqual(box.minX + 1);
    expect(outside.maxX).toBeGreaterThanOrEqual(box.maxX - 1);
    expect(outside.minY).toBeLessThanOrEqual(box.minY + 1);
    expect(outside.maxY).toBeGreaterThanOrEqual(box.maxY - 1);
    expect(outside.maxX - box.maxX).toBeLessThanOrEqual(40 + 1);
  });
});

describe('a circle', () => {
  it.each([400, 2999, 800_000, 2 ** 24 + 1])('of radius %i has its exact box', (radius) => {
    const outer = circle({ x: 17, y: -5 }, radius);
    for (const side of ['outside', 'curve'] as const) {
      for (const error of ERRORS) {
        const box = boxOf(flattenContour(outer, side, error));
        expect(box).toEqual({
          minX: 17 - radius,
          minY: -5 - radius,
          maxX: 17 + radius,
          maxY: -5 + radius,
        });
      }
    }
  });

  it('has its true area between the polygons', () => {
    const outer = circle({ x: 0, y: 0 }, 800_000);
    const area = Math.PI * 800_000 * 800_000;
    expect(ringArea(flattenContour(outer, 'outside', 40))).toBeGreaterThan(area);
    expect(ringArea(flattenContour(outer, 'curve', 40))).toBeLessThan(area);
    expect(ringArea(flattenContour(outer, 'outside', 40)) / area).toBeLessThan(1.0001);
  });

  it('smaller than the chord error keeps four corners', () => {
    expect(flattenContour(circle({ x: 0, y: 0 }, 10), 'outside', 400)).toHaveLength(4);
    expect(flattenContour(circle({ x: 0, y: 0 }, 10), 'inside', 400)).toHaveLength(4);
  });
});

describe('degenerate sides', () => {
  it('an arc on one line is straight, and corners on a side are dropped', () => {
    const contour = [
      corner(0, 0, [5, 0]),
      corner(10, 0),
      corner(20, 0),
      corner(20, 10),
      corner(20, 10),
      corner(0, 10),
    ];
    expect(flattenContour(contour, 'outside', 1)).toEqual(
      ringOf([0, 0], [20, 0], [20, 10], [0, 10]),
    );
  });

  it('a rounded corner goes on smoothly, without corners on the straight sides', () => {
    const contour = [
      corner(0, 0),
      corner(30_000, 0),
      corner(30_000, 10_000, [27_071, 17_071]),
      corner(20_000, 20_000),
      corner(0, 20_000),
    ];
    const ring = flattenContour(contour, 'outside', 100_000);
    expect(fromLeast(ring)).toEqual(ringOf([0, 0], [30_000, 0], [30_000, 20_000], [0, 20_000]));
  });
});

describe('a polygon that would lap over itself', () => {
  const R = 400_000;
  /** Two round cheeks that nearly touch: a slot 200 units wide at its mouth, open behind. */
  const slot: Shape = {
    outer: [
      corner(-2 * R, 0),
      corner(2 * R, 0),
      corner(2 * R, 2 * R),
      corner(R + 100, 2 * R, [100, R]),
      corner(R + 100, 100),
      corner(-R - 100, 100, [-100, R]),
      corner(-R - 100, 2 * R),
      corner(-2 * R, 2 * R),
    ],
    inner: [],
  };
  /** Two hollow sides with a neck of 200 units between them. */
  const neck: Shape = {
    outer: [
      corner(-R, -R - 100, [0, -100]),
      corner(0.6 * R, -0.2 * R - 100),
      corner(R, -R - 100),
      corner(R, R + 100),
      corner(0.6 * R, 0.2 * R + 100, [0, 100]),
      corner(-R, R + 100),
    ],
    inner: [],
  };

  it('closes a slot outside', () => {
    expect(firstCrossing(flattenContour(slot.outer, 'outside', 2000))).not.toBe(null);
    const flat = flattenShape(slot, 'outside', 2000);
    for (const ring of [flat.outer, ...flat.holes]) expect(firstCrossing(ring)).toBe(null);
    expect(regionArea(flat)).toBeGreaterThan(regionArea(flattenShape(slot, 'outside', 7)));
  });

  it('leaves one side of a neck inside', () => {
    expect(firstCrossing(flattenContour(neck.outer, 'inside', 2000))).not.toBe(null);
    const flat = flattenShape(neck, 'inside', 2000);
    expect(firstCrossing(flat.outer)).toBe(null);
    expect(regionArea(flat)).toBeLessThan(0.7 * regionArea(flattenShape(neck, 'inside', 7)));
  });

  it('keeps a hole that comes near the edge apart from it, or cuts it open', () => {
    const shape: Shape = {
      outer: rectangle(-R, -R, 2 * R, 2 * R),
      inner: [reverseContour(circle({ x: 0, y: 0 }, R - 10))],
    };
    const inside = flattenShape(shape, 'inside', 10_000);
    const outside = flattenShape(shape, 'outside', 10_000);
    const exact = 4 * R * R - Math.PI * (R - 10) * (R - 10);
    expect(regionArea(inside)).toBeLessThan(exact);
    expect(regionArea(outside)).toBeGreaterThan(exact);
  });
});

function sampleContour(contour: Contour): Point[] {
  return contour.flatMap((from, i) => {
    const to = contour[(i + 1) % contour.length] as Point;
    return from.via === null ? [from] : arcSamples(from, from.via, to, 61);
  });
}

function distanceToRing(p: Point, ring: Ring): number {
  const distances = ring.map((q, i) =>
    distanceToSegment2(p, q, ring[(i + 1) % ring.length] as Point),
  );
  return Math.sqrt(Math.min(...distances));
}

function liesIn(p: Point, ring: Ring): boolean {
  return pointInRing(p, ring) >= 0 || distanceToRing(p, ring) <= 2 * ROUNDING_SHORTFALL;
}
