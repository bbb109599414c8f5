import type { Part } from './part.ts';
import type { SheetStock } from './stock.ts';

/**
 * Turns in degrees, ascending, at which a part may lie on a sheet. Its own turns are counted on each sheet from the position
 * in which the grain is right there: a part across the grain lies turned by 90 on an ordinary sheet, and half a turn from
 * there is 270. On a sheet without grain it lies as it is drawn, whatever the other sheets of the material are like.
 */
export function turnsOn(
  { grain, turns }: Pick<Part, 'grain' | 'turns'>,
  { grainAxis }: Pick<SheetStock, 'grainAxis'>,
): readonly number[] {
  if (grain === 'any' || grainAxis === null) return turns;
  const start = (grain === 'along') === (grainAxis === 'x') ? 0 : 90;
  return turns.filter((turn) => turn % 180 === 0).map((turn) => start + turn);
}
