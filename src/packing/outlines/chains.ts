import { boxOf } from '../../geometry/box.ts';
import type { Point } from '../../geometry/point.ts';
import type { Ring } from '../../geometry/shape.ts';

/**
 * A convex ring as its lower and its upper chain, so that the interval in which an upright or a level line crosses it is found without a
 * walk round it.
 *
 * Intervals are rounded outwards to whole numbers `low` and `high`, and a whole number t lies strictly inside the ring on that line
 * just when low < t < high; so the rounding loses nothing. Cost: a search by halving. The products stay below 2^53 for rings whose slanted
 * sides span at most 2^26.
 */
export interface Convex {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
  /** Whether the ring is its own box. */
  readonly isBox: boolean;
  /** From left to right; the lower chain first falls and then rises, the upper one first rises and then falls. */
  readonly lower: Chain;
  readonly upper: Chain;
  /** Where in the chains a lowest corner of the lower one and a highest one of the upper one begin. */
  readonly lowest: number;
  readonly highest: number;
}

/** A function of x, linear between its corners: x and y of each by turns, as hundreds of thousands of chains are kept; x rises strictly. */
export type Chain = readonly number[];

/** The chains of a convex counter-clockwise ring. */
export function convexOf(ring: Ring): Convex {
  const { minX, maxX } = boxOf(ring);
  const n = ring.length;
  const at = (i: number) => ring[i % n] as Ring[number];
  // The lower chain starts at the lower corner of the left end: the last one at minX before the ring turns right.
  let start = 0;
  while (at(start).x !== minX || at(start + 1).x === minX) start++;
  const lower: number[] = [];
  let i = start;
  for (; lower.at(-2) !== maxX; i++) lower.push(at(i).x, at(i).y);
  if (at(i).x !== maxX) i--;
  const backwards: Point[] = [];
  for (; backwards.at(-1)?.x !== minX; i++) backwards.push(at(i));
  const upper: number[] = [];
  for (const { x, y } of backwards.reverse()) upper.push(x, y);
  return withEnds(lower, upper);
}

/** The Minkowski sum of two convex rings: every point of one added to every point of the other. */
export function convexSum(a: Convex, b: Convex): Convex {
  return a.isBox && b.isBox
    ? boxSum(a, b)
    : withEnds(chainSum(a.lower, b.lower, 1), chainSum(a.upper, b.upper, -1));
}

/** Whether every point of `inner` lies in `outer`. */
export function convexContains(outer: Convex, inner: Convex): boolean {
  if (
    inner.minX < outer.minX ||
    inner.maxX > outer.maxX ||
    inner.minY < outer.minY ||
    inner.maxY > outer.maxY
  )
    return false;
  const { lower, upper } = inner;
  for (let i = 0; i < lower.length; i += 2)
    if (yAt(lower, i) < chainCeil(outer.lower, xAt(lower, i))) return false;
  for (let i = 0; i < upper.length; i += 2)
    if (yAt(upper, i) > chainFloor(outer.upper, xAt(upper, i))) return false;
  return true;
}

/** The whole number at or just below the chain at `x`, which lies in its span. */
export function chainFloor(chain: Chain, x: number): number {
  const i = sideAt(chain, x);
  const rise = yAt(chain, i + 2) - yAt(chain, i);
  if (rise === 0) return yAt(chain, i);
  const run = xAt(chain, i + 2) - xAt(chain, i);
  return yAt(chain, i) + floorOf(rise * (x - xAt(chain, i)), run);
}

/** The whole number at or just above the chain at `x`, which lies in its span. */
export function chainCeil(chain: Chain, x: number): number {
  const i = sideAt(chain, x);
  const rise = yAt(chain, i + 2) - yAt(chain, i);
  if (rise === 0) return yAt(chain, i);
  const run = xAt(chain, i + 2) - xAt(chain, i);
  return yAt(chain, i) - floorOf(rise * (xAt(chain, i) - x), run);
}

/** The whole number at or just left of the ring's left side on the level line at `y`, strictly between its lowest and highest points. */
export function leftAt({ minX, lower, upper, lowest, highest }: Convex, y: number): number {
  if (y < yAt(lower, 0)) return crossing(lower, 0, lowest, y, 1);
  if (y > yAt(upper, 0)) return crossing(upper, 0, highest, y, 1);
  return minX;
}

/** The whole number at or just right of the ring's right side on the level line at `y`, strictly between its lowest and highest points. */
export function rightAt({ maxX, lower, upper, lowest, highest }: Convex, y: number): number {
  const [lowerEnd, upperEnd] = [lower.length - 2, upper.length - 2];
  if (y < yAt(lower, lowerEnd)) return crossing(lower, lowest, lowerEnd, y, -1);
  if (y > yAt(upper, upperEnd)) return crossing(upper, highest, upperEnd, y, -1);
  return maxX;
}

/** The quotient of two whole numbers, the second above 0, rounded down. */
function floorOf(dividend: number, divisor: number): number {
  const whole = Math.floor(dividend / divisor);
  // A quotient just below a whole number may have been rounded up to it.
  return whole * divisor > dividend ? whole - 1 : whole;
}

function xAt(chain: Chain, i: number): number {
  return chain[i] as number;
}

function yAt(chain: Chain, i: number): number {
  return chain[i + 1] as number;
}

/** The index of the first corner of the side whose span holds `x`. */
function sideAt(chain: Chain, x: number): number {
  let low = 0;
  let high = chain.length / 2 - 2;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (xAt(chain, 2 * middle) <= x) low = middle;
    else high = middle - 1;
  }
  return 2 * low;
}

/** Where the chain crosses the level `y` between two corners with no turn between them; rounded down for `rounding` 1, up for -1. */
function crossing(chain: Chain, from: number, to: number, y: number, rounding: 1 | -1): number {
  const falls = yAt(chain, from) > y;
  let low = from / 2;
  let high = to / 2 - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (yAt(chain, 2 * middle) > y === falls) low = middle;
    else high = middle - 1;
  }
  const i = 2 * low;
  const run = xAt(chain, i + 2) - xAt(chain, i);
  const rise = Math.abs(yAt(chain, i + 2) - yAt(chain, i));
  const across = run * Math.abs(y - yAt(chain, i));
  return xAt(chain, i) + rounding * floorOf(rounding * across, rise);
}

/** The sum of two boxes: what most pairs of a large job are, and so made apart. */
function boxSum(a: Convex, b: Convex): Convex {
  const [minX, maxX] = [a.minX + b.minX, a.maxX + b.maxX];
  const [minY, maxY] = [a.minY + b.minY, a.maxY + b.maxY];
  const lower = [minX, minY, maxX, minY];
  const upper = [minX, maxY, maxX, maxY];
  return { minX, maxX, minY, maxY, isBox: true, lower, upper, lowest: 0, highest: 0 };
}

/** A list that has grown holds room for half as many entries again, so each sum is a piece of one that is used again. */
const SUM: number[] = [];

/** The sides of two chains joined in the order of their slopes, rising for `turn` 1 and falling for -1; sides of one slope become one. */
function chainSum(a: Chain, b: Chain, turn: 1 | -1): Chain {
  let x = xAt(a, 0) + xAt(b, 0);
  let y = yAt(a, 0) + yAt(b, 0);
  let length = 0;
  SUM[length++] = x;
  SUM[length++] = y;
  const [endA, endB] = [a.length - 2, b.length - 2];
  for (let i = 0, j = 0; i < endA || j < endB; ) {
    const order = i === endA ? 1 : j === endB ? -1 : turn * compareSlopes(a, i, b, j);
    if (order <= 0) {
      x += xAt(a, i + 2) - xAt(a, i);
      y += yAt(a, i + 2) - yAt(a, i);
      i += 2;
    }
    if (order >= 0) {
      x += xAt(b, j + 2) - xAt(b, j);
      y += yAt(b, j + 2) - yAt(b, j);
      j += 2;
    }
    SUM[length++] = x;
    SUM[length++] = y;
  }
  return SUM.slice(0, length);
}

/** Below 0 where the side of `a` from its corner `i` rises less steeply than that of `b` from its corner `j`. */
function compareSlopes(a: Chain, i: number, b: Chain, j: number): number {
  const runA = xAt(a, i + 2) - xAt(a, i);
  const riseA = yAt(a, i + 2) - yAt(a, i);
  const runB = xAt(b, j + 2) - xAt(b, j);
  const riseB = yAt(b, j + 2) - yAt(b, j);
  return riseA * runB - riseB * runA;
}

function withEnds(lower: Chain, upper: Chain): Convex {
  const lowest = extremeOf(lower, 1);
  const highest = extremeOf(upper, -1);
  return {
    minX: xAt(lower, 0),
    maxX: xAt(lower, lower.length - 2),
    minY: yAt(lower, lowest),
    maxY: yAt(upper, highest),
    isBox: isLevel(lower) && isLevel(upper),
    lower,
    upper,
    lowest,
    highest,
  };
}

function isLevel(chain: Chain): boolean {
  return chain.length === 4 && yAt(chain, 0) === yAt(chain, 2);
}

/** The index of a corner with the least y, or for `sign` -1 with the greatest. */
function extremeOf(chain: Chain, sign: 1 | -1): number {
  let best = 0;
  for (let i = 2; i < chain.length; i += 2)
    if (sign * yAt(chain, i) < sign * yAt(chain, best)) best = i;
  return best;
}
