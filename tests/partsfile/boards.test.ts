import { describe, expect, it } from 'vitest';
import { boardKerf } from '../../src/model/machine.ts';
import { codesOf, jobOf, MM, problemsOf } from './reading.ts';

const INCH = 203_200;

function file(boards: string, part: string, unit = 'mm', keys = ''): string {
  return `unit: ${unit}
materials:
  ash45: { family: hardwood, thickness: 45mm, ${keys}boards: [${boards}] }
parts:
  - { name: Leg, material: ash45, ${part} }
`;
}

describe('boards', () => {
  it('are read with all that a file may say of them', () => {
    const keys =
      'length: 2400, price: 14.50, on-hand: 6, trim: 15, name: Ash, defects: [{ at: 1600, length: 40 }, { at: 800, length: 60, why: knot }]';
    const job = jobOf(file(`{ ${keys} }, { length: 3 m }`, 'length: 720, count: 4, note: tapered'));
    const [first, second] = job.materials[0]?.boards ?? [];
    expect(first).toMatchObject({
      index: 0,
      name: 'Ash',
      length: 2400 * MM,
      endTrim: 15 * MM,
      priceCents: 1450,
      onHand: 6,
      defects: [
        { from: 800 * MM, to: 860 * MM, why: 'knot' },
        { from: 1600 * MM, to: 1640 * MM, why: 'defect' },
      ],
    });
    expect(second).toMatchObject({
      index: 1,
      name: '3000',
      length: 3000 * MM,
      endTrim: 0,
      defects: [],
      priceCents: null,
      onHand: null,
    });
    expect(job.lengthParts).toMatchObject([
      { index: 0, name: 'Leg', material: 0, length: 720 * MM, count: 4, note: 'tapered' },
    ]);
    expect(job.parts).toEqual([]);
    expect(job.pieces).toEqual([]);
  });

  it.each([
    ['96', '28-3/8', 96 * INCH, 28.375 * INCH],
    ["8'", "2' 4-3/8", 96 * INCH, 28.375 * INCH],
    ['8ft', '28 3/8', 96 * INCH, 28.375 * INCH],
    ['2440mm', '720 mm', 2440 * MM, 720 * MM],
  ])('of %s with a part of %s in a file in inches', (board, part, boardLength, partLength) => {
    const job = jobOf(file(`{ length: "${board}" }`, `length: "${part}"`, 'in'));
    expect(job.materials[0]?.boards[0]?.length).toBe(boardLength);
    expect(job.lengthParts[0]?.length).toBe(partLength);
  });

  it('may be as long as 268 m, and no longer', () => {
    expect(codesOf(file('{ length: 268435.456 }', 'length: 200 m'))).toEqual([]);
    expect(codesOf(file('{ length: 268435.457 }', 'length: 200 m'))).toEqual(['out-of-range']);
  });

  it.each([
    ['mm', '', 300 * MM],
    ['in', '', 12 * INCH],
    ['mm', 'least-leftover: 500, ', 500 * MM],
    ['mm', 'least-leftover: 0, ', 0],
  ])('in %s keep leftovers from a usual length (%s)', (unit, keys, least) => {
    const job = jobOf(file('{ length: 8ft }', 'length: 2ft', unit, keys));
    expect(job.materials[0]?.leastLeftover).toBe(least);
  });

  it.each([
    ['', 3.2 * MM, true],
    ['machine: { kind: router, cutter: { diameter: 6 }, kerf: 2.6 }', 2.6 * MM, false],
    ['machine: { kind: panel-saw, kerf: 4 }', 4 * MM, false],
  ])('are cut by a saw, whatever cuts the sheets: %s', (machine, kerf, isAssumed) => {
    const job = jobOf(`${file('{ length: 2400 }', 'length: 720')}${machine}\n`);
    expect(boardKerf(job.machine)).toBe(kerf);
    expect(job.machine.assumed.includes('kerf 3.2 mm for boards')).toBe(isAssumed);
  });

  it('stand beside sheets, and each part goes to its own', () => {
    const job = jobOf(`unit: mm
materials:
  pine: { family: softwood, thickness: 18, sheets: [{ size: 2000 x 600 }], boards: [{ length: 2400 }] }
parts:
  - { name: Shelf, material: pine, size: 800 x 300, count: 2 }
  - { name: Rail, material: pine, length: 764 }
  - { name: Door, material: pine, size: 700 x 400 }
  - { name: Batten, material: pine, length: 300, count: 3, group: Back }
`);
    expect(job.parts.map(({ name, index }) => [name, index])).toEqual([
      ['Shelf', 0],
      ['Door', 1],
    ]);
    expect(job.lengthParts.map(({ name, index, group }) => [name, index, group])).toEqual([
      ['Rail', 0, null],
      ['Batten', 1, 'Back'],
    ]);
  });

  it('are read alike with the line ends of Windows', () => {
    const text = file('{ length: 2400, trim: 15 }', 'length: 720');
    expect(jobOf(text.replace(/\n/g, '\r\n'))).toEqual(jobOf(text));
  });

  it('do not set the depth of the cuts of a router that cuts sheets', () => {
    const job = jobOf(`unit: mm
materials:
  ply: { family: plywood, thickness: 12, sheets: [{ size: 2000 x 600 }] }
  ash: { family: hardwood, thickness: 45, boards: [{ length: 2400 }] }
parts:
  - { name: Shelf, material: ply, size: 800 x 300 }
  - { name: Leg, material: ash, length: 720 }
`);
    expect(job.machine).toMatchObject({ passDepth: 12 * MM });
  });
});

describe('what is wrong with boards is said where it stands', () => {
  it.each([
    ['a length without a value', '{ length: }', 'length: 720', ['3:58 wrong-type']],
    ['a length in words', '{ length: long }', 'length: 720', ['3:66 bad-length']],
    ['a decimal comma', '{ length: "2400,5" }', 'length: 720', ['3:66 decimal-comma']],
    ['a count of parts of 0', '{ length: 2400 }', 'length: 720, count: 0', ['5:55 out-of-range']],
    ['a price in words', '{ length: 2400, price: dear }', 'length: 720', ['3:79 bad-price']],
    ['half a board on hand', '{ length: 2400, on-hand: 1.5 }', 'length: 720', ['3:81 wrong-type']],
    [
      'defects that are no list',
      '{ length: 2400, defects: 800 }',
      'length: 720',
      ['3:81 wrong-type'],
    ],
  ])('%s', (_, board, part, problems) => {
    expect(problemsOf(file(board, part))).toEqual(problems);
  });

  it('also where the unit of the file is missing', () => {
    const text = file('{ length: 2400 }', 'length: 720').replace('unit: mm\n', '');
    expect(codesOf(text)).toEqual(['missing-key']);
  });

  it('all at once', () => {
    const text = file('{ length: 0 }, { length: 2400, trim: 1300 }', 'length: 0, size: 2 x 3');
    expect(codesOf(text)).toEqual([
      'out-of-range',
      'trim-too-wide',
      'out-of-range',
      'misplaced-key',
    ]);
  });
});
