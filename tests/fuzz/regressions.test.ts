import { assert, describe, expect, it, vi } from 'vitest';
import { parseLength } from '../../src/partsfile/lengths.ts';
import {
  importList,
  type ListImport,
  type ListOptions,
  type ListRefused,
} from '../../src/partsfile/lists/import-list.ts';
import { readPartsFile } from '../../src/partsfile/read-parts-file.ts';
import { saying } from '../../src/partsfile/visible.ts';
import { jobText } from '../helpers/job-text.ts';
import { closed, dxf, type Entity, line } from '../partsfile/dxf-text.ts';
import { CODES } from './corpus.ts';
import { NO_DRAWING } from './tiny-plans.ts';
import { sentenceFaults, severityFaults, toldFaults } from './told.ts';

function imported(text: string, options: Partial<ListOptions> = {}): ListImport | ListRefused {
  const given = { columns: null, separator: null, unit: null, thickness: null, sheet: null };
  const usual = { ...given, band: null, material: null };
  return importList(new TextEncoder().encode(text), 'a.csv', { ...usual, ...options });
}

const svg = (inside: string) =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="200mm" viewBox="0 0 300 200">${inside}</svg>`;
const SQUARE = closed([
  [0, 0],
  [100, 0],
  [100, 100],
  [0, 100],
]);

/** A group of the plane right behind the x of a corner. */
const TORN: Entity = SQUARE.flatMap((group, i) =>
  i === 6 ? [group, [230, -1] as const] : [group],
);

interface Found {
  readonly name: string;
  readonly text: string;
  readonly drawing?: string;
  readonly problems: readonly string[];
}

/** What drawn inputs have found, as small as it can be. */
const FOUND: readonly Found[] = [
  {
    name: 'a unit that means something to the language',
    text: jobText('size: 5 constructor x 5 constructor'),
    problems: ['4:39 bad-length'],
  },
  {
    name: 'the same for a quantity',
    text: `${jobText('size: 30 x 20')}limits: { yield: 7 constructor }\n`,
    problems: ['5:18 bad-quantity'],
  },
  {
    name: 'the same as the kind of a drawing',
    text: jobText('outline: a.constructor'),
    problems: ['4:42 drawing-feature'],
  },
  {
    name: 'the same in an SVG drawing',
    text: jobText('outline: a.svg'),
    drawing: svg('<rect width="5constructor" height="9"/>'),
    problems: ['4:42 drawing-broken'],
  },
  {
    name: 'a control character beside a decimal comma',
    text: jobText('size: ["1,5\\u0007", 20]'),
    problems: ['4:40 decimal-comma'],
  },
  {
    name: 'a control character as a command of a path',
    text: jobText('path: "M0 0 h9 \\u0007"'),
    problems: ['4:39 bad-path'],
  },
  {
    name: 'a key of two lines',
    text: 'unit: mm\nmaterials: { "a\\nb": x }\nparts: [{ name: A, material: x, size: 9 x 9 }]\n',
    problems: ['2:22 wrong-type', '3:30 unknown-material'],
  },
  {
    name: 'broken YAML whose line ends the library does not count',
    text: 'unit: mm\nmaterials:\n  wood, x: [{ a: b\n    - { name: B }\n  - c\n',
    problems: ['3:13 yaml-syntax'],
  },
  {
    name: 'an ellipse a billion times as long as wide, between ends near the origin',
    text: jobText('path: M0 0 A1e-9 130 76 0 1 136 100 V83 Z'),
    problems: ['4:39 outline-too-large', '4:39 arc-radius'],
  },
  {
    name: 'a group of the plane behind the x of a corner',
    text: jobText('outline: a.dxf'),
    drawing: dxf([TORN]),
    problems: [],
  },
  {
    name: 'a block without a name',
    text: jobText('outline: a.dxf'),
    drawing: dxf([SQUARE], {
      blocks: [[[0, 'BLOCK'], [2, ''], ...line([0, 0], [1, 1]), [0, 'ENDBLK']]],
    }),
    problems: [],
  },
  {
    name: 'a long word for the paper of the labels',
    text: `${jobText('size: 30 x 20')}labels: { paper: "${'x\\u2028'.repeat(900)}" }\n`,
    problems: ['5:18 unknown-word'],
  },
  {
    name: 'a mark of the byte order as a key',
    text: 'unit: mm\nmaterials: { \ufeff: { family: plywood } }\nparts: []\n',
    problems: ['2:14 bad-name', '2:17 missing-key', '3:8 wrong-type'],
  },
  {
    name: 'a control character in the kind of an entity, where nothing else is drawn',
    text: jobText('outline: a.dxf'),
    drawing: dxf([[[0, 'INS\u0007']]]),
    problems: ['4:42 drawing-empty'],
  },
];

describe('what drawn inputs have found', () => {
  it.each(FOUND)('$name', ({ text, drawing, problems }) => {
    const printed = vi.spyOn(console, 'error').mockImplementation(() => {});
    const result = readPartsFile(text, (path) =>
      drawing === undefined ? NO_DRAWING() : { ok: true, text: drawing, sha256: path },
    );
    expect(
      result.problems.map(({ place, code }) => `${place?.line}:${place?.column} ${code}`),
    ).toEqual(problems);
    expect(toldFaults(result.problems, text, CODES)).toEqual([]);
    expect(severityFaults(result.problems, result.job !== null)).toEqual([]);
    expect(printed).not.toHaveBeenCalled();
    printed.mockRestore();
  });

  it('half a character as the name of a material of a list', () => {
    const result = imported('Name,Length,Width\nSide,700,300\n', { material: 'Oak\ud800' });
    expect('text' in result && result.text).toContain('Oak');
  });

  it.each([
    ['0.00018', 'is too small'],
    ['8388.608', 'is more than 300 mm'],
  ])('a thickness of %s as the third length of a size', (thickness, why) => {
    const result = imported(`Name,Size\nSide,720x560x${thickness}\nTop,700 x 300 x 18\n`);
    assert('text' in result, 'the other row reads');
    expect(result.text).toContain(why);
    expect(result.text).toContain('name: Top');
  });

  it.each([
    ['--columns', ['Pieza', 'Largo', 'Breite'], { columns: 'length=Depth' }],
    ['no column is known', [], {}],
  ])('many long headers of a list, in what is said where %s', (begins, headers, options) => {
    const long = Array.from({ length: 40 }, (_, i) => `Header ${i} ${'x'.repeat(80)}`);
    const result = imported(`${[...headers, ...long].join(',')}\nSide,2,3\n`, options);
    assert('faults' in result, 'there is nothing to read');
    expect(result.faults[0]).toMatch(begins);
    expect(result.faults.flatMap(sentenceFaults)).toEqual([]);
  });

  it('a library that says the whole of a long text', () => {
    const text = saying(`Unexpected token: "${'x'.repeat(3000)}"`);
    expect(text).toMatch(/^Unexpected token: "x+…$/);
    expect(sentenceFaults(text)).toEqual([]);
  });

  it('a unit that means something to the language, of a length alone', () => {
    expect(parseLength('5 constructor', 'mm')).toMatchObject({ ok: false });
  });
});
