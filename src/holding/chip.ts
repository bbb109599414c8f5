/**
 * How thick the chip of a milling cutter is.
 *
 * A tooth meets the stock at an angle that grows from nothing to the front of the cut; the chip
 * there is as thick as the feed of one tooth.
 * Source: geometry of peripheral milling; the usual feeds are a cutter supplier's public chart,
 * common practice.
 */
import type { Family } from '../model/stock.ts';
import { CHIP_LOAD_BY_DEPTH, CHIP_LOADS_IN, type ChipStock } from './constants.ts';

/** Feed of one tooth, mm: also the greatest chip thickness of a full-width cut. */
export function feedPerToothMm(feedMmPerMin: number, spindleRpm: number, flutes: number): number {
  return feedMmPerMin / (spindleRpm * flutes);
}

/** Mean chip thickness over the arc of engagement, mm; `engagement` is the width of cut over the diameter, 0 to 1. */
export function meanChipMm(feedPerTooth: number, engagement: number): number {
  const arc = Math.acos(1 - 2 * engagement);
  return (feedPerTooth * 2 * engagement) / arc;
}

/**
 * The usual range of the feed per tooth in inches for a cutter and a depth in inches; straight
 * between the rows of the chart, the nearest row outside it.
 */
export function usualChipIn(
  family: Family,
  diameterIn: number,
  depthIn: number,
): { readonly low: number; readonly high: number } {
  const share = interpolate(CHIP_LOAD_BY_DEPTH, depthIn / diameterIn);
  const stock = CHIP_STOCKS[family];
  const end = (i: 0 | 1): number =>
    share *
    interpolate(
      CHIP_LOADS_IN.map((row) => [row.diameterIn, row.loads[stock][i]] as const),
      diameterIn,
    );
  return { low: end(0), high: end(1) };
}

const CHIP_STOCKS: Readonly<Record<Family, ChipStock>> = {
  plywood: 'plywood',
  'softwood-plywood': 'plywood',
  mdf: 'panel',
  particleboard: 'panel',
  osb: 'panel',
  hardboard: 'panel',
  softwood: 'softwood',
  hardwood: 'hardwood',
};

/** The value at `at` on straight lines between ordered points; beyond the ends that of the end. */
function interpolate(points: readonly (readonly [number, number])[], at: number): number {
  const next = points.findIndex(([x]) => x >= at);
  const [x1, y1] = points[next < 0 ? points.length - 1 : next] as readonly [number, number];
  const [x0, y0] = points[Math.max(0, next - 1)] as readonly [number, number];
  return next <= 0 ? y1 : y0 + ((at - x0) / (x1 - x0)) * (y1 - y0);
}
