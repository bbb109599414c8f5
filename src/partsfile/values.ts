import type { Point } from '../geometry/point.ts';
import type { FileUnit } from '../model/job.ts';
import { NO_SIDES, SIDES, type Sides } from '../model/part.ts';
import { MAX_BOARD_LENGTH, MAX_SHEET_SPAN } from '../model/units.ts';
import { type LengthRead, parseLength, showLength } from './lengths.ts';
import type { Report, Spot } from './report.ts';
import { parseSize } from './sizes.ts';
import { child, type Field, isFlawed, itemsOf, subjectOf, textOf } from './tree.ts';
import { isUnprintable, quote } from './visible.ts';

/**
 * Readers of single values. Each takes a field whose kind the schema has checked, reports what is wrong with it, and
 * returns null where anything was: then the value is not known, and whatever needs it says nothing.
 */

/** What every reader needs to know of the file. */
export interface Reading {
  readonly unit: FileUnit;
  readonly report: Report;
}

/** The lengths that a value may have, both ends included. */
export interface LengthRange {
  readonly min: number;
  readonly max: number;
}

/** More than nothing, and no longer than a sheet can be. */
export const POSITIVE: LengthRange = { min: 1, max: MAX_SHEET_SPAN };

/** Nothing, or up to the longest sheet. */
export const NOT_NEGATIVE: LengthRange = { min: 0, max: MAX_SHEET_SPAN };

/** More than nothing, and no longer than a board can be. */
export const ALONG_BOARD: LengthRange = { min: 1, max: MAX_BOARD_LENGTH };

/** A coordinate, on either side of the origin. */
export const COORDINATE: LengthRange = { min: -MAX_SHEET_SPAN, max: MAX_SHEET_SPAN };

export function readLength(field: Field, reading: Reading, range: LengthRange): number | null {
  if (isFlawed(field)) return null;
  return acceptLength(field, parseLength(textOf(field), reading.unit), reading, range);
}

/** The two lengths of `2440 x 1220` or `[2440, 1220]`. */
export function readSize(
  field: Field,
  reading: Reading,
  range: LengthRange,
): readonly [number, number] | null {
  if (isFlawed(field)) return null;
  if (field.tree.kind === 'list') return readPair(field, reading, range);
  const read = parseSize(textOf(field), reading.unit);
  if (!read.ok) {
    reading.report.error(field, 'bad-size', read.message, read.hint);
    return null;
  }
  const [first, second] = read.sides.map((side) => acceptLength(field, side, reading, range));
  return typeof first === 'number' && typeof second === 'number' ? [first, second] : null;
}

export function readPoint(field: Field, reading: Reading): Point | null {
  if (isFlawed(field)) return null;
  const pair = readPair(field, reading, COORDINATE);
  return pair === null ? null : { x: pair[0], y: pair[1] };
}

/** A length for each side; sides that are left out are 0. */
export function readSides(field: Field, reading: Reading): Sides | null {
  if (isFlawed(field)) return null;
  const sides = { ...NO_SIDES };
  let sound = true;
  for (const side of SIDES) {
    const one = child(field, side);
    if (one === null) continue;
    const length = readLength(one, reading, NOT_NEGATIVE);
    if (length === null) sound = false;
    else sides[side] = length;
  }
  return sound ? sides : null;
}

/** A word that the schema has compared with its list. */
export function readWord<Word extends string>(field: Field | null, usual: NoInfer<Word>): Word {
  return field === null || isFlawed(field) ? usual : (textOf(field) as Word);
}

export function readYes(field: Field | null): boolean {
  return field !== null && /^(yes|true)$/i.test(textOf(field));
}

/** A whole number that the schema has compared with its range. */
export function readWhole(field: Field | null): number | null {
  return field?.tree.kind === 'scalar' ? Number(field.tree.value) : null;
}

/** What people call things; the limits keep labels and drawings readable, and the reports safe. */
const LONGEST_NAME = 200;
const LONGEST_NOTE = 1000;

/** A name of 1 to 200 letters in one line, in the composed form of Unicode, so that equal names are equal texts. */
export function readName(field: Field, { report }: Reading): string | null {
  return isFlawed(field) ? null : acceptName(textOf(field), field, report);
}

/** As `readName`, for a text that is a key. */
export function acceptName(text: string, spot: Spot, report: Report): string | null {
  const name = plainName(text);
  const subject = subjectOf(spot);
  const letters = Array.from(name).length;
  if (name === '') report.error(spot, 'bad-name', `${subject} is empty`, 'give it a name');
  else if (isUnprintable(name)) {
    const message = `${quote(name)} has a character that cannot be seen`;
    report.error(
      spot,
      'bad-name',
      message,
      'names are letters, digits, blanks and signs in one line',
    );
  } else if (LONGEST_NAME < letters) {
    const message = `${quote(name)} has ${letters} letters`;
    report.error(spot, 'bad-name', message, `shorten it to ${LONGEST_NAME} letters at most`);
  } else return name;
  return null;
}

/** The form in which names are compared. */
export function plainName(text: string): string {
  return text.normalize('NFC').trim();
}

/** A remark of up to 1,000 letters; line ends become blanks. */
export function readNote(field: Field | null, { report }: Reading): string | null {
  if (field === null || isFlawed(field)) return null;
  const note = textOf(field).normalize('NFC').replace(/\s+/gu, ' ').trim();
  if (isUnprintable(note)) {
    const message = `${quote(note)} has a character that cannot be seen`;
    report.error(field, 'bad-name', message, 'notes are letters, digits, blanks and signs');
  } else if (LONGEST_NOTE < Array.from(note).length) {
    const message = `${quote(note)} has ${Array.from(note).length} letters`;
    report.error(field, 'bad-name', message, `shorten it to ${LONGEST_NOTE} letters at most`);
  }
  return note === '' ? null : note;
}

function readPair(
  field: Field,
  reading: Reading,
  range: LengthRange,
): readonly [number, number] | null {
  const [first, second] = itemsOf(field).map((item) => readLength(item, reading, range));
  return typeof first === 'number' && typeof second === 'number' ? [first, second] : null;
}

function acceptLength(
  field: Field,
  read: LengthRead,
  { unit, report }: Reading,
  range: LengthRange,
): number | null {
  if (!read.ok) {
    report.error(field, read.comma ? 'decimal-comma' : 'bad-length', read.message, read.hint);
    return null;
  }
  const { length } = read;
  if (range.min <= length && length <= range.max) return length;
  const message = `${subjectOf(field)} is ${quote(textOf(field))}; it must be ${limitText(length, range, unit)}`;
  report.error(field, 'out-of-range', message, length < range.min ? null : UNIT_HINT);
  return null;
}

const UNIT_HINT = 'is the unit right?';

function limitText(length: number, { min, max }: LengthRange, unit: FileUnit): string {
  if (max < length) return `at most ${showLength(max, unit)}`;
  if (min === 0) return '0 or more';
  // One or two base lengths would be shown as nothing.
  const [least, nothing] = [showLength(min, unit), showLength(0, unit)];
  return least === nothing ? `more than ${nothing}` : `at least ${least}`;
}
