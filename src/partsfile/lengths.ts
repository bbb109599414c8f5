import type { Point } from '../geometry/point.ts';
import { joinedLengths } from '../model/format.ts';
import type { FileUnit } from '../model/job.ts';
import { toMm, UNITS_PER_INCH, UNITS_PER_MM } from '../model/units.ts';
import {
  explainMisread,
  LONGEST_NUMBER,
  type Misread,
  NUMBER_PATTERN,
  negated,
  parseRational,
  plainLetters,
  roundedTimes,
} from './numbers.ts';
import { quote } from './visible.ts';

/**
 * A length in base lengths, with its sign; or why the text is none.
 * `ownUnit` is the unit written with it, in base lengths, or null where it takes the unit of the file.
 */
export type LengthRead =
  | { readonly ok: true; readonly length: number; readonly ownUnit: number | null }
  | ({ readonly ok: false } & Misread);

/** A map, as a name that means something to the language is no unit. */
const BASE_LENGTHS: ReadonlyMap<string, number> = new Map([
  ['mm', UNITS_PER_MM],
  ['cm', 10 * UNITS_PER_MM],
  ['m', 1000 * UNITS_PER_MM],
  ['km', 1_000_000 * UNITS_PER_MM],
  ['in', UNITS_PER_INCH],
  ['inch', UNITS_PER_INCH],
  ['inches', UNITS_PER_INCH],
  ['"', UNITS_PER_INCH],
  ['ft', 12 * UNITS_PER_INCH],
  ['foot', 12 * UNITS_PER_INCH],
  ['feet', 12 * UNITS_PER_INCH],
  ["'", 12 * UNITS_PER_INCH],
]);

const ONE_UNIT = new RegExp(`^([+-]?) ?(${NUMBER_PATTERN}) ?([a-z]+|["'])?\\.?$`, 'i');
const FEET_AND_INCHES = new RegExp(
  `^([+-]?) ?(\\d+) ?(?:'|ft|foot|feet)(?: ?- ?| ?)(${NUMBER_PATTERN}) ?(?:"|in|inch|inches)?$`,
  'i',
);

/** What a length may look like, for hints. */
const LENGTH_EXAMPLES: Readonly<Record<FileUnit, string>> = {
  mm: 'a length such as 18, 18.5 or 3/4in',
  in: 'a length such as 23-1/4, 23.25 or 18mm',
};

/**
 * Reads a length in any of the forms of a workshop: `23-1/4`, `23 1/4"`, `3/4in`, `23.25`, `18mm`, `8' 6-1/2"`.
 * A number without a unit is in `unit`. The value is exact, and finer than 1/8 µm rounded to it. The range is the caller's matter.
 */
export function parseLength(text: string, unit: FileUnit): LengthRead {
  const plain = plainLetters(text.slice(0, LONGEST_NUMBER + 1));
  if (LONGEST_NUMBER < text.length) return misread(text, plain, unit);
  const compound = FEET_AND_INCHES.exec(plain);
  if (compound !== null) {
    const [, sign, feet = '', inches = ''] = compound;
    const value = parseRational(inches);
    if (value === null) return misread(text, plain, unit);
    const total = { top: BigInt(feet) * 12n * value.bottom + value.top, bottom: value.bottom };
    const signed = sign === '-' ? negated(total) : total;
    return {
      ok: true,
      length: roundedTimes(signed, UNITS_PER_INCH),
      ownUnit: UNITS_PER_INCH,
    };
  }
  const [, sign, number = '', own] = ONE_UNIT.exec(plain) ?? [];
  const value = parseRational(number);
  if (value === null) return misread(text, plain, unit);
  const factor = BASE_LENGTHS.get((own ?? unit).toLowerCase());
  if (factor === undefined) return unknownUnit(text, own ?? '');
  const signed = sign === '-' ? negated(value) : value;
  return {
    ok: true,
    length: roundedTimes(signed, factor),
    ownUnit: own === undefined ? null : factor,
  };
}

/** How many base lengths the unit of a file has. */
export function unitLength(unit: FileUnit): number {
  return unit === 'mm' ? UNITS_PER_MM : UNITS_PER_INCH;
}

/** A length as a person would write it in a message: in the file's unit, inches as fractions where they are exact. */
export function showLength(length: number, unit: FileUnit): string {
  return `${showNumber(length, unit)} ${unit}`;
}

/** As `showLength`, for two: `2440 × 1220 mm`, `96" × 48"`. */
export function showSize(length: number, width: number, unit: FileUnit): string {
  return joinedLengths([showNumber(length, unit), showNumber(width, unit)], unit);
}

/** A place as a person would write it in a message: `(50, 40 mm)`. */
export function showPlace({ x, y }: Point, unit: FileUnit): string {
  return `(${showNumber(x, unit)}, ${showLength(y, unit)})`;
}

/** What a sheet without a name is known by in records: its size as it would be written. */
export function usualName(length: number, width: number, unit: FileUnit): string {
  return `${showNumber(length, unit)} x ${showNumber(width, unit)}`;
}

function showNumber(length: number, unit: FileUnit): string {
  if (unit === 'mm') return String(Math.round(toMm(length) * 1000) / 1000);
  const sixtyFourths = length / (UNITS_PER_INCH / 64);
  if (!Number.isInteger(sixtyFourths))
    return String(Math.round((length / UNITS_PER_INCH) * 1e4) / 1e4);
  return showFraction(sixtyFourths);
}

function showFraction(sixtyFourths: number): string {
  const sign = sixtyFourths < 0 ? '-' : '';
  const size = Math.abs(sixtyFourths);
  const whole = Math.floor(size / 64);
  let top = size % 64;
  let bottom = 64;
  while (top !== 0 && top % 2 === 0) {
    top /= 2;
    bottom /= 2;
  }
  if (top === 0) return `${sign}${whole}`;
  return whole === 0 ? `${sign}${top}/${bottom}` : `${sign}${whole}-${top}/${bottom}`;
}

function misread(text: string, plain: string, unit: FileUnit): LengthRead {
  return { ok: false, ...explainMisread(quote(text), plain, LENGTH_EXAMPLES[unit]) };
}

function unknownUnit(text: string, own: string): LengthRead {
  return {
    ok: false,
    comma: false,
    message: `${quote(text)} has a unit that is not known here: ${quote(own)}`,
    hint: 'lengths take mm, cm, m, in or ft, or no unit for the unit of the file',
  };
}
