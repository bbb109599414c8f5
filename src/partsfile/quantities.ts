import type { Currency } from './currencies.ts';
import {
  explainMisread,
  LONGEST_NUMBER,
  type Misread,
  NUMBER_PATTERN,
  parseRational,
  plainLetters,
  type Rational,
  toDouble,
} from './numbers.ts';
import type { ProblemCode } from './problem.ts';
import { type Field, isFlawed, subjectOf, textOf } from './tree.ts';
import type { Reading } from './values.ts';
import { quote } from './visible.ts';

/** A quantity that is no length: its units with the factor to the one used inside, and the range of its value there. */
export interface Quantity {
  readonly units: Readonly<Record<string, number>>;
  /** The unit of a bare number; the empty text where the quantity has none. */
  readonly usual: string;
  readonly min: number;
  readonly max: number;
  /** The range in words, after a semicolon. */
  readonly range: string;
  /** For hints: what a right value looks like. */
  readonly right: string;
}

/** The value in the inner unit, or null after a problem was reported. */
export function readQuantity(field: Field, { report }: Reading, quantity: Quantity): number | null {
  if (isFlawed(field)) return null;
  const text = textOf(field);
  const read = splitQuantity(text, quantity.right);
  const add = (code: ProblemCode, message: string) =>
    report.error(field, code, message, `write ${quantity.right}`);
  if ('message' in read) {
    report.error(field, read.comma ? 'decimal-comma' : 'bad-quantity', read.message, read.hint);
    return null;
  }
  const name = (read.unit === '' ? quantity.usual : read.unit).toLowerCase();
  const factor = Object.hasOwn(quantity.units, name) ? quantity.units[name] : undefined;
  if (factor === undefined) {
    const fault =
      read.unit === '' ? 'has no unit' : `has a unit that is not known here: ${quote(read.unit)}`;
    add('bad-quantity', `${quote(text)} ${fault}`);
    return null;
  }
  // Twelve digits, so that 70 % is 0.7 and not the double beside it.
  const value = Number((toDouble(read.value) * factor).toPrecision(12));
  if (quantity.min <= value && value <= quantity.max) return value;
  add('out-of-range', `${subjectOf(field)} is ${quote(text)}; ${quantity.range}`);
  return null;
}

/** A price in minor units of the currency, exactly; more decimals than the currency has are a problem. */
export function readPrice(field: Field, reading: Reading, currency: Currency): number | null {
  return isFlawed(field) ? null : minorUnits(field, textOf(field), reading, currency);
}

/** A price for so much of something, such as 9.50 per bf; `measures` has the words for each measure. */
export function readPricePer<Measure extends string>(
  field: Field,
  reading: Reading,
  currency: Currency,
  measures: Readonly<Record<Measure, readonly string[]>>,
): { readonly cents: number; readonly measure: Measure } | null {
  if (isFlawed(field)) return null;
  const text = textOf(field);
  const [, price = '', word = ''] = PRICE_PER.exec(plainLetters(text)) ?? [];
  const names = Object.keys(measures) as Measure[];
  const measure = names.find((name) => measures[name].includes(word.toLowerCase()));
  if (measure === undefined) {
    const hint = `write a price and its measure, such as ${names.map((name) => `9.50 per ${name}`).join(' or ')}`;
    reading.report.error(
      field,
      'bad-price',
      `cannot read ${quote(text)} as a price for so much`,
      hint,
    );
    return null;
  }
  const cents = minorUnits(field, price, reading, currency);
  return cents === null ? null : { cents, measure };
}

const PRICE_PER = /^(\S+) ?(?:per |\/ ?)([a-z].*)$/i;

function minorUnits(
  field: Field,
  text: string,
  { report }: Reading,
  currency: Currency,
): number | null {
  const read = splitQuantity(text, 'a plain number, such as 92.50');
  if ('message' in read) {
    report.error(field, read.comma ? 'decimal-comma' : 'bad-price', read.message, read.hint);
    return null;
  }
  const { value, unit } = read;
  const { code, decimals } = currency;
  const minor = value.top * 10n ** BigInt(decimals);
  if (unit !== '') {
    const hint = 'write a plain number; the currency is said once, at the top of the file';
    report.error(field, 'bad-price', `${quote(text)} is more than a number`, hint);
  } else if (minor % value.bottom !== 0n) {
    const message = `${quote(text)} has more decimals than ${code}, which has ${decimals}`;
    report.error(field, 'bad-price', message);
  } else if (minor < 0n || HIGHEST_PRICE * value.bottom < minor) {
    const message = `${subjectOf(field)} is ${quote(text)}; it must be 0 or more, and sensible`;
    report.error(field, 'out-of-range', message);
  } else return Number(minor / value.bottom);
  return null;
}

/** In minor units; sums over 100,000 sheets then stay exact. */
const HIGHEST_PRICE = 10n ** 10n;

const QUANTITY = new RegExp(`^([+-]?) ?(${NUMBER_PATTERN}) ?(\\D.*)?$`);

function splitQuantity(
  text: string,
  right: string,
): { readonly value: Rational; readonly unit: string } | Misread {
  const plain = plainLetters(text.slice(0, LONGEST_NUMBER));
  const [, sign, number = '', unit = ''] = QUANTITY.exec(plain) ?? [];
  const size = LONGEST_NUMBER < text.length ? null : parseRational(number);
  // A comma behind the number is no unit, and neither is an exponent.
  if (size === null || /^[,._]|^e[+-]?\d/i.test(unit))
    return explainMisread(quote(text), plain, right);
  return { value: sign === '-' ? { top: -size.top, bottom: size.bottom } : size, unit };
}
