import { describe, expect, it } from 'vitest';
import type { Hole } from '../../src/model/part.ts';
import { readPartsFile } from '../../src/partsfile/read-parts-file.ts';
import { block, type Corner, circle, closed, dxf, insert, line } from './dxf-text.ts';
import { codesOf, jobOf, jobText, MM, partOf, read } from './reading.ts';

const SIDE: readonly Corner[] = [
  [100, 50],
  [400, 50],
  [400, 250],
  [100, 250],
];
const BACK: readonly Corner[] = [
  [500, 50],
  [600, 50],
  [600, 150],
  [500, 150],
];
const PANEL = dxf([closed(SIDE, 'Side'), circle([120, 70], 4, 'Side'), closed(BACK, 'Back')], {
  blocks: [
    block(
      'Shelf',
      [0, 0],
      [
        closed([
          [0, 0],
          [70, 0],
          [70, 30],
          [0, 30],
        ]),
      ],
    ),
  ],
});

function fileOf(parts: readonly string[], head = ''): string {
  const sheets = 'sheets: [{ size: 2440mm x 1220mm }]';
  const list = parts.map((keys, i) => `  - { name: P${i}, material: ply, ${keys} }\n`).join('');
  return `unit: mm\n${head}materials: { ply: { family: plywood, thickness: 18mm, ${sheets} } }\nparts:\n${list}`;
}

describe('several parts from one drawing', () => {
  const text = fileOf([
    'outline: panel.dxf#Side',
    'outline: panel.dxf#back',
    'outline: panel.dxf#Shelf',
  ]);

  it('are cut from one reading of the file', () => {
    const asked: string[] = [];
    const { job, problems } = readPartsFile(text, (path) => {
      asked.push(path);
      return { ok: true, text: PANEL, sha256: 'hash' };
    });
    expect(problems).toEqual([]);
    expect(asked).toEqual(['panel.dxf']);
    expect(job?.drawings).toEqual([{ path: 'panel.dxf', sha256: 'hash' }]);
    const sizes = job?.parts.map(({ width, height }) => [width / MM, height / MM]);
    expect(sizes).toEqual([
      [300, 200],
      [100, 100],
      [70, 30],
    ]);
  });

  it('begin at the lower-left corner of their own boxes, holes and all', () => {
    const [side] = jobOf(text, { 'panel.dxf': PANEL }).parts;
    const holes: Hole[] = [{ x: 20 * MM, y: 20 * MM, diameter: 8 * MM, depth: null }];
    expect(side?.holes).toEqual(holes);
    expect(side?.rectangular).toBe(true);
  });

  it.each([
    ['panel.dxf', 'several-outlines', 'name the one that is meant, after a #: Side, Back, Shelf'],
    ['panel.dxf#sid', 'drawing-id', 'did you mean Side?'],
    ['panel.dxf#nothing', 'drawing-id', 'possible: Side, Back, Shelf'],
  ])('%s: %s', (outline, code, hint) => {
    const { problems } = read(fileOf([`outline: ${outline}`]), { 'panel.dxf': PANEL });
    expect(problems.map((problem) => [problem.code, problem.hint])).toEqual([[code, hint]]);
  });

  it('lists the ids of an SVG drawing likewise', () => {
    const svg =
      '<svg width="300mm" height="200mm" viewBox="0 0 300 200"><rect id="side" width="90" height="90"/><rect id="back" x="100" width="80" height="90"/></svg>';
    const { problems } = read(fileOf(['outline: a.svg']), { 'a.svg': svg });
    expect(problems[0]?.hint).toBe('name the one that is meant, after a #: side, back');
  });

  it('says what is wrong with the drawing at each part', () => {
    const parts = ['outline: a.dxf', 'outline: a.dxf', 'outline: a.dxf#x'];
    const broken = dxf([line([0, 0], [5, 5])]).replace('EOF', 'END');
    expect(codesOf(fileOf(parts), { 'a.dxf': broken })).toEqual(Array(3).fill('drawing-broken'));
  });

  it('is fast for many of them', () => {
    const names = Array.from({ length: 400 }, (_, i) => `Layer ${i}`);
    const many = dxf(names.flatMap((name) => [closed(SIDE, name), circle([120, 70], 4, name)]));
    const parts = names.map((name) => `outline: a.dxf#${name}`);
    expect(jobOf(fileOf(parts), { 'a.dxf': many }).parts).toHaveLength(400);
  });
});

describe('the unit of a drawing', () => {
  const inches = (units: number | null) =>
    dxf(
      [
        closed([
          [0, 0],
          [10, 0],
          [10, 4],
          [0, 4],
        ]),
      ],
      { units },
    );
  const pixels = '<svg viewBox="0 0 10 4"><rect width="10" height="4"/></svg>';
  const paper =
    '<svg viewBox="0 0 10 4" width="10mm" height="4mm"><rect width="10" height="4"/></svg>';

  it.each([
    { name: 'is that of its header', drawing: inches(1), head: '', own: '', width: 254, codes: [] },
    { name: 'is that of the part', drawing: inches(0), head: '', own: 'in', width: 254, codes: [] },
    {
      name: 'is that of the part for another header',
      drawing: inches(4),
      head: '',
      own: 'in',
      width: 254,
      codes: ['drawing-unit'],
    },
    {
      name: 'is that of the part for the same header',
      drawing: inches(1),
      head: '',
      own: 'in',
      width: 254,
      codes: [],
    },
    {
      name: 'is that of the file',
      drawing: inches(null),
      head: 'cm',
      own: '',
      width: 100,
      codes: [],
    },
    {
      name: 'is that of its header before that of the file',
      drawing: inches(1),
      head: 'cm',
      own: '',
      width: 254,
      codes: [],
    },
    {
      name: 'is that of the part before that of the file',
      drawing: inches(0),
      head: 'cm',
      own: 'm',
      width: 10_000,
      codes: ['outline-too-large'],
    },
    {
      name: 'is asked for',
      drawing: inches(0),
      head: '',
      own: '',
      width: 0,
      codes: ['no-drawing-unit'],
    },
  ])('$name', ({ drawing, head, own, width, codes }) => {
    const keys = `outline: a.dxf${own === '' ? '' : `, drawing-unit: ${own}`}`;
    const text = fileOf([keys], head === '' ? '' : `drawing-unit: ${head}\n`);
    const { job, problems } = read(text, { 'a.dxf': drawing });
    expect(problems.map(({ code }) => code)).toEqual(codes);
    if (job !== null) expect(job.parts[0]?.width).toBe(width * MM);
  });

  it.each([
    {
      name: 'of pixels is said by the part',
      drawing: pixels,
      head: '',
      own: 'cm',
      width: 100,
      codes: [],
    },
    {
      name: 'of pixels is said by the file',
      drawing: pixels,
      head: 'in',
      own: '',
      width: 254,
      codes: [],
    },
    { name: 'of a page is its own', drawing: paper, head: 'in', own: '', width: 10, codes: [] },
    {
      name: 'of a page is changed by the part',
      drawing: paper,
      head: '',
      own: 'in',
      width: 254,
      codes: ['drawing-unit'],
    },
    {
      name: 'of a page is said again by the part',
      drawing: paper,
      head: '',
      own: 'mm',
      width: 10,
      codes: [],
    },
  ])('in SVG $name', ({ drawing, head, own, width, codes }) => {
    const keys = `outline: a.svg${own === '' ? '' : `, drawing-unit: ${own}`}`;
    const text = fileOf([keys], head === '' ? '' : `drawing-unit: ${head}\n`);
    const { job, problems } = read(text, { 'a.svg': drawing });
    expect(problems.map(({ code }) => code)).toEqual(codes);
    expect(job?.parts[0]?.width).toBe(width * MM);
  });

  it('goes with drawings only, and reads the words of the trade', () => {
    expect(codesOf(jobText('size: 300 x 200, drawing-unit: mm'))).toEqual(['misplaced-key']);
    const { problems } = read(jobText('outline: a.dxf, drawing-unit: inch'), {
      'a.dxf': inches(0),
    });
    expect(problems.map(({ code, hint }) => [code, hint])).toEqual([
      ['unknown-word', 'did you mean in?'],
    ]);
  });
});

describe('kinds of files', () => {
  it.each([
    ['a.dwg', 'save it as an ASCII DXF drawing'],
    ['a.pdf', 'save it as SVG'],
    ['a.step', 'outline takes a file that ends in .svg or .dxf'],
    ['dxf', 'outline takes a file that ends in .svg or .dxf'],
  ])('%s', (name, hint) => {
    const { problems } = read(jobText(`outline: ${name}`), { [name]: '' });
    expect(problems.map((problem) => [problem.code, problem.hint])).toEqual([
      ['drawing-feature', hint],
    ]);
  });
});

describe('holes of a drawing', () => {
  const drilled = (diameter: number) =>
    dxf([insert('Plate', [0, 0])], {
      blocks: [block('Plate', [0, 0], [closed(SIDE), circle([200, 100], diameter / 2)])],
    });

  it('stand beside those of the file, and meet them like any other', () => {
    const part = (holes: string) => jobText(`outline: a.dxf, holes: [${holes}]`);
    const drawing = { 'a.dxf': drilled(8) };
    const apart = jobOf(part('{ at: [20, 20], diameter: 5, depth: 12 }'), drawing).parts[0];
    expect(
      apart?.holes.map(({ diameter, depth }) => [
        diameter / MM,
        depth === null ? null : depth / MM,
      ]),
    ).toEqual([
      [8, null],
      [5, 12],
    ]);
    expect(codesOf(part('{ at: [100, 52], diameter: 5 }'), drawing)).toEqual(['overlap']);
  });

  it('are told in the coordinates of the drawing where they are wrong', () => {
    const wrong = dxf([closed(SIDE), circle([101, 100], 4)]);
    const { problems } = read(jobText('outline: a.dxf'), { 'a.dxf': wrong });
    expect(problems[0]?.message).toBe('the hole at (101, 100 mm) is not all inside the part');
  });

  it('are cut-outs in path text, where a hole has its own key', () => {
    const part = partOf('path: "M0 0 H100 V100 H0 Z M50 45 a5 5 0 0 1 0 10 a5 5 0 0 1 0 -10"');
    expect([part.shape.inner.length, part.holes]).toEqual([1, []]);
  });
});
