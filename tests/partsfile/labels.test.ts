import { describe, expect, it } from 'vitest';
import {
  extentOf,
  KNOWN_GRIDS,
  knownGrid,
  LABEL_PAPERS,
  type LabelGrid,
} from '../../src/model/label-grid.ts';
import { fromMm, toMm, UNITS_PER_INCH } from '../../src/model/units.ts';
import { codesOf, jobOf } from './reading.ts';

const mm = (rest: string) =>
  `unit: mm\nmaterials: { a: { family: mdf, thickness: 18, sheets: [{ size: 2440 x 1220 }] } }\nparts: [{ name: P, material: a, size: 300 x 200 }]\n${rest}`;
const inches = (rest: string) =>
  `unit: in\nmaterials: { a: { family: mdf, thickness: 3/4, sheets: [{ size: 96 x 48 }] } }\nparts: [{ name: P, material: a, size: 12 x 8 }]\n${rest}`;

/** Paper, counts, label, pitch, left and top in millimetres; or the label of a roll. */
function measures(grid: LabelGrid | null): readonly number[] | null {
  if (grid === null) return null;
  const { width, height } = grid.label;
  if (grid.kind === 'roll') return [width, height].map(toMm);
  const { paper, columns, rows, pitch, left, top } = grid;
  return [
    ...[paper.width, paper.height].map(toMm),
    columns,
    rows,
    ...[width, height, pitch.width, pitch.height, left, top].map(toMm),
  ];
}

describe('labels', () => {
  it.each<[string, readonly number[] | null]>([
    [mm(''), null],
    [mm('labels: { paper: a4 }'), [210, 297, 3, 8, 63.5, 33.9, 66, 33.9, 7.25, 12.9]],
    [
      mm('labels: { paper: A4, columns: 2, rows: 4 }\r\n'),
      [210, 297, 2, 4, 99.1, 67.7, 101.6, 67.7, 4.65, 13.1],
    ],
    [
      mm(
        'labels: { paper: a4, columns: 3, rows: 8, size: 63.5 x 33.9, pitch: 66 x 33.9, margin: { left: 7.2, top: 12.9 } }',
      ),
      [210, 297, 3, 8, 63.5, 33.9, 66, 33.9, 7.2, 12.9],
    ],
    [
      mm('labels: { paper: 100 x 150, columns: 2, rows: 5, size: 40 x 25 }'),
      [100, 150, 2, 5, 40, 25, 40, 25, 10, 12.5],
    ],
    [
      mm('labels: { paper: [100, 150], columns: 1, rows: 2, size: [80, 60], margin: { top: 0 } }'),
      [100, 150, 1, 2, 80, 60, 80, 60, 10, 0],
    ],
    [
      mm('labels: { paper: a4, columns: 3, rows: 8, pitch: 67 x 34 }'),
      [210, 297, 3, 8, 63.5, 33.9, 67, 34, 6.25, 12.55],
    ],
    [mm('labels: { roll: 62 x 40 }'), [62, 40]],
    [
      inches('labels: { paper: letter }'),
      [215.9, 279.4, 3, 10, 66.675, 25.4, 69.85, 25.4, 4.7625, 12.7],
    ],
    [
      inches(
        'labels: { paper: 8-1/2 x 11, columns: 2, rows: 5, size: 4 x 2, pitch: 4-3/16 x 2, margin: { left: 5/32, top: 1/2 } }',
      ),
      [215.9, 279.4, 2, 5, 101.6, 50.8, 106.3625, 50.8, 3.96875, 12.7],
    ],
    [inches('labels: { roll: 2-1/4 x 1-1/4 }'), [57.15, 31.75]],
    [inches('labels: { roll: 62mm x 40mm }'), [62, 40]],
  ])('are read from %s', (text, wanted) => {
    expect(measures(jobOf(text).labels)).toEqual(wanted);
  });

  it.each<[string, readonly string[]]>([
    ['labels: {}', ['missing-key']],
    ['labels: yes', ['wrong-type']],
    ['labels: { columns: 3, rows: 8 }', ['missing-key']],
    ['labels: { paper: a4, columns: 3 }', ['missing-key']],
    ['labels: { paper: a4, rows: 8 }', ['missing-key']],
    ['labels: { paper: a4, columns: 6, rows: 9 }', ['missing-key']],
    ['labels: { paper: 100 x 150 }', ['missing-key']],
    ['labels: { paper: 100 x 150, columns: 2, rows: 2 }', ['missing-key']],
    ['labels: { paper: a7 }', ['unknown-word']],
    ['labels: { paper: 210 }', ['wrong-type']],
    ['labels: { paper: 2100 x 297, columns: 1, rows: 1, size: 60 x 30 }', ['out-of-range']],
    ['labels: { paper: a4, columns: 0, rows: 8, size: 60 x 30 }', ['out-of-range']],
    ['labels: { paper: a4, columns: 3, rows: 8, size: 60 x 9 }', ['out-of-range']],
    ['labels: { paper: a4, columns: 3, rows: 8, size: 63.5 }', ['wrong-type']],
    ['labels: { paper: a4, columns: 4, rows: 8, size: 63.5 x 33.9 }', ['bad-label-grid']],
    ['labels: { paper: a4, columns: 3, rows: 9, size: 63.5 x 33.9 }', ['bad-label-grid']],
    ['labels: { paper: a4, columns: 3, rows: 8, pitch: 60 x 33.9 }', ['bad-label-grid']],
    ['labels: { paper: a4, columns: 3, rows: 8, pitch: 66 x 30 }', ['bad-label-grid']],
    ['labels: { paper: a4, margin: { left: 20 } }', ['bad-label-grid']],
    ['labels: { paper: a4, margin: { top: 30 } }', ['bad-label-grid']],
    ['labels: { paper: a4, margin: { right: 3 } }', ['unknown-key']],
    ['labels: { paper: a4, margin: { left: -3 } }', ['out-of-range']],
    ['labels: { roll: 62 x 40, columns: 2, paper: a4 }', ['misplaced-key', 'misplaced-key']],
    ['labels: { roll: 12 x 40 }', ['out-of-range']],
    ['labels: { roll: 62 x 4000 }', ['out-of-range']],
    ['labels: { start: 4, paper: a4 }', ['unknown-key']],
  ])('are refused: %s', (rest, codes) => {
    expect(codesOf(mm(`${rest}\n`))).toEqual(codes);
  });
});

describe('usual label sheets', () => {
  it.each(KNOWN_GRIDS)('lie in the middle of $paper: $columns x $rows', (known) => {
    const grid = knownGrid(known.paper, known);
    if (grid === null) throw new Error('the grid is known');
    const { width, height } = extentOf(grid);
    const paper = LABEL_PAPERS[known.paper];
    expect(grid.left).toBeGreaterThanOrEqual(0);
    expect(grid.top).toBeGreaterThanOrEqual(0);
    expect(Math.abs(paper.width - width - 2 * grid.left)).toBeLessThanOrEqual(1);
    expect(Math.abs(paper.height - height - 2 * grid.top)).toBeLessThanOrEqual(1);
  });

  it('have in inches the measures that they are sold by', () => {
    const grid = knownGrid('letter', null);
    expect(grid?.label).toEqual({ width: 2.625 * UNITS_PER_INCH, height: UNITS_PER_INCH });
    expect([grid?.left, grid?.top]).toEqual([fromMm(4.7625), fromMm(12.7)]);
  });
});
