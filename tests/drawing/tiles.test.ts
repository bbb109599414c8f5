import { describe, expect, it } from 'vitest';
import type { Drawing } from '../../src/drawing/display-list.ts';
import { circle, group, polygon } from '../../src/drawing/display-list.ts';
import { drawnPoint } from '../../src/drawing/outline.ts';
import { drawTemplate } from '../../src/drawing/template-drawing.ts';
import { mostTiles, type PaperSize, type Tiling, tileDrawing } from '../../src/drawing/tiles.ts';
import { boxContains } from '../../src/geometry/box.ts';
import { DRAWING_CHORD_ERROR, flattenShape } from '../../src/geometry/flatten.ts';
import type { FileUnit } from '../../src/model/job.ts';
import { samplePlan } from '../helpers/sample-plan.ts';

const A4: PaperSize = [297, 210];
const LETTER: PaperSize = [279.4, 215.9];
const PAPERS = [
  ['A4', A4],
  ['Letter', LETTER],
] as const;

describe.each(PAPERS)('templates over pages of %s', (_, paper) => {
  const { job } = samplePlan();

  it.each(job.parts.map((part) => [part.name, part] as const))(
    'have every point of the outline of %s on a page',
    (_name, part) => {
      const { tiles } = tileDrawing(drawTemplate(job, part), paper, 1, 'mm');
      const { outer, holes } = flattenShape(part.shape, 'curve', DRAWING_CHORD_ERROR);
      for (const ring of [outer, ...holes]) {
        for (const [i, corner] of ring.entries()) {
          const next = ring[(i + 1) % ring.length]!;
          for (const share of [0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9]) {
            const { x, y } = drawnPoint({
              x: corner.x + share * (next.x - corner.x),
              y: corner.y + share * (next.y - corner.y),
            });
            const spot = { minX: x, maxX: x, minY: y, maxY: y };
            expect(tiles.some(({ window }) => boxContains(window, spot))).toBe(true);
          }
        }
      }
    },
  );

  it.each(['mm', 'in'] as const)('keep 10 mm clear of the edges and above the foot, %s', (unit) => {
    const { page, tiles } = tileDrawing(square(1500), paper, 1, unit);
    for (const { window } of tiles) {
      expect(window.maxX - window.minX).toBeLessThanOrEqual(page.width - 20 + 1e-9);
      expect(window.maxY - window.minY).toBeLessThanOrEqual(page.height - 20 - 17 + 1e-9);
    }
  });

  it.each([
    ['mm', 1],
    ['in', 1],
    ['mm', 2.5],
    ['in', 4],
  ] as const)('meet with the same crosses, in %s at 1 : %s', (unit, scale) => {
    const tiling = tileDrawing(square(1500 * scale), paper, scale, unit);
    expectSharedMarks(tiling, scale, unit);
  });
});

describe('a drawing over pages', () => {
  it('is one page without crosses where it fits, wherever it lies', () => {
    const [tile, ...others] = tileDrawing(square(150, 3.3), A4, 1, 'mm').tiles;
    expect(others).toEqual([]);
    expect(tile).toMatchObject({ name: 'A1', seams: [], marks: [] });
    expect(boxContains(tile!.window, { minX: 3.3, minY: 3.3, maxX: 153.3, maxY: 153.3 })).toBe(
      true,
    );
  });

  it('puts its crosses beside a line that runs along where they would stand', () => {
    const bar = square(1164, 0, 90);
    const { tiles } = tileDrawing(bar, LETTER, 1, 'mm');
    const marks = tiles.flatMap((tile) => tile.marks);
    expect(marks.length).toBeGreaterThan(8);
    for (const { y } of marks) {
      expect(Math.abs(y)).toBeGreaterThanOrEqual(5);
      expect(Math.abs(y - 90)).toBeGreaterThanOrEqual(5);
    }
  });

  it('leaves blank pages out', () => {
    const names = tileDrawing(square(900), A4, 1, 'mm').tiles.map(({ name }) => name);
    expect(names).toContain('A1');
    expect(names).not.toContain('B2');
  });

  it('prints the blank pages that something in the middle hangs on', () => {
    const drawing = square(1500);
    const inside = circle('template', { x: 750, y: 750 }, 20);
    const layers = [...drawing.layers, { name: 'pieces' as const, groups: [group([inside])] }];
    const { tiles, columns, rows } = tileDrawing({ ...drawing, layers }, A4, 1, 'mm');
    expect(tiles).toHaveLength(columns * rows);
  });

  it('lies across where that needs fewer pages', () => {
    const { page, tiles } = tileDrawing(square(260, 0, 100), A4, 1, 'mm');
    expect([page.width, tiles.length]).toEqual([297, 1]);
  });

  it.each([100, 187, 190, 191, 260, 365, 371, 376, 1000, 4190])(
    'never takes more pages than reckoned beforehand: %s mm',
    (side) => {
      for (const paper of [A4, LETTER]) {
        for (const unit of ['mm', 'in'] as const) {
          for (const low of [0, 1.7, -2.5]) {
            const { tiles } = tileDrawing(square(side, low), paper, 1, unit);
            expect(tiles.length).toBeLessThanOrEqual(mostTiles(side, side, paper, unit));
          }
        }
      }
    },
  );
});

/** Neighbours have two crosses in common, 10 mm of overlap around them, at round places. */
function expectSharedMarks({ tiles }: Tiling, scale: number, unit: FileUnit): void {
  let shared = 0;
  for (const one of tiles) {
    for (const other of tiles) {
      const far = Math.abs(one.column - other.column) + Math.abs(one.row - other.row);
      if (far !== 1) continue;
      const common = one.marks.filter((mark) => other.marks.some((own) => same(mark, own)));
      expect(common).toHaveLength(2);
      shared++;
      for (const mark of common) {
        const around = 5 * scale - 1e-6;
        const [dx, dy] = one.row === other.row ? [around, 0] : [0, around];
        const lap = { minX: mark.x - dx, maxX: mark.x + dx, minY: mark.y - dy, maxY: mark.y + dy };
        expect(boxContains(one.window, lap) && boxContains(other.window, lap)).toBe(true);
        const steps = mark.x / ((unit === 'mm' ? 5 : 6.35) * scale);
        expect(Math.abs(steps - Math.round(steps))).toBeLessThan(1e-9);
      }
    }
  }
  expect(shared).toBeGreaterThan(20);
}

function same(a: { x: number; y: number }, b: { x: number; y: number }): boolean {
  return Math.abs(a.x - b.x) < 1e-9 && Math.abs(a.y - b.y) < 1e-9;
}

/** A drawing of one outline; a square unless it has a height. */
function square(side: number, low = 0, height = side): Drawing {
  const corners = [
    { x: low, y: low },
    { x: low + side, y: low },
    { x: low + side, y: low + height },
    { x: low, y: low + height },
  ];
  return {
    id: 'square',
    title: 'Square',
    left: low,
    bottom: low,
    width: side,
    height,
    paperScale: 1,
    toScale: true,
    layers: [{ name: 'pieces', groups: [group([polygon('template', corners)])] }],
  };
}
