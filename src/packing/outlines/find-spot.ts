import type { WorkBudget } from '../work.ts';
import { type Convex, chainCeil, chainFloor } from './chains.ts';
import type { Form } from './forms.ts';
import type { Fixed, Setup } from './setup.ts';

/**
 * The leftmost free place of a form on a sheet, and of the leftmost ones the lowest.
 *
 * Idea: on an upright line the forbidden sums of all forms that lie there are open intervals of y that are not allowed; what is left is free,
 * ends included. Where nothing is free, some of the intervals make a chain from the bottom to the top, each beginning inside the one
 * before. A sum is convex, so the overlap of two neighbours in the chain is a concave function of x: the chain blocks every line up to the first one on
 * which a link opens, which is found by halving. There the next line is tried. So no place is passed over, and as all numbers are
 * whole, one without any play is found too.
 * Source: the leftmost-lowest rule of Baker, Coffman & Rivest 1980, "Orthogonal packings in two dimensions", SIAM J. Computing 9, here for
 * outlines by the sums of forbidden.ts; holes between forms and cut-outs are found like any other place.
 * Cost: for each chain on the way to the place, a pass over the sums nearby and some looks at its links.
 * Degenerate cases: a gap narrower than one base length that a chain's link passes over may be missed; a wrong place is never taken.
 */
export type FindSpot = (ground: Ground, form: number, look: Look) => Fixed | null;

/** A sheet of a stock with the forms that lie on it, keep-outs among them. */
export interface Ground {
  readonly stock: number;
  readonly fixed: readonly Fixed[];
}

/** Where to look along x, both ends included, and whether hulls may stand for forms that are nearly convex. */
export interface Look {
  readonly fromX: number;
  readonly toX: number;
  readonly isCoarse: boolean;
}

export function spotFinder(setup: Setup, budget: WorkBudget): FindSpot {
  const near = newNear();
  return (ground, form, look) => {
    const moving = setup.forms[form];
    const room = setup.rooms[ground.stock];
    if (moving === undefined || room === undefined) return null;
    budget.spend(SEARCH_OVERHEAD);
    const fromX = Math.max(look.fromX, room.minX);
    const toX = Math.min(look.toX, room.maxX - moving.width);
    near.fromY = room.minY;
    near.toY = room.maxY - moving.height;
    if (fromX > toX || near.fromY > near.toY) return null;
    near.work = ground.fixed.length;
    gather(near, setup, { ground, form, fromX, toX, isCoarse: look.isCoarse });
    const x = leftmostFree(near, fromX, toX);
    const spot = x === null ? null : { form, x, y: lowestFree(near, x) };
    budget.spend(near.work);
    return spot;
  };
}

/** The sums near the strip that is searched, at their places on the sheet. Made once, filled for each search. */
interface Near {
  fromY: number;
  toY: number;
  count: number;
  readonly sums: Convex[];
  /** Where the origin of each sum lies on the sheet, and between which lines the sum lies. */
  atX: Float64Array;
  atY: Float64Array;
  starts: Float64Array;
  stops: Float64Array;
  /** The sums that the line last looked at crosses, and the open intervals of y that they forbid there. */
  crossed: Int32Array;
  lows: Float64Array;
  highs: Float64Array;
  /** The chain of sums, from the bottom upwards, that blocks that line. */
  chainLength: number;
  chain: Int32Array;
  work: number;
}

function newNear(): Near {
  return {
    fromY: 0,
    toY: 0,
    count: 0,
    sums: [],
    atX: new Float64Array(FIRST_LENGTH),
    atY: new Float64Array(FIRST_LENGTH),
    starts: new Float64Array(FIRST_LENGTH),
    stops: new Float64Array(FIRST_LENGTH),
    crossed: new Int32Array(FIRST_LENGTH),
    lows: new Float64Array(FIRST_LENGTH),
    highs: new Float64Array(FIRST_LENGTH),
    chainLength: 0,
    chain: new Int32Array(FIRST_LENGTH),
    work: 0,
  };
}

const FIRST_LENGTH = 256;

/** Units of work that a search costs beside its tests, and that the crossing of a line with a sum costs. */
const SEARCH_OVERHEAD = 40;
const CROSSING = 5;

interface Strip extends Look {
  readonly ground: Ground;
  readonly form: number;
}

function gather(near: Near, setup: Setup, strip: Strip): void {
  const { ground, form, fromX, toX, isCoarse } = strip;
  const { forbidden, coarselyForbidden } = setup;
  const known = forbidden.row(form);
  near.count = 0;
  const own = (setup.forms[form] as Form).reach;
  for (const { form: still, x, y } of ground.fixed) {
    const other = (setup.forms[still] as Form).reach;
    if (x + other.maxX <= fromX + own.minX || x + other.minX >= toX + own.maxX) continue;
    if (y + other.maxY <= near.fromY + own.minY || y + other.minY >= near.toY + own.maxY) continue;
    const sums = isCoarse
      ? (known[still] ?? coarselyForbidden(form, still))
      : forbidden(form, still);
    for (const sum of sums) addSum(near, sum, x, y);
  }
}

function addSum(near: Near, sum: Convex, x: number, y: number): void {
  if (near.count === near.atX.length) lengthen(near);
  near.sums[near.count] = sum;
  near.atX[near.count] = x;
  near.atY[near.count] = y;
  near.starts[near.count] = x + sum.minX;
  near.stops[near.count] = x + sum.maxX;
  near.count++;
}

function lengthen(near: Near): void {
  const length = 2 * near.atX.length;
  const longer = (list: Float64Array) => {
    const copy = new Float64Array(length);
    copy.set(list);
    return copy;
  };
  near.atX = longer(near.atX);
  near.atY = longer(near.atY);
  near.starts = longer(near.starts);
  near.stops = longer(near.stops);
  // The others hold nothing between two lines.
  near.crossed = new Int32Array(length);
  near.chain = new Int32Array(length);
  near.lows = new Float64Array(length);
  near.highs = new Float64Array(length);
}

function leftmostFree(near: Near, fromX: number, toX: number): number | null {
  for (let x = fromX; x <= toX; x = lastBlocked(near, x, toX) + 1)
    if (lowestFree(near, x) <= near.toY) return x;
  return null;
}

/** The lowest free y on the upright line at `x`; where there is none, a value above `toY`, and the chain that blocks the line. */
function lowestFree(near: Near, x: number): number {
  const count = crossSums(near, x);
  const { crossed, lows, highs, chain, toY } = near;
  let y = near.fromY;
  near.chainLength = 0;
  for (let moved = true; moved && y <= toY; ) {
    moved = false;
    for (let i = 0; i < count; i++) {
      if ((lows[i] as number) < y && y < (highs[i] as number)) {
        y = highs[i] as number;
        chain[near.chainLength++] = crossed[i] as number;
        moved = true;
      }
    }
    near.work += count;
  }
  return y;
}

/** Lists the sums that the line at `x` crosses within reach, and their intervals; returns their count. */
function crossSums(near: Near, x: number): number {
  const { starts, stops, crossed, lows, highs, fromY, toY } = near;
  let count = 0;
  for (let i = 0; i < near.count; i++) {
    if (x <= (starts[i] as number) || x >= (stops[i] as number)) continue;
    const low = lowAt(near, i, x);
    const high = highAt(near, i, x);
    if (low >= toY || high <= fromY) continue;
    crossed[count] = i;
    lows[count] = low;
    highs[count] = high;
    count++;
  }
  near.work += near.count + CROSSING * count;
  return count;
}

function lowAt({ sums, atX, atY }: Near, i: number, x: number): number {
  const { isBox, minY, lower } = sums[i] as Convex;
  return (atY[i] as number) + (isBox ? minY : chainFloor(lower, x - (atX[i] as number)));
}

function highAt({ sums, atX, atY }: Near, i: number, x: number): number {
  const { isBox, maxY, upper } = sums[i] as Convex;
  return (atY[i] as number) + (isBox ? maxY : chainCeil(upper, x - (atX[i] as number)));
}

/** The last line up to `toX` that the chain of the line at `x` still blocks. */
function lastBlocked(near: Near, x: number, toX: number): number {
  const { stops, chain, chainLength } = near;
  let last = toX;
  for (let k = 0; k < chainLength; k++)
    last = Math.min(last, (stops[chain[k] as number] as number) - 1);
  for (let link = 0; link <= chainLength && last > x; link++)
    if (overlapAt(near, link, last) <= 0) last = lastClosed(near, link, x, last);
  near.work += CROSSING * chainLength;
  return last;
}

/** The last line before `open` on which a link that is closed at `closed` still is: by turns the chord and the middle. */
function lastClosed(near: Near, link: number, closed: number, open: number): number {
  let overlap = overlapAt(near, link, closed);
  let gap = overlapAt(near, link, open);
  let [low, high] = [closed, open];
  for (let turn = 0; high - low > 1; turn++) {
    const share = turn % 2 === 0 ? overlap / (overlap - gap) : 0.5;
    const middle = Math.min(high - 1, Math.max(low + 1, Math.floor(low + (high - low) * share)));
    const found = overlapAt(near, link, middle);
    if (found > 0) [low, overlap] = [middle, found];
    else [high, gap] = [middle, found];
    near.work += CROSSING;
  }
  return low;
}

/** By how much a sum of the chain and the one below it overlap on the line at `x`; at its ends the sheet's edges stand for the missing one. */
function overlapAt(near: Near, link: number, x: number): number {
  const { chain, chainLength, fromY, toY } = near;
  const top = link === 0 ? fromY : highAt(near, chain[link - 1] as number, x);
  return top - (link === chainLength ? toY : lowAt(near, chain[link] as number, x));
}
