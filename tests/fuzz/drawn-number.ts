import { UNITS_PER_INCH, UNITS_PER_MM } from '../../src/model/units.ts';
import type { Draw } from './draw.ts';
import { LANGUAGE_NAMES, ODD_LETTERS, ODD_NUMBERS, oddWord } from './odd-words.ts';

/** A length as a person writes it, with what it means by another road than the reader's: over a common bottom of whole numbers. */
export interface WrittenLength {
  readonly text: string;
  /** In base lengths, halves away from 0. */
  readonly means: bigint;
}

/** Names of units, with how many base lengths they have. */
const UNITS: readonly (readonly [names: readonly string[], factor: number])[] = [
  [['mm', ' mm', 'MM'], UNITS_PER_MM],
  [['cm', ' cm'], 10 * UNITS_PER_MM],
  [['m', ' m'], 1000 * UNITS_PER_MM],
  [['in', ' in', '"', ' inch', 'inches', '″'], UNITS_PER_INCH],
  [['ft', "'", ' feet', '′'], 12 * UNITS_PER_INCH],
];

const EIGHTHS = ['⅛', '¼', '⅜', '½', '⅝', '¾', '⅞'];

export function writtenLength(
  draw: Draw,
  unit: 'mm' | 'in',
  hasUnit: boolean = draw.chance(0.6),
): WrittenLength {
  const usual = unit === 'mm' ? UNITS_PER_MM : UNITS_PER_INCH;
  const [names, factor] = hasUnit ? draw.pick(UNITS) : [[''], usual];
  const whole = draw.pick([0, draw.below(10), draw.below(3000), draw.below(1_000_000)]);
  const { text, top, bottom } = draw.weighed([
    [2, () => ({ text: String(whole), top: BigInt(whole), bottom: 1n })],
    [3, () => decimal(whole, draw)],
    [3, () => fraction(whole, draw)],
    [1, () => eighths(whole, draw)],
  ])();
  const sign = draw.weighed([
    [8, ''],
    [1, '-'],
    [1, '+'],
    [1, '−'],
  ]);
  // A half is added and cut off.
  const means = (2n * top * BigInt(factor) + bottom) / (2n * bottom);
  const isNegative = sign === '-' || sign === '−';
  return { text: `${sign}${text}${draw.pick(names)}`, means: isNegative ? -means : means };
}

function decimal(whole: number, draw: Draw) {
  const places = draw.between(1, 12);
  const digits = Array.from({ length: places }, () => draw.below(10)).join('');
  const bottom = 10n ** BigInt(places);
  return { text: `${whole}.${digits}`, top: BigInt(whole) * bottom + BigInt(digits), bottom };
}

function fraction(whole: number, draw: Draw) {
  const bottom = draw.pick([2, 3, 7, 8, 16, 32, 64, 1000]);
  const top = draw.between(1, bottom - 1);
  const sum = { top: BigInt(whole) * BigInt(bottom) + BigInt(top), bottom: BigInt(bottom) };
  return {
    text: `${whole}${draw.pick(['-', ' ', '  '])}${top}${draw.pick(['/', ' / ', '⁄'])}${bottom}`,
    ...sum,
  };
}

function eighths(whole: number, draw: Draw) {
  const top = draw.between(1, 7);
  return { text: `${whole}${EIGHTHS[top - 1]}`, top: BigInt(8 * whole + top), bottom: 8n };
}

/** Anything where a number should stand. */
export function oddNumber(draw: Draw): string {
  const word = () =>
    draw.weighed([
      [4, () => draw.pick(ODD_NUMBERS)],
      [3, () => writtenLength(draw, 'mm').text],
      [
        2,
        () =>
          draw.pick([
            'mm',
            'in',
            'x',
            '%',
            'kPa',
            'rpm',
            'm/min',
            'per m',
            'kg',
            'h',
            'min',
            'e',
            '°',
            '/',
            "'",
            '"',
            ',',
            '-',
            ' ',
          ]),
      ],
      [1, () => draw.pick(LANGUAGE_NAMES)],
      [1, () => draw.pick(ODD_LETTERS)],
      [1, () => oddWord(draw)],
    ])();
  return draw.list(1, 4, word).join(draw.pick(['', '', ' ']));
}
