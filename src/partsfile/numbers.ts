import { visible } from './visible.ts';

/** A number as people write it in a workshop, exactly: decimals and fractions of an inch have no exact double. */
export interface Rational {
  readonly top: bigint;
  readonly bottom: bigint;
}

/** Why a text is not a number, as the words of a problem. */
export interface Misread {
  /** A decimal comma is a kind of its own: it is the habit of half the world, and its hint is exact. */
  readonly comma: boolean;
  readonly message: string;
  readonly hint: string | null;
}

/** Longer texts are not numbers; the limit also bounds the work of the patterns below. */
export const LONGEST_NUMBER = 60;

/** `23`, `23.25`, `.5`, `3/4`, `23-1/4`, `23 1/4`: for use inside larger patterns. */
export const NUMBER_PATTERN = String.raw`(?:\d+(?:-| +)\d+ ?/ ?\d+|\d+ ?/ ?\d+|\d+(?:\.\d*)?|\.\d+)`;

const WHOLE_AND_FRACTION = /^(?:(\d+)(?:-| +))?(\d+) ?\/ ?(\d+)$/;
const DECIMAL = /^(\d*)\.?(\d*)$/;

/** Fractions and signs that have a letter of their own, in the plain form that the patterns know. */
const SINGLE_LETTERS: readonly (readonly [RegExp, string])[] = [
  [/\s+/gu, ' '],
  [/\u2212/gu, '-'],
  [/[\u2044\u2215]/gu, '/'],
  [/½/gu, ' 1/2'],
  [/¼/gu, ' 1/4'],
  [/¾/gu, ' 3/4'],
  [/⅛/gu, ' 1/8'],
  [/⅜/gu, ' 3/8'],
  [/⅝/gu, ' 5/8'],
  [/⅞/gu, ' 7/8'],
  [/[\u2032\u2018\u2019]/gu, "'"],
  [/[\u2033\u201c\u201d]/gu, '"'],
  [/''/gu, '"'],
];

/** The text in plain letters: one space between words, plain fractions, straight quotation marks. */
export function plainLetters(text: string): string {
  return SINGLE_LETTERS.reduce((plain, [from, to]) => plain.replace(from, to), text).trim();
}

/** Reads what `NUMBER_PATTERN` matches, exactly; null for a fraction over 0 or a mixed number such as 1 5/4. */
export function parseRational(text: string): Rational | null {
  const mixed = WHOLE_AND_FRACTION.exec(text);
  if (mixed !== null) {
    const [, whole, top = '', bottom = ''] = mixed;
    const fraction = { top: BigInt(top), bottom: BigInt(bottom) };
    if (fraction.bottom === 0n) return null;
    if (whole === undefined) return fraction;
    if (fraction.bottom <= fraction.top) return null;
    return { top: BigInt(whole) * fraction.bottom + fraction.top, bottom: fraction.bottom };
  }
  const decimal = DECIMAL.exec(text);
  if (decimal === null) return null;
  const [, whole = '', decimals = ''] = decimal;
  if (whole === '' && decimals === '') return null;
  return { top: BigInt(whole + decimals), bottom: 10n ** BigInt(decimals.length) };
}

/** The nearest whole number to `value` times `factor`; halves go away from 0. */
export function roundedTimes(value: Rational, factor: number): number {
  const top = value.top * BigInt(factor) * 2n;
  const size = top < 0n ? -top : top;
  const rounded = (size + value.bottom) / (2n * value.bottom);
  return Number(top < 0n ? -rounded : rounded);
}

export function negated(value: Rational): Rational {
  return { top: -value.top, bottom: value.bottom };
}

/** The nearest double, for quantities that are not lengths. */
export function toDouble({ top, bottom }: Rational): number {
  return Number(top) / Number(bottom);
}

/** What is wrong with a text that no pattern fits; `right` says what would have been right. */
export function explainMisread(shown: string, plain: string, right: string): Misread {
  if (/\d,\d/.test(plain)) return explainComma(shown, plain);
  const because = knownMistake(plain);
  return {
    comma: false,
    message: `cannot read ${shown}${because === null ? '' : `: ${because}`}`,
    hint: `write ${right}`,
  };
}

function explainComma(shown: string, plain: string): Misread {
  const shownAs = visible(plain);
  const pointed = shownAs.replace(/(\d),(?=\d)/g, '$1.');
  const joined = shownAs.replace(/(\d),(?=\d)/g, '$1');
  const thousands = /\d,\d{3}(?!\d)/.test(plain);
  const only = pointed.split('.').length === 2;
  const ways = thousands ? (only ? `${joined} or ${pointed}` : joined) : pointed;
  return {
    comma: true,
    message: `${shown} has a comma in its number`,
    hint: `write ${ways}: decimals take a point, thousands take nothing`,
  };
}

function knownMistake(plain: string): string | null {
  if (/^[+-]?\.?(nan|inf(inity)?)$/i.test(plain)) return 'it is not a number';
  if (/^[+-]?0x[0-9a-f]/i.test(plain) || /^[+-]?0o[0-7]/i.test(plain))
    return 'numbers are written in ordinary decimal digits here';
  if (/\d_\d/.test(plain)) return 'numbers take no underscores';
  if (/\de[+-]?\d/i.test(plain)) return 'numbers are written out, without an exponent';
  if (/\/ ?0+(?!\d)/.test(plain)) return 'nothing can be divided by 0';
  if (/^-?\d+(-| )\d+ ?\/ ?\d+/.test(plain)) return 'the fraction must be less than 1';
  return null;
}
