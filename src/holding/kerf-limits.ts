/**
 * How much kerf may be open so that a thing is still held so many times over.
 *
 * A thing feels the open kerf only through the vacuum. So the least vacuum that does is looked for
 * first, on the grid of 0.01 kPa to which the vacuum is rounded, and then the most kerf that leaves
 * as much; the second step is the same for all things of a sheet and is remembered.
 * Cost: some ten stands a thing and end of the bands, and some 25 vacuums for each vacuum met.
 * Degenerate: infinite where even the whole kerf of the sheet leaves enough, negative where no kerf
 * does.
 */
import { type BandEnd, vacuumAt } from './air.ts';
import type { Body } from './body.ts';
import { type Setting, standAt } from './stand.ts';

/** Margins that a thing needs; at the low end null where it does not matter. */
export interface Needed {
  readonly margin: number;
  readonly marginLow: number | null;
}

/** For a sheet with so much kerf in all, the most open kerf in micrometres for a body and its needs. */
export function kerfLimits(
  setting: Setting,
  wholeUm: number,
): (body: Body, needed: Needed) => number {
  const ends = { nominal: endOf(setting, wholeUm, 'nominal'), low: endOf(setting, wholeUm, 'low') };
  return (body, { margin, marginLow }) => {
    const nominal = limitOf(setting, ends.nominal, body, margin);
    if (marginLow === null || nominal < 0) return nominal;
    return Math.min(nominal, limitOf(setting, ends.low, body, marginLow));
  };
}

/** Vacuums are in hundredths of a kPa. */
interface End {
  readonly end: BandEnd;
  readonly deepest: number;
  readonly shallowest: number;
  /** The most kerf that leaves a vacuum which is more than the shallowest and no more than the deepest. */
  readonly mostUm: (vacuum: number) => number;
}

function endOf({ air }: Setting, wholeUm: number, end: BandEnd): End {
  const vacuum = (openUm: number): number => Math.round(vacuumAt(air, openUm / 1000, end) * 100);
  const known = new Map<number, number>();
  const mostUm = (needed: number): number => {
    const most = known.get(needed) ?? lastWhere(0, wholeUm, (openUm) => vacuum(openUm) >= needed);
    known.set(needed, most);
    return most;
  };
  return { end, deepest: vacuum(0), shallowest: vacuum(wholeUm), mostUm };
}

function limitOf(
  setting: Setting,
  { end, deepest, shallowest, mostUm }: End,
  body: Body,
  least: number,
): number {
  const isHeld = (vacuum: number): boolean =>
    standAt(setting, body, vacuum / 100, { end }).margins.least >= least;
  if (isHeld(shallowest)) return Number.POSITIVE_INFINITY;
  if (!isHeld(deepest)) return -1;
  return mostUm(lastWhere(shallowest, deepest, (vacuum) => !isHeld(vacuum)) + 1);
}

/** The last whole number from `first`, for which the test holds, to `end`, for which it does not; it turns once between them. */
function lastWhere(first: number, end: number, test: (value: number) => boolean): number {
  let [low, high] = [first, end];
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (test(middle)) low = middle;
    else high = middle;
  }
  return low;
}
