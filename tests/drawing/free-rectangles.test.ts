import { describe, expect, it } from 'vitest';
import { freeRectangles } from '../../src/drawing/free-rectangles.ts';
import { type Box, boxesOverlap } from '../../src/geometry/box.ts';
import { flattenContour } from '../../src/geometry/flatten.ts';
import { pointInRing } from '../../src/geometry/inside.ts';
import type { Ring } from '../../src/geometry/shape.ts';
import { disc } from '../helpers/plan-builder.ts';

const SQUARE: Ring = [
  { x: 0, y: 0 },
  { x: 480, y: 0 },
  { x: 480, y: 480 },
  { x: 0, y: 480 },
];

describe('free rectangles', () => {
  it('is the whole of a rectangle without obstacles', () => {
    expect(freeRectangles({ outer: SQUARE, holes: [] }, [])).toEqual([
      { minX: 0, minY: 0, maxX: 480, maxY: 480 },
    ]);
  });

  it('finds the four strips round a cut-out', () => {
    const hole: Ring = [
      { x: 100, y: 100 },
      { x: 100, y: 380 },
      { x: 380, y: 380 },
      { x: 380, y: 100 },
    ];
    const found = freeRectangles({ outer: SQUARE, holes: [hole] }, []);
    expect(found).toHaveLength(4);
    for (const box of found) {
      expect(boxesOverlap(box, { minX: 100, minY: 100, maxX: 380, maxY: 380 })).toBe(false);
      expect(Math.max(box.maxX - box.minX, box.maxY - box.minY)).toBe(480);
    }
  });

  it('keeps clear of obstacles smaller than a cell', () => {
    const pin: Box = { minX: 240.2, minY: 240.2, maxX: 240.4, maxY: 240.4 };
    const found = freeRectangles({ outer: SQUARE, holes: [] }, [pin]);
    expect(found.length).toBeGreaterThan(1);
    for (const box of found) expect(boxesOverlap(box, pin)).toBe(false);
  });

  it('stays inside a disc, with a rectangle nearly as large as the largest square in it', () => {
    const ring = flattenContour(disc(100), 'curve', 100);
    const found = freeRectangles({ outer: ring, holes: [] }, []);
    for (const { minX, minY, maxX, maxY } of found) {
      for (const x of [minX, maxX]) {
        for (const y of [minY, maxY]) expect(pointInRing({ x, y }, ring)).not.toBe(-1);
      }
    }
    const largest = Math.max(...found.map((box) => (box.maxX - box.minX) * (box.maxY - box.minY)));
    expect(largest).toBeGreaterThan(0.45 * 800_000 ** 2);
  });

  it('finds nothing where an obstacle covers all', () => {
    expect(
      freeRectangles({ outer: SQUARE, holes: [] }, [{ minX: -1, minY: -1, maxX: 500, maxY: 500 }]),
    ).toEqual([]);
  });
});
