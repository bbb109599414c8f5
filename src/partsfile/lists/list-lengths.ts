import { lengthNumber } from '../../model/format.ts';
import type { FileUnit } from '../../model/job.ts';
import { toMm, UNITS_PER_INCH } from '../../model/units.ts';
import { parseLength, showLength } from '../lengths.ts';
import type { LengthRange } from '../values.ts';
import { quote } from '../visible.ts';
import { type Habit, plainNumber } from './list-numbers.ts';
import { isInches, type ListUnit, plainUnit } from './list-units.ts';

/** A length of a list, with what it is written as in a parts file. */
export interface ListLength {
  readonly length: number;
  readonly text: string;
}

export type ListLengthRead = ListLength | { readonly why: string };

/** How the values of a column are meant. */
export interface LengthForm {
  readonly habit: Habit;
  /** Of plain numbers. */
  readonly unit: ListUnit;
  readonly fileUnit: FileUnit;
  readonly range: LengthRange;
}

export function readListLength(value: string, form: LengthForm): ListLengthRead {
  if (value.startsWith('='))
    return { why: `${quote(value)} is a formula: save the list with values` };
  const plain = plainNumber(plainUnit(value), form.habit);
  if (plain === null)
    return { why: `${quote(value)} may be thousands or decimals: its column has both forms` };
  const own = parseLength(plain, 'mm');
  if (!own.ok) return { why: `${quote(value)} is no length` };
  if (own.ownUnit === null && form.unit !== 'in' && isInches(plain))
    return { why: `${quote(value)} is a fraction without an inch mark among ${form.unit}` };
  const read = own.ownUnit === null ? parseLength(`${plain}${form.unit}`, 'mm') : own;
  if (!read.ok) return { why: `${quote(value)} is no length` };
  const { length } = read;
  const { min, max } = form.range;
  if (length < min)
    return {
      why: length <= 0 ? `${quote(value)} is not more than 0` : `${quote(value)} is too small`,
    };
  if (max < length)
    return {
      why: `${quote(value)} is more than ${showLength(max, form.fileUnit)}; is the unit right?`,
    };
  const inInches = read.ownUnit === UNITS_PER_INCH || read.ownUnit === 12 * UNITS_PER_INCH;
  return { length, text: lengthText(length, inInches ? 'in' : 'mm', form.fileUnit) };
}

/** As a parts file in `fileUnit` has it, exactly; a length of the other system keeps its unit. */
export function lengthText(length: number, own: FileUnit, fileUnit: FileUnit): string {
  const text = lengthNumber(length, own);
  const read = parseLength(text, own);
  if (!read.ok || read.length !== length) return `${toMm(length)}${fileUnit === 'mm' ? '' : 'mm'}`;
  return own === fileUnit ? text : `${text}${own}`;
}
