import { describe, expect, it } from 'vitest';
import type { FileUnit } from '../../src/model/job.ts';
import { parseLength, showLength, showSize } from '../../src/partsfile/lengths.ts';
import { parseSize } from '../../src/partsfile/sizes.ts';

const SIXTY_FOURTH = 3175;
const MM = 8000;

type Row = readonly [text: string, unit: FileUnit, length: number];

const READ: readonly Row[] = [
  // Inches in every usual form; 23 1/4 in is 1,488 sixty-fourths.
  ['23-1/4', 'in', 1488 * SIXTY_FOURTH],
  ['23 1/4', 'in', 1488 * SIXTY_FOURTH],
  ['23  1/4', 'in', 1488 * SIXTY_FOURTH],
  ['23 1/4"', 'in', 1488 * SIXTY_FOURTH],
  ['23-1/4 in', 'mm', 1488 * SIXTY_FOURTH],
  ['23.25', 'in', 1488 * SIXTY_FOURTH],
  ['23¼', 'in', 1488 * SIXTY_FOURTH],
  ['23¼″', 'in', 1488 * SIXTY_FOURTH],
  ['23 1⁄4', 'in', 1488 * SIXTY_FOURTH],
  ['3/4', 'in', 48 * SIXTY_FOURTH],
  ['3/4in', 'mm', 48 * SIXTY_FOURTH],
  ['3/4 in', 'mm', 48 * SIXTY_FOURTH],
  ['3 / 4', 'in', 48 * SIXTY_FOURTH],
  ['½', 'in', 32 * SIXTY_FOURTH],
  ['1/64', 'in', SIXTY_FOURTH],
  ['5/4', 'in', 80 * SIXTY_FOURTH],
  ['24 1/16', 'in', 1540 * SIXTY_FOURTH],
  ["8'", 'in', 96 * 64 * SIXTY_FOURTH],
  ['8\' 6-1/2"', 'in', 6560 * SIXTY_FOURTH],
  ['8\'-6 1/2"', 'in', 6560 * SIXTY_FOURTH],
  ['8 ft 6 1/2 in', 'mm', 6560 * SIXTY_FOURTH],
  ['8 feet', 'in', 96 * 64 * SIXTY_FOURTH],
  ['2 inches', 'mm', 128 * SIXTY_FOURTH],
  // Metric.
  ['18', 'mm', 18 * MM],
  ['18mm', 'in', 18 * MM],
  ['18 mm', 'in', 18 * MM],
  ['18 MM', 'in', 18 * MM],
  ['1.5 cm', 'mm', 15 * MM],
  ['2.44 m', 'mm', 2440 * MM],
  ['.5', 'mm', MM / 2],
  ['5.', 'mm', 5 * MM],
  ['007', 'mm', 7 * MM],
  ['+3', 'mm', 3 * MM],
  ['-5', 'mm', -5 * MM],
  ['\u22125', 'mm', -5 * MM],
  ['-23-1/4', 'in', -1488 * SIXTY_FOURTH],
  ['1.000125', 'mm', MM + 1],
  // Finer than the grid: to the nearest, halves away from 0.
  ['0.0000624', 'mm', 0],
  ['0.0000625', 'mm', 1],
  ['-0.0000625', 'mm', -1],
  ['1/3', 'in', 67_733],
  // Long before any range is looked at.
  ['100 km', 'mm', 1e8 * MM],
];

describe('lengths', () => {
  it.each(READ)('reads %j in a file in %s', (text, unit, length) => {
    const read = parseLength(text, unit);
    expect(read).toMatchObject({ ok: true, length });
  });

  const REFUSED: readonly (readonly [text: string, message: string, hint: string])[] = [
    ['2,5', 'has a comma', 'write 2.5:'],
    ['2,5mm', 'has a comma', 'write 2.5mm:'],
    ['2,440', 'has a comma', 'write 2440 or 2.440:'],
    ['1,234,567', 'has a comma', 'write 1234567:'],
    ['1e3', 'without an exponent', 'a length such as'],
    ['0x10', 'ordinary decimal digits', 'a length such as'],
    ['0o17', 'ordinary decimal digits', 'a length such as'],
    ['1_000', 'no underscores', 'a length such as'],
    ['NaN', 'is not a number', 'a length such as'],
    ['.nan', 'is not a number', 'a length such as'],
    ['-.inf', 'is not a number', 'a length such as'],
    ['Infinity', 'is not a number', 'a length such as'],
    ['3/0', 'divided by 0', 'a length such as'],
    ['1 5/4', 'less than 1', 'a length such as'],
    ['18 mn', 'unit that is not known here: "mn"', 'mm, cm, m, in or ft'],
    ['', 'cannot read ""', 'a length such as'],
    ['.', 'cannot read "."', 'a length such as'],
    ['1.2.3', 'cannot read', 'a length such as'],
    ['23--1/4', 'cannot read', 'a length such as'],
    ['5 5', 'cannot read', 'a length such as'],
    ['9'.repeat(61), 'cannot read', 'a length such as'],
    [`1${'-1'.repeat(100_000)}`, 'cannot read', 'a length such as'],
  ];
  it.each(REFUSED.map((row) => [row[0].slice(0, 20), ...row] as const))(
    'refuses %j',
    (_, text, message, hint) => {
      const read = parseLength(text, 'mm');
      expect(read.ok).toBe(false);
      if (read.ok) return;
      expect(read.message).toContain(message);
      expect(read.hint).toContain(hint);
      expect(read.message.length).toBeLessThan(200);
      expect(read.comma).toBe(message === 'has a comma');
    },
  );

  it.each<readonly [number, FileUnit, string]>([
    [18 * MM, 'mm', '18 mm'],
    [18.5 * MM, 'mm', '18.5 mm'],
    [1488 * SIXTY_FOURTH, 'in', '23-1/4 in'],
    [48 * SIXTY_FOURTH, 'in', '3/4 in'],
    [-48 * SIXTY_FOURTH, 'in', '-3/4 in'],
    [128 * SIXTY_FOURTH, 'in', '2 in'],
    [18 * MM, 'in', '0.7087 in'],
    [0, 'in', '0 in'],
  ])('shows %d in %s as %s', (length, unit, shown) => {
    expect(showLength(length, unit)).toBe(shown);
  });

  it('reads back what it shows in sixty-fourths', () => {
    for (let n = 1; n < 6400; n += 7) {
      const read = parseLength(showLength(n * SIXTY_FOURTH, 'in'), 'mm');
      expect(read).toMatchObject({ ok: true, length: n * SIXTY_FOURTH });
    }
  });

  it('shows sizes', () => {
    expect(showSize(720 * MM, 560.5 * MM, 'mm')).toBe('720 × 560.5 mm');
  });
});

describe('sizes', () => {
  const inch = 64 * SIXTY_FOURTH;
  it.each<readonly [string, FileUnit, readonly [number, number]]>([
    ['2440 x 1220', 'mm', [2440 * MM, 1220 * MM]],
    ['2440x1220', 'mm', [2440 * MM, 1220 * MM]],
    ['2440 X 1220', 'mm', [2440 * MM, 1220 * MM]],
    ['2440 × 1220', 'mm', [2440 * MM, 1220 * MM]],
    ['2440mm x 1220mm', 'in', [2440 * MM, 1220 * MM]],
    ['48-1/2 x 96', 'in', [48.5 * inch, 96 * inch]],
    ['48" x 96"', 'in', [48 * inch, 96 * inch]],
    ['48 x 96 in', 'in', [48 * inch, 96 * inch]],
    ["4' x 8'", 'in', [48 * inch, 96 * inch]],
  ])('reads %j in a file in %s', (text, unit, [first, second]) => {
    const read = parseSize(text, unit);
    expect(read.ok && read.sides).toMatchObject([
      { ok: true, length: first },
      { ok: true, length: second },
    ]);
  });

  it.each<readonly [string, FileUnit, string]>([
    ['2440', 'mm', 'cannot read'],
    ['2440 by 1220', 'mm', 'cannot read'],
    ['x 1220', 'mm', 'cannot read'],
    ['2440 x 1220 x 18', 'mm', 'three lengths'],
    ['48 x 96 in', 'mm', 'one of its lengths only'],
    ['4 x 8 ft', 'in', 'one of its lengths only'],
    ['1'.repeat(200), 'mm', 'cannot read'],
  ])('refuses %j in a file in %s', (text, unit, message) => {
    const read = parseSize(text, unit);
    expect(read.ok ? '' : read.message).toContain(message);
  });
});
