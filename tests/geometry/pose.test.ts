import { describe, expect, it } from 'vitest';
import { regionArea, ringArea } from '../../src/geometry/area.ts';
import { flattenShape } from '../../src/geometry/flatten.ts';
import {
  boxOfShape,
  type Pose,
  placePoint,
  placeRegion,
  placeShape,
} from '../../src/geometry/pose.ts';
import { circle, rectangle, reverseContour, type Shape } from '../../src/geometry/shape.ts';
import { moveRegion, ringOf, WAYS } from './ways.ts';

const pose = (turn: number, mirrored: boolean, x = 0, y = 0): Pose => ({ x, y, turn, mirrored });

/** A body without any symmetry: a corner cut by an arc, a hole off the middle. */
const ODD: Shape = {
  outer: [
    { x: 0, y: 0, via: null },
    { x: 9000, y: 0, via: null },
    { x: 9000, y: 4000, via: { x: 7000, y: 6000 } },
    { x: 6000, y: 7000, via: null },
    { x: 0, y: 7000, via: null },
  ],
  inner: [reverseContour(circle({ x: 2000, y: 2500 }, 1000))],
};

describe('placing a point', () => {
  it.each([
    [0, false, [3, 1]],
    [90, false, [-1, 3]],
    [180, false, [-3, -1]],
    [270, false, [1, -3]],
    [-90, false, [1, -3]],
    [450, false, [-1, 3]],
    [0, true, [-3, 1]],
    [90, true, [-1, -3]],
    [180, true, [3, -1]],
    [270, true, [1, 3]],
  ] as const)('turned by %i, mirrored %s', (turn, mirrored, [x, y]) => {
    expect(placePoint({ x: 3, y: 1 }, pose(turn, mirrored))).toEqual({ x, y });
    expect(placePoint({ x: 3, y: 1 }, pose(turn, mirrored, 100, -50))).toEqual({
      x: x + 100,
      y: y - 50,
    });
  });

  it('rounds other turns to the nearest grid point', () => {
    expect(placePoint({ x: 1000, y: 0 }, pose(30, false))).toEqual({ x: 866, y: 500 });
    expect(placePoint({ x: 1000, y: 0 }, pose(45, true))).toEqual({ x: -707, y: -707 });
  });

  it('never gives a negative zero', () => {
    for (const way of WAYS) {
      const { x, y } = placePoint({ x: 0, y: 0 }, { ...way, x: 0, y: 0 });
      expect([Object.is(x, 0), Object.is(y, 0)]).toEqual([true, true]);
    }
  });
});

describe('placing a shape', () => {
  it.each(WAYS)('keeps area and direction: %o', (way) => {
    const placed = flattenShape(placeShape(ODD, way), 'curve', 10);
    expect(ringArea(placed.outer)).toBeGreaterThan(0);
    expect(placed.holes.every((hole) => ringArea(hole) < 0)).toBe(true);
    const before = flattenShape(ODD, 'curve', 10);
    expect(Math.abs(regionArea(placed) - regionArea(before))).toBeLessThan(
      regionArea(before) * 1e-3,
    );
  });

  it('puts the same region where the placed shape flattens to it', () => {
    for (const way of WAYS.filter(({ mirrored }) => !mirrored)) {
      const flat = flattenShape(ODD, 'outside', 20);
      expect(flattenShape(placeShape(ODD, way), 'outside', 20)).toEqual(placeRegion(flat, way));
    }
  });

  it('comes back after four quarter turns and after two mirrorings', () => {
    let turned = ODD;
    for (let i = 0; i < 4; i++) turned = placeShape(turned, pose(90, false));
    expect(turned).toEqual(ODD);
    expect(placeShape(placeShape(ODD, pose(0, true)), pose(0, true))).toEqual(ODD);
  });

  it('keeps an arc that is given by a point near its end', () => {
    const long: Shape = {
      outer: [
        { x: 0, y: 0, via: null },
        { x: 8_000_000, y: 0, via: { x: 7_999_992, y: 5_656 } },
        { x: 4_000_000, y: 1_000_000, via: null },
      ],
      inner: [],
    };
    const area = regionArea(flattenShape(long, 'curve', 40));
    const placed = regionArea(flattenShape(placeShape(long, pose(33, false)), 'curve', 40));
    expect(Math.abs(placed - area) / area).toBeLessThan(1e-5);
  });
});

describe('placing a region', () => {
  it('keeps outer rings counter-clockwise and holes clockwise', () => {
    const region = {
      outer: ringOf([0, 0], [10, 0], [10, 5]),
      holes: [ringOf([6, 1], [6, 2], [8, 2])],
    };
    for (const way of WAYS) {
      const placed = placeRegion(region, way);
      expect(ringArea(placed.outer)).toBe(25);
      expect(regionArea(placed)).toBe(24);
    }
    expect(moveRegion(region, 2, 3).outer).toEqual(ringOf([2, 3], [12, 3], [12, 8]));
  });
});

describe('the box of a shape', () => {
  it.each(WAYS)('turns with the shape: %o', (way) => {
    const disc: Shape = { outer: circle({ x: 5000, y: 3001 }, 2999), inner: [] };
    const centre = placePoint({ x: 5000, y: 3001 }, way);
    expect(boxOfShape(placeShape(disc, way))).toEqual({
      minX: centre.x - 2999,
      minY: centre.y - 2999,
      maxX: centre.x + 2999,
      maxY: centre.y + 2999,
    });
  });

  it('is that of the corners where no arc leaves them', () => {
    expect(boxOfShape({ outer: rectangle(-4, 2, 10, 3), inner: [] })).toEqual({
      minX: -4,
      minY: 2,
      maxX: 6,
      maxY: 5,
    });
    expect(boxOfShape(ODD)).toEqual({ minX: 0, minY: 0, maxX: 9000, maxY: 7000 });
  });

  it('reaches over the corners where an arc bulges', () => {
    const slot: Shape = {
      outer: [
        { x: 0, y: 0, via: null },
        { x: 100, y: 0, via: { x: 120, y: 20 } },
        { x: 100, y: 40, via: null },
        { x: 0, y: 40, via: { x: -20, y: 20 } },
      ],
      inner: [],
    };
    expect(boxOfShape(slot)).toEqual({ minX: -20, minY: 0, maxX: 120, maxY: 40 });
  });
});
