import { chainCeil, chainFloor, leftAt, rightAt } from './chains.ts';
import { type Crowd, type CrowdSheet, formIndex, type Place } from './crowd.ts';
import type { Form } from './forms.ts';
import { lossAt, type Probe, rangeOf } from './probe.ts';

/** At most as many lines are searched, and as many places looked at on each. */
const MOST_LINES = 6;
const MOST_PLACES = 6;

/**
 * Moves a body along level and upright lines in turn, each time to the place of least loss among the exact contacts on the line.
 *
 * Idea: on a line every forbidden sum is one open interval, and going into it the loss only rises towards its middle. So the least loss lies
 * at an end of some interval. Of all ends those that the fewest others cover, by weight, are looked at.
 * Source: Umetani, Yagiura, Imahori, Imamichi, Nonobe & Ibaraki 2009, "Solving the irregular strip packing problem via guided local
 * search for overlap minimization", International Transactions in Operational Research 16.
 * Cost: the square of the number of sums on the line, for few lines.
 */
export function slideOnLines(crowd: Crowd, i: number, start: Probe): Probe {
  let best = start;
  let idle = 0;
  for (let line = 0; line < MOST_LINES && idle < 2 && best.loss > 0; line++) {
    const found = bestOnLine(crowd, i, best, line % 2 === 0);
    if (found === null) idle++;
    else {
      best = found;
      idle = 0;
    }
  }
  return best;
}

/** An open interval of a line, and what it weighs. */
export interface Cover {
  low: number;
  high: number;
  readonly weight: number;
}

function bestOnLine(crowd: Crowd, i: number, from: Probe, level: boolean): Probe | null {
  const { sheet, orientation } = from;
  const range = rangeOf(crowd, i, sheet, orientation);
  if (range === null) return null;
  const form = formIndex(crowd.setup, crowd.body[i] as number, orientation);
  const covers = coversOf(crowd, i, from, level);
  let { x, y, loss } = from;
  for (const at of leastCovered(
    covers,
    level ? range.minX : range.minY,
    level ? range.maxX : range.maxY,
  )) {
    const nextX = level ? at : from.x;
    const nextY = level ? from.y : at;
    const next = lossAt(crowd, i, form, sheet, nextX, nextY, loss);
    if (next < loss) [x, y, loss] = [nextX, nextY, next];
  }
  crowd.work += covers.length * covers.length;
  return loss < from.loss ? { sheet, orientation, x, y, loss } : null;
}

/** The ends of intervals, and of the whole line, that the least weight of other intervals covers. */
function leastCovered(covers: readonly Cover[], least: number, most: number): readonly number[] {
  const places: number[] = [];
  const weights: number[] = [];
  const consider = (at: number) => {
    let sum = 0;
    const enough =
      places.length < MOST_PLACES ? Number.POSITIVE_INFINITY : (weights.at(-1) as number);
    for (let k = 0; k < covers.length && sum < enough; k++) {
      const { low, high, weight } = covers[k] as Cover;
      if (low < at && at < high) sum += weight;
    }
    let rank = places.length;
    while (rank > 0 && sum < (weights[rank - 1] as number)) rank--;
    if (rank === MOST_PLACES) return;
    places.splice(rank, 0, at);
    weights.splice(rank, 0, sum);
    if (places.length > MOST_PLACES) {
      places.pop();
      weights.pop();
    }
  };
  consider(least);
  if (most > least) consider(most);
  for (const { low, high } of covers) {
    if (low > least && low < most) consider(low);
    if (high > least && high < most) consider(high);
  }
  return places;
}

/** The open intervals of the line that the other bodies on the sheet forbid, those of one body united where they overlap. */
export function coversOf(crowd: Crowd, i: number, from: Place, level: boolean): Cover[] {
  const { setup, form, x, y, weight, total, body, left, right, bottom, top } = crowd;
  const own = formIndex(setup, body[i] as number, from.orientation);
  const { reach } = setup.forms[own] as Form;
  const [least, most] = level
    ? [from.y + reach.minY, from.y + reach.maxY]
    : [from.x + reach.minX, from.x + reach.maxX];
  const [lows, highs] = level ? [bottom, top] : [left, right];
  const covers: Cover[] = [];
  for (const j of (crowd.sheets[from.sheet] as CrowdSheet).members) {
    if (least >= (highs[j] as number) || most <= (lows[j] as number) || j === i) continue;
    const sums = setup.forbidden(own, form[j] as number);
    const t = level ? from.y - (y[j] as number) : from.x - (x[j] as number);
    const at = level ? (x[j] as number) : (y[j] as number);
    const first = covers.length;
    for (const sum of sums) {
      if (level ? t <= sum.minY || t >= sum.maxY : t <= sum.minX || t >= sum.maxX) continue;
      const low = at + (level ? leftAt(sum, t) : chainFloor(sum.lower, t));
      const high = at + (level ? rightAt(sum, t) : chainCeil(sum.upper, t));
      addCover(covers, first, { low, high, weight: weight[i * total + j] as number });
    }
    crowd.work += 4 * sums.length;
  }
  return covers;
}

/** Adds an interval to those from index `first` on, which do not overlap, and keeps it so; touching intervals leave their contact free. */
function addCover(covers: Cover[], first: number, cover: Cover): void {
  let { low, high } = cover;
  for (let k = covers.length - 1; k >= first; k--) {
    const other = covers[k] as Cover;
    if (other.low >= high || low >= other.high) continue;
    low = Math.min(low, other.low);
    high = Math.max(high, other.high);
    covers[k] = covers[covers.length - 1] as Cover;
    covers.pop();
  }
  cover.low = low;
  cover.high = high;
  covers.push(cover);
}
