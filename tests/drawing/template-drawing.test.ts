import { describe, expect, it } from 'vitest';
import type { Drawing, TextItem } from '../../src/drawing/display-list.ts';
import { drawTemplate } from '../../src/drawing/template-drawing.ts';
import type { Part } from '../../src/model/part.ts';
import { readPartsFile } from '../../src/partsfile/read-parts-file.ts';

/** What stands on the template of the only part of a file. */
describe.each<[string, 'mm' | 'in', string, readonly string[], readonly string[]]>([
  [
    'a plain rectangle has its overall sizes only',
    'mm',
    'size: 300 x 120',
    ['300', '120', '0'],
    ['R', 'Ø'],
  ],
  [
    'holes have their place from the corner, diameter and depth',
    'mm',
    'size: 300 x 120, holes: [{ at: [37.5, 40], diameter: 8, depth: 12 }, { at: [250, 40], diameter: 8, depth: through }]',
    ['37.5', '250', '40', 'Ø 8, 12 mm deep', 'Ø 8', '1 × Ø 8', '1 × Ø 8, 12 mm deep'],
    [],
  ],
  [
    'inches are fractions',
    'in',
    'size: 12 x 8-1/2, holes: [{ at: [1-3/16, 3/4], diameter: 3/8, depth: through }]',
    ['12', '8-1/2', '1-3/16', '3/4', 'Ø 3/8'],
    ['.'],
  ],
  [
    'cut-outs have their edges and radii',
    'mm',
    'size: 400 x 300, cut-outs: [{ at: [60, 50], size: 200 x 100, radius: 12 }]',
    ['60', '260', '50', '150', 'R 12'],
    ['72'],
  ],
  [
    'round cut-outs have centre and diameter',
    'mm',
    'size: 400 x 300, cut-outs: [{ at: [180, 140], diameter: 90 }]',
    ['180', '140', 'Ø 90'],
    ['R', '135', '225'],
  ],
  [
    'pockets have their edges and depth',
    'mm',
    'size: 400 x 300, pockets: [{ at: [30, 40], size: 100 x 60, depth: 9 }]',
    ['30', '130', '40', '100', 'pocket 9 mm deep'],
    [],
  ],
  [
    'an arch has its radius and corners, but nothing where line and arc join smoothly',
    'in',
    "path: 'M0 10 V5 A5 5 0 0 1 10 5 V10 Z'",
    ['R 5', '10'],
    ['5'],
  ],
  [
    'a free curve has corners but no radii',
    'mm',
    "path: 'M0 0 H200 V60 C150 60 60 120 60 300 H0 Z'",
    ['60', '240', '200', '300'],
    ['R'],
  ],
  [
    'an S of two arcs has both radii',
    'mm',
    "path: 'M0 0 H100 A50 50 0 0 1 150 50 A80 80 0 0 0 230 130 H300 V200 H0 Z'",
    ['R 50', 'R 80'],
    [],
  ],
  [
    'corners of an L have their places',
    'in',
    'points: [[0, 0], [5, 0], [5, 1-1/2], [1-3/4, 1-1/2], [1-3/4, 4], [0, 4]]',
    ['5', '4', '1-1/2', '1-3/4'],
    [],
  ],
])('the template: %s', (_, unit, keys, there, absent) => {
  const written = texts(templateOf(unit, keys)).map(({ text }) => text);

  it.each(there)('says %s', (text) => expect(written).toContain(text));

  it('says nothing else of the kind', () => {
    const isSign = (text: string) => /^[RØ.]$/.test(text);
    for (const text of absent) {
      const own = written.filter((each) => (isSign(text) ? each.includes(text) : each === text));
      expect(own.filter((each) => !/good face|Thing/.test(each))).toEqual([]);
    }
  });
});

describe('a template', () => {
  it('moves figures of near places apart in their order', () => {
    const holes = [50, 51, 52, 53].map((x) => `{ at: [${x}, 60], diameter: 0.5, depth: 3 }`);
    const drawing = templateOf('mm', `size: 300 x 120, holes: [${holes.join(', ')}]`);
    const figures = ['50', '51', '52', '53'].map(
      (figure) => texts(drawing).find(({ text, turn }) => text === figure && turn === 90)!.at.x,
    );
    for (const [i, x] of figures.slice(1).entries()) expect(x - figures[i]!).toBeGreaterThan(2.5);
    const middle = figures.reduce((sum, x) => sum + x, 0) / 4;
    expect(Math.abs(middle - 51.5)).toBeLessThan(2);
  });

  it('writes rows of many holes without labels on one another', () => {
    const row = '{ row: 24, pitch: 12, from: [10, 60], along: length, diameter: 5, depth: 12 }';
    const drawing = templateOf('mm', `size: 300 x 120, holes: [${row}]`);
    const labels = texts(drawing).filter(({ text }) => text === 'Ø 5, 12 mm deep');
    expect(labels.length).toBeGreaterThan(4);
    for (const [i, one] of labels.entries()) {
      for (const other of labels.slice(i + 1)) {
        const apartX = Math.abs(one.at.x - other.at.x) >= 10;
        const apartY = Math.abs(one.at.y - other.at.y) >= 2.5;
        expect(apartX || apartY).toBe(true);
      }
    }
    expect(texts(drawing).map(({ text }) => text)).toContain('24 × Ø 5, 12 mm deep');
  });

  it('keeps its size where its name has odd letters', () => {
    const drawing = templateOf('mm', 'size: 300 x 120', 'Tür <b>(1) ✂');
    expect(drawing.title).toBe('Tür <b>(1) ✂ · 300 × 120 × 18 mm · Ply');
    expect([drawing.width > 300, drawing.width < 400]).toEqual([true, true]);
  });

  it('says that the part is drawn as it is cut where its edges are banded', () => {
    const written = texts(templateOf('mm', 'size: 300 x 120, edges: { left: 1 }'));
    const said = written.map(({ text }) => text);
    expect(said).toContain('as it is cut; finished 300 × 120');
    expect(said).toContain('299');
  });
});

function templateOf(unit: 'mm' | 'in', keys: string, name = 'Thing'): Drawing {
  const [sheet, thickness] = unit === 'mm' ? ['2000 x 1000', '18'] : ['96 x 48', '3/4'];
  const { job, problems } = readPartsFile(
    `job: Bench\nunit: ${unit}\nmaterials:\n  ply: { name: Ply, family: plywood, thickness: ${thickness}, sheets: [{ size: ${sheet}, price: 1 }] }\nparts:\n  - { name: ${name}, material: ply, grain: any, ${keys} }\n`,
    () => ({ ok: false, reason: 'missing', detail: '' }),
  );
  expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  return drawTemplate(job!, job!.parts[0] as Part);
}

function texts({ layers }: Drawing): readonly TextItem[] {
  return layers
    .flatMap(({ groups }) => groups.flatMap(({ items }) => items))
    .filter((item): item is TextItem => item.kind === 'text');
}
