import { type Box, isEmptyBox, sameBox } from '../geometry/box.ts';
import type { SawCut } from './layout.ts';
import type { SheetStock } from './stock.ts';

/** What a cut leaves on the low and on the high side of the kerf; either may be empty, where the blade runs over an edge. */
export interface SawnHalves {
  readonly low: Box;
  readonly high: Box;
}

export function sawnHalves(
  { panel, axis, at }: Pick<SawCut, 'panel' | 'axis' | 'at'>,
  kerf: number,
): SawnHalves {
  return axis === 'x'
    ? { low: { ...panel, maxY: at }, high: { ...panel, minY: at + kerf } }
    : { low: { ...panel, maxX: at }, high: { ...panel, minX: at + kerf } };
}

/** The whole sheet, before any cut. */
export function wholeSheet({ length, width }: SheetStock): Box {
  return { minX: 0, minY: 0, maxX: length, maxY: width };
}

/** All panels that lie there after the last cut: pieces, offcuts and waste. */
export function panelsLeft(sheet: Box, cuts: readonly SawCut[], kerf: number): readonly Box[] {
  return cuts.reduce<readonly Box[]>(
    (inHand, cut) => {
      const { low, high } = sawnHalves(cut, kerf);
      const others = inHand.filter((panel) => !sameBox(panel, cut.panel));
      return [...others, ...[low, high].filter((half) => !isEmptyBox(half))];
    },
    [sheet],
  );
}

/** How long the cut is. */
export function sawnLength({ panel, axis }: Pick<SawCut, 'panel' | 'axis'>): number {
  return axis === 'x' ? panel.maxX - panel.minX : panel.maxY - panel.minY;
}

/** What lies between fence and blade: what the fence is set to. */
export function fenceSetting({ panel, axis, at, fence }: SawCut, kerf: number): number {
  const [low, high] = axis === 'x' ? [panel.minY, panel.maxY] : [panel.minX, panel.maxX];
  return fence === 'low' ? at - low : high - at - kerf;
}
