import { describe, expect, it } from 'vitest';
import { gaugeTable } from '../src/gauge.ts';
import {
  LIMIT_NAMES,
  type LimitName,
  RESOURCE_LIMITS,
  type ResourceLimits,
  USUAL_LIMITS,
} from '../src/model/resource-limits.ts';
import { importList } from '../src/partsfile/lists/import-list.ts';
import { readPartsFile } from '../src/partsfile/read-parts-file.ts';
import { readRack } from '../src/rack/read-rack.ts';
import { folderWith, holdfast, smallJob } from './helpers/command.ts';
import { jobText } from './helpers/job-text.ts';

const MB = 1_000_000;

interface Told {
  readonly place: { readonly line: number; readonly column: number } | null;
  readonly message: string;
  readonly hint: string | null;
}

/** What is said of a file within the given limits; nothing where it is taken. */
type Read = (text: string, limits: ResourceLimits) => readonly Told[];

interface Case {
  readonly limit: LimitName;
  readonly what: string;
  /** The value that the limit is given, small enough to be reached. */
  readonly value: number;
  /** A file that has this much of it. */
  readonly make: (count: number) => string;
  /** How much more is one more. */
  readonly step?: number;
  /** Where it is told, as `line:column`. */
  readonly at: string;
  readonly read?: Read;
}

const parts: Read = (text, limits) =>
  readPartsFile(text, () => ({ ok: false, reason: 'missing', detail: '' }), limits).problems;
const drawn =
  (name: string): Read =>
  (text, limits) =>
    readPartsFile(jobText(`outline: ${name}`), () => ({ ok: true, text, sha256: '' }), limits)
      .problems;
const rack: Read = (text, limits) => readRack(text, limits).problems;

const times = (count: number, make: (i: number) => string) =>
  Array.from({ length: count }, (_, i) => make(i)).join('');
const circle = (count: number) =>
  times(count, (i) => {
    const angle = (2 * Math.PI * i) / count;
    return `[${(100 + 90 * Math.cos(angle)).toFixed(3)}, ${(100 + 90 * Math.sin(angle)).toFixed(3)}], `;
  });
const svg = (inside: string) =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="200mm" viewBox="0 0 300 200">${inside}</svg>`;
const dxf = (entities: string, blocks = '') =>
  `0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n4\n0\nENDSEC\n0\nSECTION\n2\nBLOCKS\n${blocks}0\nENDSEC\n0\nSECTION\n2\nENTITIES\n${entities}0\nENDSEC\n0\nEOF\n`;
const ring = (count: number) =>
  `0\nLWPOLYLINE\n8\n0\n90\n${count}\n70\n1\n${times(count, (i) => {
    const angle = (2 * Math.PI * i) / count;
    return `10\n${100 * Math.cos(angle)}\n20\n${100 * Math.sin(angle)}\n`;
  })}`;
const nested = (levels: number) =>
  dxf(
    '0\nINSERT\n8\n0\n2\nB1\n10\n0\n20\n0\n',
    times(
      levels,
      (i) =>
        `0\nBLOCK\n8\n0\n2\nB${i + 1}\n70\n0\n10\n0\n20\n0\n${i + 1 < levels ? `0\nINSERT\n8\n0\n2\nB${i + 2}\n10\n0\n20\n0\n` : ring(4)}0\nENDBLK\n8\n0\n`,
    ),
  );
const JOB =
  'unit: mm\nmaterials: { ply: { family: plywood, thickness: 18, sheets: [{ size: 2440 x 1220 }] } }\nparts:\n';
const parted = (count: number, extra = '') =>
  JOB + times(count, (i) => `  - { name: P${i}, material: ply, size: 300 x 200${extra} }\n`);

const CASES: readonly Case[] = [
  {
    limit: 'file',
    what: 'a file',
    value: 1,
    make: (n) => `${parted(1)}# ${'x'.repeat(n * MB - 160)}`,
    at: '1:1',
  },
  { limit: 'words', what: 'YAML', value: 200, make: (n) => parted(n > 200 ? 10 : 1), at: '8:31' },
  {
    limit: 'depth',
    what: 'lists',
    value: 5,
    make: (n) =>
      n > 5
        ? jobText('size: 300 x 200, cut-outs: [{ points: [[50, 50], [90, 50], [90, 90]] }]')
        : parted(1),
    at: '4:72',
  },
  {
    limit: 'aliases',
    what: 'anchors',
    value: 6,
    step: 3,
    make: (n) =>
      `${parted(1, ', holes: [{ at: &q [50, 50], diameter: 5 }]')}${times(
        n / 3,
        (
          i,
        ) => `  - { name: B${i}, material: ply, size: 300 x 200, holes: [{ at: *q, diameter: 5 }] }
`,
      )}`,
    at: '4:66',
  },
  { limit: 'parts', what: 'parts', value: 3, make: parted, at: '7:5' },
  { limit: 'pieces', what: 'copies', value: 9, make: (n) => parted(1, `, count: ${n}`), at: '4:5' },
  {
    limit: 'variants',
    what: 'variants',
    value: 2,
    make: (n) => `${parted(1)}variants:\n${times(n, (i) => `  - { name: V${i} }\n`)}`,
    at: '8:5',
  },
  {
    limit: 'vertices',
    what: 'points',
    value: 20,
    make: (n) => jobText(`points: [${circle(n)}]`),
    at: '4:41',
  },
  {
    limit: 'vertices',
    what: 'path text',
    value: 20,
    step: 2,
    make: (n) => jobText(`path: M${circle(n).replace(/[[\],]+/g, ' ')}Z`),
    at: '4:39',
  },
  {
    limit: 'vertices',
    what: 'an SVG',
    value: 20,
    step: 2,
    make: (n) => svg(`<polygon points="${circle(n).replace(/[[\]]/g, ' ').replace(/, $/, '')}"/>`),
    at: '4:42',
    read: drawn('a.svg'),
  },
  {
    limit: 'vertices',
    what: 'a DXF',
    value: 20,
    make: (n) => dxf(ring(n)),
    at: '4:42',
    read: drawn('a.dxf'),
  },
  {
    limit: 'all-vertices',
    what: 'all outlines',
    value: 12,
    step: 4,
    make: (n) => parted(n / 4),
    at: '7:5',
  },
  {
    limit: 'corners',
    what: 'curves',
    value: 100,
    make: (n) => jobText(`points: [${circle(n)}]`),
    at: '4:41',
  },
  {
    limit: 'holes',
    what: 'a row',
    value: 5,
    make: (n) =>
      jobText(
        `size: 300 x 200, holes: [{ row: ${n}, pitch: 32, from: [37, 60], along: length, diameter: 5 }]`,
      ),
    at: '4:57',
  },
  {
    limit: 'all-holes',
    what: 'all rows',
    value: 6,
    step: 2,
    make: (n) =>
      parted(n / 2, ', holes: [{ row: 2, pitch: 32, from: [37, 60], along: length, diameter: 5 }]'),
    at: '7:5',
  },
  {
    limit: 'drawing',
    what: 'a drawing',
    value: 1,
    make: (n) => svg(`<rect width="300" height="200"/>${' '.repeat(n * MB - 200)}`),
    at: '4:42',
    read: drawn('a.svg'),
  },
  {
    limit: 'drawings',
    what: 'a drawing',
    value: 1,
    make: (n) => svg(`<rect width="300" height="200"/>${' '.repeat(n * MB - 200)}`),
    at: '4:42',
    read: drawn('a.svg'),
  },
  {
    limit: 'entities',
    what: 'corners',
    value: 12,
    make: (n) => dxf(ring(n - 1)),
    at: '4:42',
    read: drawn('a.dxf'),
  },
  {
    limit: 'placed',
    what: 'blocks',
    value: 5,
    make: (n) => nested(n - 1),
    at: '4:42',
    read: drawn('a.dxf'),
  },
  {
    limit: 'drawing-depth',
    what: 'blocks',
    value: 5,
    make: nested,
    at: '4:42',
    read: drawn('a.dxf'),
  },
  {
    limit: 'drawing-depth',
    what: 'groups',
    value: 5,
    make: (n) =>
      svg(`${'<g>'.repeat(n - 2)}<rect width="300" height="200"/>${'</g>'.repeat(n - 2)}`),
    at: '4:42',
    read: drawn('a.svg'),
  },
  {
    limit: 'offcuts',
    what: 'a rack',
    value: 2,
    make: (n) =>
      `format: holdfast-rack/1\nunit: mm\noffcuts:\n${times(n, (i) => `  - { id: R${i + 1}, material: ply, thickness: 18, size: 800 x 400, grain: first }\n`)}`,
    at: '4:3',
    read: rack,
  },
];

/** Tested elsewhere, or below by the command line. */
const OTHERS: Readonly<Partial<Record<LimitName, string>>> = {
  problems: 'below',
  'sheet-corners': 'partsfile/fixtures/stock.ts',
  'sheet-length': 'partsfile/lists.test.ts',
  'outline-length': 'partsfile/fixtures/parts.ts',
  'board-length': 'partsfile/boards.test.ts',
  list: 'below',
  rows: 'below',
  readings: 'below',
  record: 'below',
  entries: 'record',
  sheets: 'below',
  pages: 'below',
  memory: 'cli/workers.test.ts',
};

describe('a limit', () => {
  it('has a test, each of them', () => {
    const tested = new Set([...CASES.map(({ limit }) => limit), ...Object.keys(OTHERS)]);
    expect([...tested].sort()).toEqual([...LIMIT_NAMES].sort());
  });

  it.each(CASES)(
    'of $limit is kept by $what',
    ({ limit, value, step = 1, make, at, read = parts }) => {
      const most = { ...USUAL_LIMITS, [limit]: value };
      expect(read(make(value), most)).toEqual([]);
      const over = make(value + step);
      const [problem, ...more] = read(over, most);
      expect(more).toEqual([]);
      expect(`${problem?.place?.line}:${problem?.place?.column}`).toBe(at);
      expect(problem?.message).toMatch(
        new RegExp(
          ` [\\d.]+ ${RESOURCE_LIMITS[limit].unit}; the most is ${value}$|letters; the most is`,
        ),
      );
      const [, raised] = new RegExp(`--limit ${limit}=(\\d+)$`).exec(problem?.hint ?? '') ?? [];
      expect(Number(raised)).toBeGreaterThan(value);
      expect(read(over, { ...USUAL_LIMITS, [limit]: Number(raised) })).toEqual([]);
    },
  );

  it('of problems lists so many and counts the rest', () => {
    const text = parted(5, ', strange: 1');
    const listed = (problems: number) => parts(text, { ...USUAL_LIMITS, problems });
    expect(listed(5)).toHaveLength(5);
    expect(
      listed(4)
        .map(({ hint }) => hint)
        .at(-1),
    ).toMatch(/--limit problems=5$/);
  });

  it('of a list is kept', () => {
    const options = {
      columns: null,
      separator: null,
      unit: null,
      material: null,
      thickness: null,
      sheet: null,
      band: null,
    };
    const said = (text: string, limits: Partial<ResourceLimits>) => {
      const result = importList(new TextEncoder().encode(text), 'a.csv', options, {
        ...USUAL_LIMITS,
        ...limits,
      });
      return 'faults' in result
        ? result.faults.join()
        : result.troubles.map(({ why }) => why).join();
    };
    const list = `Name,Length,Width,Count\nSide,700,500,3\nTop,600,500,3\n`;
    expect(said(list, { rows: 3, pieces: 6 })).toBe('');
    expect(said(list, { rows: 2 })).toMatch(/about 3 rows; the most is 2: .*--limit rows=3$/);
    expect(said(list, { pieces: 5 })).toMatch(/6 pieces; the most is 5, .*--limit pieces=6$/);
    const long = `${list}${','.repeat(MB)}`;
    expect(said(long, { list: 1 })).toMatch(/1\.1 MB; the most is 1: .*--limit list=2$/);
  });

  it('of readings is the end', () => {
    const file = (count: number) =>
      `unit: mm\nreadings:\n${times(count, () => '  - { kind: bare, vacuum: 12.5 kPa }\n')}`;
    const codes = (count: number) =>
      gaugeTable(file(count)).problems.map(({ code, hint }) => `${code} ${hint}`);
    expect(codes(201)).toEqual([expect.stringMatching(/^out-of-range .*cannot be raised/)]);
    expect(codes(200).join()).not.toMatch(/cannot be raised/);
  });
});

describe('--limit', () => {
  const JOBS = { 'a.yaml': smallJob() };

  it.each([
    ['a wrong name', 'piece=5', /--limit has no "piece"; did you mean "pieces"\?/],
    ['a limit of the job', 'cost=5', /stands in the parts file: limits: \{ cost: … \}/],
    ['a strange name', '__proto__=5', /--limit has no "__proto__"; there are file, words/],
    [
      'no value',
      'pieces',
      /takes a whole number of pieces from 1, as in --limit pieces=10000, not ""/,
    ],
    ['nothing', 'pieces=0', /takes a whole number of pieces from 1/],
    ['a word', 'pieces=many', /not "many"/],
    ['more than there is', 'pieces=50001', /goes to 50000 pieces at most: the record/],
    ['what cannot be raised', 'sheet-length=9000', /goes to 8388 mm at most: beyond it geometry/],
    ['two faults at once', 'piece=5,parts=x', /has no "piece"[\s\S]*takes a whole number of parts/],
  ])('refuses %s', async (_, value, says) => {
    const { code, out, err } = await holdfast(folderWith(JOBS), [
      'check',
      'a.yaml',
      '--limit',
      value,
    ]);
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(says);
  });

  it('is counted together where it is given twice', async () => {
    const run = (...limits: string[]) =>
      holdfast(folderWith(JOBS), [
        'check',
        'a.yaml',
        ...limits.flatMap((each) => ['--limit', each]),
      ]);
    expect((await run('pieces=1', 'parts=500')).err).toMatch(/the most is 1\n/);
    expect((await run('pieces=1', 'pieces=500')).code).toBe(0);
  });

  it('holds what is written, and what is read from disk', async () => {
    const folder = folderWith(JOBS);
    const run = (...words: string[]) => holdfast(folder, words);
    const tight = await run('plan', 'a.yaml', '--templates', 'Side', '--limit', 'pages=1,sheets=1');
    expect(tight.err).toMatch(/would take \d+ pages, more than 1; .*--limit pages=\d+\n/);
    expect((await run('plan', 'a.yaml')).code).toBe(0);
    const large = folderWith({ 'plan.json': `${' '.repeat(MB)} `, ...JOBS });
    const { code, err } = await holdfast(large, [
      'verify',
      'plan.json',
      'a.yaml',
      '--limit',
      'record=1',
    ]);
    expect([code, err]).toEqual([
      2,
      expect.stringMatching(
        /the record has 1\.1 MB; the most is 1: raise the limit: --limit record=2/,
      ),
    ]);
  });
});
