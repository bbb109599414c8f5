import { describe, expect, it } from 'vitest';
import { fromMm, UNITS_PER_INCH } from '../../src/model/units.ts';
import { codesOf, jobOf } from './reading.ts';

const mm = (rest: string) =>
  `unit: mm\nmaterials: { a: { family: mdf, thickness: 18, sheets: [{ size: 2440 x 1220 }] } }\nparts: [{ name: P, material: a, size: 300 x 200 }]\n${rest}`;
const inches = (rest: string) =>
  `unit: in\nmaterials: { a: { family: mdf, thickness: 3/4, sheets: [{ size: 96 x 48 }] } }\nparts: [{ name: P, material: a, size: 12 x 8 }]\n${rest}`;

describe('offcuts', () => {
  it.each([
    { text: mm(''), short: fromMm(150), long: fromMm(300), prefer: 'area' },
    { text: inches(''), short: 6 * UNITS_PER_INCH, long: 12 * UNITS_PER_INCH, prefer: 'area' },
    { text: mm('offcuts: {}\n'), short: fromMm(150), long: fromMm(300), prefer: 'area' },
    {
      text: mm('offcuts: { least: 600 x 250, prefer: strips }\r\n'),
      short: fromMm(250),
      long: fromMm(600),
      prefer: 'strips',
    },
    {
      text: mm('offcuts: { least: 250 x 600 }\n'),
      short: fromMm(250),
      long: fromMm(600),
      prefer: 'area',
    },
    {
      text: inches('offcuts: { least: 24 x 7-1/2, prefer: area }\n'),
      short: 7.5 * UNITS_PER_INCH,
      long: 24 * UNITS_PER_INCH,
      prefer: 'area',
    },
  ])('are read from $text', ({ text, ...rule }) => {
    expect(jobOf(text).offcuts).toEqual(rule);
  });

  it.each([
    { rest: 'offcuts: { least: 600 }\n', code: 'wrong-type' },
    { rest: 'offcuts: { least: 0 x 300 }\n', code: 'out-of-range' },
    { rest: 'offcuts: { prefer: stripes }\n', code: 'unknown-word' },
    { rest: 'offcuts: { keep: all }\n', code: 'unknown-key' },
    { rest: 'offcuts: yes\n', code: 'wrong-type' },
  ])('are refused: $rest', ({ rest, code }) => {
    expect(codesOf(mm(rest))).toEqual([code]);
  });
});
