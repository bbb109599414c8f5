import type { FileUnit } from '../../model/job.ts';
import type { PartGrain } from '../../model/part.ts';
import { USUAL_LIMITS } from '../../model/resource-limits.ts';
import { fromMm, UNITS_PER_INCH } from '../../model/units.ts';

export interface SheetSize {
  readonly length: number;
  readonly width: number;
}

/** What must lie on a sheet, as it is cut. */
export interface Blank extends SheetSize {
  readonly grain: PartGrain;
}

/** Sheets that are sold nearly everywhere, by area; common practice, no source. */
const COMMON: Readonly<Record<FileUnit, readonly (readonly [number, number])[]>> = {
  mm: [
    [2440, 1220],
    [2500, 1250],
    [3050, 1525],
    [2800, 2070],
    [3660, 1830],
  ],
  in: [
    [96, 48],
    [97, 49],
    [120, 60],
    [144, 72],
  ],
};

/** The smallest common sheet that takes every blank, or where none does one as large as need be; `isCommon` says which. */
export function assumedSheet(
  blanks: readonly Blank[],
  unit: FileUnit,
): SheetSize & { readonly isCommon: boolean } {
  const inUnit = unit === 'mm' ? fromMm(1) : UNITS_PER_INCH;
  const sizes = COMMON[unit].map(([length, width]) => ({
    length: length * inUnit,
    width: width * inUnit,
  }));
  const common = sizes.find((sheet) => blanks.every((blank) => fitsSheet(blank, sheet)));
  if (common !== undefined) return { ...common, isCommon: true };
  return { ...sizeFor(blanks, sizes.at(-1)!, (unit === 'mm' ? 100 : 4) * inUnit), isCommon: false };
}

/** Grain runs along the longer side of a sheet. */
export function fitsSheet({ length, width, grain }: Blank, sheet: SheetSize): boolean {
  const long = Math.max(sheet.length, sheet.width);
  const short = Math.min(sheet.length, sheet.width);
  const along = length <= long && width <= short;
  const across = width <= long && length <= short;
  if (grain === 'any') return along || across;
  return grain === 'along' ? along : across;
}

const LONGEST_SIDE = fromMm(USUAL_LIMITS['sheet-length']);

/** Whether a sheet may have such a side. */
export function isSheetSide(side: number): boolean {
  return 0 < side && side <= LONGEST_SIDE;
}

/** In whole `steps`, with each blank lying as its grain says, else its longer side along. */
function sizeFor(blanks: readonly Blank[], least: SheetSize, step: number): SheetSize {
  let { length, width } = least;
  for (const blank of blanks) {
    const isTurned =
      blank.grain === 'across' || (blank.grain === 'any' && blank.width > blank.length);
    length = Math.max(length, isTurned ? blank.width : blank.length);
    width = Math.max(width, isTurned ? blank.length : blank.width);
  }
  const whole = (size: number) =>
    step * Math.min(Math.ceil(size / step), Math.floor(LONGEST_SIDE / step));
  const longer = whole(Math.max(length, width));
  // Which way the grain of a square sheet runs nobody could say.
  const isSquare = longer === whole(width);
  return { length: isSquare ? whole(longer + step) : longer, width: whole(width) };
}
