import { describe, expect, it } from 'vitest';
import { ringArea } from '../../src/geometry/area.ts';
import { boxContains, boxesOverlap, boxOf, growBox, moveBox } from '../../src/geometry/box.ts';
import { orientation } from '../../src/geometry/point.ts';
import { circle, contourPoints, rectangle, reverseContour } from '../../src/geometry/shape.ts';
import { seededRandom } from '../../src/packing/random.ts';

describe('contours', () => {
  it('run counter-clockwise as they are made', () => {
    expect(ringArea(contourPoints(rectangle(1, 2, 5, 3)))).toBe(15);
    expect(ringArea(contourPoints(circle({ x: 7, y: 7 }, 10)))).toBe(200);
  });

  it('run the other way round with the same sides when reversed', () => {
    const contour = [
      { x: 0, y: 0, via: null },
      { x: 4, y: 0, via: { x: 5, y: 1 } },
      { x: 4, y: 2, via: null },
    ];
    expect(reverseContour(contour)).toEqual([
      { x: 0, y: 0, via: null },
      { x: 4, y: 2, via: { x: 5, y: 1 } },
      { x: 4, y: 0, via: null },
    ]);
    expect(reverseContour(reverseContour(contour))).toEqual(contour);
  });
});

describe('boxes', () => {
  const box = { minX: 0, minY: 0, maxX: 10, maxY: 6 };

  it.each([
    ['inside', { minX: 2, minY: 2, maxX: 3, maxY: 3 }, true, true],
    ['touching from inside', { minX: 0, minY: 0, maxX: 10, maxY: 6 }, true, true],
    ['touching from outside', { minX: 10, minY: 0, maxX: 12, maxY: 6 }, false, false],
    ['by one unit', { minX: 9, minY: 5, maxX: 12, maxY: 9 }, true, false],
    ['corner to corner', { minX: 10, minY: 6, maxX: 12, maxY: 9 }, false, false],
  ])('%s', (_, other, overlap, contained) => {
    expect(boxesOverlap(box, other)).toBe(overlap);
    expect(boxesOverlap(other, box)).toBe(overlap);
    expect(boxContains(box, other)).toBe(contained);
  });

  it('grow, move and close around points', () => {
    expect(growBox(box, 2)).toEqual({ minX: -2, minY: -2, maxX: 12, maxY: 8 });
    expect(moveBox(box, 1, -1)).toEqual({ minX: 1, minY: -1, maxX: 11, maxY: 5 });
    expect(
      boxOf([
        { x: 10, y: 0 },
        { x: 0, y: 6 },
      ]),
    ).toEqual(box);
    expect(boxOf([]).minX).toBeGreaterThan(boxOf([]).maxX);
  });
});

describe('orientation', () => {
  it('is exact for spans up to 2^26', () => {
    const random = seededRandom(3);
    const far = () => Math.floor(random() * (2 ** 26 + 1));
    for (let i = 0; i < 4000; i++) {
      const a = { x: far(), y: far() };
      const b = { x: far(), y: far() };
      // Nearly on one line with both, so that the products nearly cancel.
      const share = random();
      const c = {
        x: Math.round(a.x + share * (b.x - a.x)),
        y: Math.round(a.y + share * (b.y - a.y)),
      };
      const exact = BigInt(b.x - a.x) * BigInt(c.y - a.y) - BigInt(b.y - a.y) * BigInt(c.x - a.x);
      expect(BigInt(orientation(a, b, c))).toBe(exact);
    }
  });
});
