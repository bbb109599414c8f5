import { fromMm } from '../../model/units.ts';
import { parseSize } from '../sizes.ts';
import { quote } from '../visible.ts';
import type { ListForm } from './list-form.ts';
import { type ListLength, lengthText, readListLength } from './list-lengths.ts';
import { type Assumed, plainText } from './list-parts.ts';
import type { Separator } from './list-rows.ts';
import { isSheetSide, type SheetSize } from './list-sheets.ts';
import type { ListUnit } from './list-units.ts';

/** What a person says of a list; null is found out. Lengths are texts with a unit or in that of the list. */
export interface ListOptions {
  readonly columns: string | null;
  readonly separator: Separator | null;
  readonly unit: ListUnit | null;
  readonly material: string | null;
  readonly thickness: string | null;
  readonly sheet: string | null;
  readonly band: string | null;
}

/** What is assumed of every row, and the sheet that the person named. */
export interface Given extends Assumed {
  readonly sheet: SheetSize | null;
}

/** A thin band of plastic or veneer; common practice, no source. */
const USUAL_BAND = fromMm(1);

export function readGiven(
  options: ListOptions,
  form: ListForm,
): { readonly given: Given } | { readonly faults: readonly string[] } {
  const faults: string[] = [];
  const lengthOf = (name: 'thickness' | 'band', role: 'thickness' | 'left'): ListLength | null => {
    const text = options[name];
    if (text === null) return null;
    const unit = form.fileUnit;
    const read = readListLength(text, { ...form.lengthOf(role), habit: 'point', unit });
    if (!('why' in read)) return read;
    faults.push(`--${name}: ${read.why}`);
    return null;
  };
  const thickness = lengthOf('thickness', 'thickness');
  const band = lengthOf('band', 'left');
  const sheet = options.sheet === null ? null : readSheet(options.sheet, form);
  if (options.sheet !== null && sheet === null)
    faults.push(`--sheet takes a size such as 2440x1220 or 96inx48in, not ${quote(options.sheet)}`);
  if (faults.length > 0) return { faults };
  const usual = { length: USUAL_BAND, text: lengthText(USUAL_BAND, 'mm', form.fileUnit) };
  const material = plainText(options.material ?? '') || null;
  return { given: { material, thickness, band: band ?? usual, sheet } };
}

function readSheet(text: string, { fileUnit }: ListForm): SheetSize | null {
  const read = parseSize(text, fileUnit);
  if (!read.ok) return null;
  const [length, width] = read.sides.map((side) => (side.ok ? side.length : 0)) as [number, number];
  return [length, width].every(isSheetSide) ? { length, width } : null;
}
