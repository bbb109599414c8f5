import type { PartGrain } from '../model/part.ts';
import type { SheetStock } from '../model/stock.ts';

/** The words for allowed turns. */
export type TurnWord = 'none' | 'half' | 'quarter' | 'any';

const QUARTERS = [0, 90, 180, 270] as const;
const STEP_DEG = 15;

/**
 * Allowed turns in degrees, ascending, before the grain of a sheet is looked at.
 * `none` and `half` are counted from the position in which the grain is right: a part across the grain lies turned by 90
 * on an ordinary sheet, and half a turn from there is 270. Left out, the grain alone decides among the quarter turns.
 */
export function allowedTurns(
  word: TurnWord | null,
  grain: PartGrain,
  sheets: readonly SheetStock[],
): readonly number[] {
  if (word === null || word === 'quarter') return QUARTERS;
  if (word === 'any') return Array.from({ length: 360 / STEP_DEG }, (_, i) => i * STEP_DEG);
  const own = word === 'none' ? [0] : [0, 180];
  const starts = new Set(sheets.map((sheet) => (grainAllows(grain, 0, sheet.grainAxis) ? 0 : 90)));
  if (starts.size === 0) starts.add(0);
  return [...starts].flatMap((start) => own.map((turn) => start + turn)).sort((a, b) => a - b);
}

/** Whether a part turned by `turn` has its grain along that of the sheet. */
export function grainAllows(
  grain: PartGrain,
  turn: number,
  grainAxis: SheetStock['grainAxis'],
): boolean {
  if (grain === 'any' || grainAxis === null) return true;
  const alongX = (grain === 'along') === (grainAxis === 'x');
  return turn % 180 === (alongX ? 0 : 90);
}
