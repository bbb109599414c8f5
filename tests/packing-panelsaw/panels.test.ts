import { describe, expect, it } from 'vitest';
import { type Box, boxArea, boxesOverlap } from '../../src/geometry/box.ts';
import { COLUMN, type Direction, ROW } from '../../src/packing/panelsaw/direction.ts';
import { panelsOf } from '../../src/packing/panelsaw/panels.ts';

const SHEET: Box = { minX: 0, minY: 0, maxX: 2400, maxY: 1200 };
const FAR = { alongX: 1e9, alongY: 1e9 };

/** A corner cut off, as stairs that each reach to the far edges of the sheet. */
const STAIRS = Array.from({ length: 60 }, (_, k): Box => {
  return { minX: 1200 + 20 * k, minY: 1180 - 20 * k, maxX: 2400, maxY: 1200 };
});

describe.each([
  ['free', null],
  ['2', 2],
  ['3', 3],
  ['4', 4],
] as const)('clean panels beside a slanted edge, stages %s', (_, stages) => {
  it.each<Direction>([ROW, COLUMN])(
    'touch no stair and one another at most, first cut %s',
    (first) => {
      const panels = panelsOf(SHEET, STAIRS, { first, stages, ...FAR, whole: null });
      expect(panels.length).toBeGreaterThan(0);
      for (const [i, panel] of panels.entries()) {
        expect([...STAIRS, ...panels.slice(i + 1)].some((box) => boxesOverlap(box, panel))).toBe(
          false,
        );
      }
      // The clean half beside the stairs is always there.
      expect(panels.reduce((sum, panel) => sum + boxArea(panel), 0)).toBeGreaterThanOrEqual(
        1200 * 1200,
      );
    },
  );

  it.each<Direction>([ROW, COLUMN])(
    'are the same with what lies within an obstacle, first cut %s',
    (first) => {
      const limits = { first, stages, ...FAR, whole: null };
      const knot = { minX: 500, minY: 400, maxX: 700, maxY: 500 };
      const within = { minX: 550, minY: 420, maxX: 600, maxY: 480 };
      expect(panelsOf(SHEET, [within, knot, knot], limits)).toEqual(
        panelsOf(SHEET, [knot], limits),
      );
    },
  );
});
