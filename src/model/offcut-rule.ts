import { type Box, boxArea } from '../geometry/box.ts';
import { fromMm, UNITS_PER_INCH } from './units.ts';

/** Which leftovers are kept, and which of them are wanted most. */
export interface OffcutRule {
  /** An offcut has to measure at least this, one way round or the other. */
  readonly short: number;
  readonly long: number;
  /** What makes one worth more: its area, or that it is as long or as wide as the sheet. */
  readonly prefer: 'area' | 'strips';
}

/** Where the file says nothing. Common practice, no source. */
export const USUAL_OFFCUTS: Readonly<Record<'mm' | 'in', OffcutRule>> = {
  mm: { short: fromMm(150), long: fromMm(300), prefer: 'area' },
  in: { short: 6 * UNITS_PER_INCH, long: 12 * UNITS_PER_INCH, prefer: 'area' },
};

/** How many times its area a leftover is worth that is as long or as wide as the sheet, where strips are preferred. */
const STRIP_FACTOR = 2;
/** What is too small to keep is worth next to nothing, however long it is: it only decides where nothing else does. */
const TOO_SMALL_FACTOR = 2 ** -20;

export function isWorthKeeping({ minX, minY, maxX, maxY }: Box, rule: OffcutRule): boolean {
  const [short, long] = [maxX - minX, maxY - minY].sort((a, b) => a - b);
  return long! >= rule.long && short! >= rule.short;
}

/** How much a leftover of a sheet is wanted, in squared base lengths. */
export function offcutWorth(box: Box, usable: Box, rule: OffcutRule): number {
  const isStrip =
    box.maxX - box.minX === usable.maxX - usable.minX ||
    box.maxY - box.minY === usable.maxY - usable.minY;
  const wanted = rule.prefer === 'strips' && isStrip ? STRIP_FACTOR : 1;
  return boxArea(box) * (isWorthKeeping(box, rule) ? wanted : TOO_SMALL_FACTOR);
}
