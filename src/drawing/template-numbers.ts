import { lengthNumber } from '../model/format.ts';
import type { FileUnit } from '../model/job.ts';
import { fromMm, UNITS_PER_INCH } from '../model/units.ts';

/** 0.01 mm, as far as an outline read from a drawing may be from the curve that was meant. */
const MEANT = 80;

/** A length in millimetres that was reckoned rather than given: the 64th of an inch that was meant, where there is one. */
export function measuredNumber(mm: number, unit: FileUnit): string {
  const length = fromMm(mm);
  if (unit === 'mm') return lengthNumber(length, unit);
  const step = UNITS_PER_INCH / 64;
  const near = Math.round(length / step) * step;
  const sign = length < 0 ? '-' : '';
  return `${sign}${lengthNumber(Math.abs(Math.abs(near - length) <= MEANT ? near : length), unit)}`;
}
