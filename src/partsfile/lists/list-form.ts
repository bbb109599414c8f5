import type { FileUnit } from '../../model/job.ts';
import { SIDES } from '../../model/part.ts';
import { fromMm, MAX_SHEET_SPAN, toMm, UNITS_PER_INCH } from '../../model/units.ts';
import { type LengthRange, POSITIVE } from '../values.ts';
import type { ColumnRole } from './column-words.ts';
import { type Column, type Columns, columnName } from './columns.ts';
import type { LengthForm } from './list-lengths.ts';
import { decimalHabits, type Habit } from './list-numbers.ts';
import type { Row } from './list-rows.ts';
import { isInches, type ListUnit } from './list-units.ts';
import { isNone, readBand } from './list-words.ts';

/** How the cells of a list are meant, found from all of its rows before any is read. */
export interface ListForm {
  readonly columns: Columns['byRole'];
  readonly fileUnit: FileUnit;
  /** Where the unit comes from; null where nothing said it. */
  readonly unitFrom: string | null;
  /** Whether plain thicknesses are in millimetres though plain lengths are not. */
  readonly isThicknessApart: boolean;
  readonly lengthOf: (role: ColumnRole) => LengthForm;
  readonly countHabit: Habit;
  /** Whether a 1 in a column of bands says only that there is one. */
  readonly onesAreMarks: boolean;
}

/** Half a millimetre of veneer up to what the reader of materials takes. */
const THICKNESS: LengthRange = { min: fromMm(0.5), max: fromMm(300) };
/** No panel is thicker, so in a list by cm or inches a thickness of 18 is in millimetres; posts of 3 1/2 in are thinner. */
const THICKEST = fromMm(100);
/** Thicker edgings are solid wood, glued on as a part of their own. */
const BAND: LengthRange = { min: 1, max: fromMm(10) };

const RANGES: Partial<Record<ColumnRole, LengthRange>> = {
  thickness: THICKNESS,
  left: BAND,
  right: BAND,
  bottom: BAND,
  top: BAND,
};

const MEASURED: readonly ColumnRole[] = ['length', 'width', 'thickness', ...SIDES];
const PER_UNIT: Readonly<Record<ListUnit, number>> = {
  mm: fromMm(1),
  cm: fromMm(10),
  m: fromMm(1000),
  in: UNITS_PER_INCH,
};

export function findForm(
  rows: readonly Row[],
  columns: Columns['byRole'],
  asked: ListUnit | null,
): ListForm {
  const valuesOf = (role: ColumnRole) => valuesIn(rows, columns.get(role));
  const sizes = valuesOf('size').flatMap((value) => value.split(SIZE_SIGN));
  const { unit, from } = findUnit(
    columns,
    [...valuesOf('length'), ...valuesOf('width'), ...sizes],
    asked,
  );
  const isThicknessApart =
    !columns.get('thickness')?.unit && wouldBeTooThick(valuesOf('thickness'), unit);
  const unitOf = (role: ColumnRole) =>
    role === 'thickness' && isThicknessApart ? 'mm' : (columns.get(role)?.unit ?? unit);
  const rangeOf = (role: ColumnRole) => RANGES[role] ?? POSITIVE;
  const roles: readonly ColumnRole[] = [...MEASURED, 'size', 'count'];
  const habits = decimalHabits(
    roles.map((role) => ({
      values: role === 'size' ? sizes : valuesOf(role),
      most: role === 'count' ? 0 : rangeOf(role).max / PER_UNIT[unitOf(role)],
    })),
  );
  const habitOf = (role: ColumnRole) => habits[roles.indexOf(role)] ?? 'point';
  const fileUnit = unit === 'in' ? 'in' : 'mm';
  return {
    columns,
    fileUnit,
    unitFrom: from,
    isThicknessApart,
    lengthOf: (role) => ({
      habit: habitOf(role),
      unit: unitOf(role),
      fileUnit,
      range: rangeOf(role),
    }),
    countHabit: habitOf('count'),
    onesAreMarks: fileUnit === 'in' || SIDES.every((side) => hasOnlyOnes(valuesOf(side))),
  };
}

/** Between the numbers of a size. */
export const SIZE_SIGN = / ?[x×*] ?/i;

function valuesIn(rows: readonly Row[], column: Column | undefined): readonly string[] {
  if (column === undefined) return [];
  return rows.map(({ cells }) => cells[column.index] ?? '').filter((cell) => !isNone(cell));
}

function wouldBeTooThick(values: readonly string[], unit: ListUnit): boolean {
  if (unit === 'mm') return false;
  return values
    .filter((value) => /^[\d.,]+$/.test(value))
    .some((value) => Number.parseFloat(value.replace(',', '.')) * PER_UNIT[unit] > THICKEST);
}

/** What plain lengths are in: as the option says, as the header does, as fractions and inch marks show, else millimetres. */
function findUnit(
  columns: Columns['byRole'],
  values: readonly string[],
  asked: ListUnit | null,
): { readonly unit: ListUnit; readonly from: string | null } {
  if (asked !== null) return { unit: asked, from: 'by --unit' };
  for (const role of ['length', 'width', 'size'] as const) {
    const column = columns.get(role);
    if (column?.unit)
      return { unit: column.unit, from: `as the header says, ${columnName(column)}` };
  }
  const inches = values.filter(isInches).length;
  const plain = values
    .filter((value) => /^[\d.,' ]+$/.test(value))
    .map((value) => Number.parseFloat(value.replace(/[' ]/g, '')));
  if (inches > 0 && plain.every((value) => value <= LARGEST_INCHES))
    return { unit: 'in', from: 'as fractions or inch marks show' };
  const own = values.every((value) => /\d ?(?:mm|cm|m)$/i.test(value));
  return { unit: 'mm', from: own ? 'as written with each length' : null };
}

/** No sheet is longer, so a larger plain number in a list with fractions cannot be inches. */
const LARGEST_INCHES = toMm(MAX_SHEET_SPAN) / 25.4;

function hasOnlyOnes(values: readonly string[]): boolean {
  return values.every((value) => {
    const band = readBand(value);
    return !('value' in band) || typeof band.value === 'string' || band.value.thick === '1';
  });
}
