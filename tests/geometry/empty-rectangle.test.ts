import { describe, expect, it } from 'vitest';
import type { Box } from '../../src/geometry/box.ts';
import { largestEmptyRectangle } from '../../src/geometry/empty-rectangle.ts';

const box = (minX: number, minY: number, maxX: number, maxY: number): Box => ({
  minX,
  minY,
  maxX,
  maxY,
});
const SHEET = box(0, 0, 10, 6);

const CASES: { name: string; obstacles: Box[]; expected: Box | null }[] = [
  { name: 'nothing in the way', obstacles: [], expected: SHEET },
  { name: 'all taken', obstacles: [SHEET], expected: null },
  { name: 'taken by two halves', obstacles: [box(0, 0, 5, 6), box(5, 0, 10, 6)], expected: null },
  {
    name: 'touching is not entering',
    obstacles: [box(-4, 0, 0, 6), box(0, 6, 10, 9)],
    expected: SHEET,
  },
  { name: 'a corner taken', obstacles: [box(0, 0, 4, 3)], expected: box(4, 0, 10, 6) },
  { name: 'a post in the middle', obstacles: [box(3, 2, 4, 3)], expected: box(4, 0, 10, 6) },
  { name: 'two posts', obstacles: [box(3, 2, 4, 3), box(7, 2, 8, 3)], expected: box(0, 3, 10, 6) },
  { name: 'equal areas go to the left', obstacles: [box(4, 0, 6, 6)], expected: box(0, 0, 4, 6) },
];

describe('largestEmptyRectangle', () => {
  it.each(CASES)('$name', ({ obstacles, expected }) => {
    expect(largestEmptyRectangle(SHEET, obstacles)).toEqual(expected);
  });

  it.each(CASES)('$name, obstacles in another order: the same area', ({ obstacles, expected }) => {
    const found = largestEmptyRectangle(SHEET, [...obstacles].reverse());
    expect(area(found)).toBe(area(expected));
  });

  it.each(CASES)('$name, sides swapped: the same area', ({ obstacles, expected }) => {
    const swap = (b: Box) => box(b.minY, b.minX, b.maxY, b.maxX);
    expect(area(largestEmptyRectangle(swap(SHEET), obstacles.map(swap)))).toBe(area(expected));
  });
});

function area(found: Box | null): number {
  return found === null ? 0 : (found.maxX - found.minX) * (found.maxY - found.minY);
}
