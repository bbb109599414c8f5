import { describe, expect, it } from 'vitest';
import { growthExponent } from './growth-exponent.ts';
import { maxrectsAlone } from './maxrects-alone.ts';
import { percentile, sumOf } from './percentiles.ts';
import { PUBLISHED } from './published.ts';
import { markdownTable, plainTable, signed, whole } from './table.ts';

describe('percentile', () => {
  it.each([
    { values: [5], share: 0.5, is: 5 },
    { values: [4, 1, 3, 2], share: 0.5, is: 2 },
    { values: [4, 1, 3, 2], share: 0.51, is: 3 },
    { values: [10, 9, 8, 7, 6, 5, 4, 3, 2, 1], share: 0.9, is: 9 },
    { values: [10, 9, 8, 7, 6, 5, 4, 3, 2, 1], share: 0.99, is: 10 },
    { values: [3, 1, 2], share: 0, is: 1 },
    { values: [3, 1, 2], share: 1, is: 3 },
    { values: [], share: 0.5, is: Number.NaN },
  ])('of $values at $share', ({ values, share, is }) => {
    expect(percentile(values, share)).toBe(is);
  });
});

describe('growthExponent', () => {
  it.each([
    { name: 'a power', points: [10, 100, 1000].map((x) => ({ x, y: 3 * x * x })), is: 2 },
    { name: 'a constant', points: [10, 100, 1000].map((x) => ({ x, y: 7 })), is: 0 },
    { name: 'a root', points: [1, 4, 16].map((x) => ({ x, y: Math.sqrt(x) })), is: 0.5 },
    // Logarithms to the base 10: (0, 0), (1, 2), (2, 1); slope (1 * 0 + 1 * 1) / 2.
    {
      name: 'no power',
      points: [
        { x: 1, y: 1 },
        { x: 10, y: 100 },
        { x: 100, y: 10 },
      ],
      is: 0.5,
    },
  ])('of $name', ({ points, is }) => {
    expect(growthExponent(points)).toBeCloseTo(is, 12);
  });

  it('is unknown from one point, or from a figure of 0', () => {
    expect(growthExponent([{ x: 10, y: 5 }])).toBeNaN();
    expect(
      growthExponent([
        { x: 1, y: 0 },
        { x: 10, y: 5 },
      ]),
    ).toBeNaN();
  });
});

describe('published figures', () => {
  it.each([
    { key: 'still', total: 7234 },
    { key: 'stillBest', total: 7230 },
    { key: 'stillBound', total: 7170 },
    { key: 'turned', total: 6988 },
    { key: 'turnedBound', total: 6891 },
  ] as const)('add up to $total for $key', ({ key, total }) => {
    expect(PUBLISHED.map((group) => group[key].length)).toEqual(Array(10).fill(5));
    expect(sumOf(PUBLISHED.flatMap((group) => group[key]))).toBe(total);
  });
});

describe('maxrectsAlone', () => {
  const sheet = { width: 100, height: 60 };
  it.each([
    { name: 'two halves', pieces: [piece(50, 60), piece(50, 60)], still: 1, turned: 1 },
    // Only with the second one turned do both fit one sheet.
    { name: 'one to turn', pieces: [piece(60, 60), piece(60, 40)], still: 2, turned: 1 },
    { name: 'three that are too wide', pieces: Array(3).fill(piece(70, 40)), still: 3, turned: 3 },
  ])('packs $name', ({ pieces, still, turned }) => {
    expect(maxrectsAlone(sheet, pieces, false)).toBe(still);
    expect(maxrectsAlone(sheet, pieces, true)).toBe(turned);
  });
});

describe('tables', () => {
  const table = {
    title: 'Sheets',
    columns: ['class', 'sheets'],
    rows: [
      ['1', '997'],
      ['all', null],
    ],
    notes: [Array(30).fill('word').join(' ')],
  };

  it('are drawn in columns, with notes of at most 80', () => {
    const lines = plainTable(table).split('\n');
    expect(lines.slice(0, 6)).toEqual([
      'Sheets',
      '',
      'class  sheets',
      '-----  ------',
      '1         997',
      'all         -',
    ]);
    expect(lines.slice(6).map((line) => line.length)).toEqual([79, 69, 0]);
  });

  it('are written as Markdown', () => {
    expect(markdownTable({ ...table, notes: ['One.', 'Two.'] })).toBe(
      '## Sheets\n\n| class | sheets |\n| ----- | -----: |\n| 1     |    997 |\n| all   |      - |\n\nOne. Two.',
    );
  });

  it.each([
    [0, '0', '0'],
    [999, '999', '+999'],
    [1000, '1,000', '+1,000'],
    [1_234_567, '1,234,567', '+1,234,567'],
    [-4321, '-4,321', '-4,321'],
  ])('have %d as %s', (value, plain, withSign) => {
    expect(whole(value)).toBe(plain);
    expect(signed(value)).toBe(withSign);
  });
});

function piece(width: number, height: number) {
  return { width, height };
}
