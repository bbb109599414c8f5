import { boxOf } from '../../geometry/box.ts';
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
  /** Indices of a lowest corner of the lower chain and of a highest one of the upper chain. */
  readonly lowest: number;
  readonly highest: number;
}

/** A function of x, linear between its corners; x rises strictly. */
export interface Chain {
  readonly xs: readonly number[];
  readonly ys: readonly number[];
}

/** The chains of a convex counter-clockwise ring. */
export function convexOf(ring: Ring): Convex {
  const { minX, maxX } = boxOf(ring);
  const lower: MutableChain = { xs: [], ys: [] };
  const upper: MutableChain = { xs: [], ys: [] };
  const n = ring.length;
  const at = (i: number) => ring[i % n] as Ring[number];
  // The lower chain starts at the lower corner of the left end: the last one at minX before the ring turns right.
  let start = 0;
  while (at(start).x !== minX || at(start + 1).x === minX) start++;
  let i = start;
  for (; lower.xs.at(-1) !== maxX; i++) addCorner(lower, at(i).x, at(i).y);
  if (at(i).x !== maxX) i--;
  for (; upper.xs.at(-1) !== minX; i++) addCorner(upper, at(i).x, at(i).y);
  upper.xs.reverse();
  upper.ys.reverse();
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
  for (let i = 0; i < lower.xs.length; i++)
    if ((lower.ys[i] as number) < chainCeil(outer.lower, lower.xs[i] as number)) return false;
  for (let i = 0; i < upper.xs.length; i++)
    if ((upper.ys[i] as number) > chainFloor(outer.upper, upper.xs[i] as number)) return false;
  return true;
}

/** The whole number at or just below the chain at `x`, which lies in its span. */
export function chainFloor({ xs, ys }: Chain, x: number): number {
  const i = sideAt(xs, x);
  const rise = (ys[i + 1] as number) - (ys[i] as number);
  if (rise === 0) return ys[i] as number;
  const run = (xs[i + 1] as number) - (xs[i] as number);
  return (ys[i] as number) + floorOf(rise * (x - (xs[i] as number)), run);
}

/** The whole number at or just above the chain at `x`, which lies in its span. */
export function chainCeil({ xs, ys }: Chain, x: number): number {
  const i = sideAt(xs, x);
  const rise = (ys[i + 1] as number) - (ys[i] as number);
  if (rise === 0) return ys[i] as number;
  const run = (xs[i + 1] as number) - (xs[i] as number);
  return (ys[i] as number) - floorOf(rise * ((xs[i] as number) - x), run);
}

/** The whole number at or just left of the ring's left side on the level line at `y`, strictly between its lowest and highest points. */
export function leftAt({ minX, lower, upper, lowest, highest }: Convex, y: number): number {
  if (y < (lower.ys[0] as number)) return crossing(lower, 0, lowest, y, 1);
  if (y > (upper.ys[0] as number)) return crossing(upper, 0, highest, y, 1);
  return minX;
}

/** The whole number at or just right of the ring's right side on the level line at `y`, strictly between its lowest and highest points. */
export function rightAt({ maxX, lower, upper, lowest, highest }: Convex, y: number): number {
  const [lowerEnd, upperEnd] = [lower.ys.length - 1, upper.ys.length - 1];
  if (y < (lower.ys[lowerEnd] as number)) return crossing(lower, lowest, lowerEnd, y, -1);
  if (y > (upper.ys[upperEnd] as number)) return crossing(upper, highest, upperEnd, y, -1);
  return maxX;
}

/** The quotient of two whole numbers, the second above 0, rounded down. */
function floorOf(dividend: number, divisor: number): number {
  const whole = Math.floor(dividend / divisor);
  // A quotient just below a whole number may have been rounded up to it.
  return whole * divisor > dividend ? whole - 1 : whole;
}

/** The index of the side whose span holds `x`. */
function sideAt(xs: readonly number[], x: number): number {
  let low = 0;
  let high = xs.length - 2;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((xs[middle] as number) <= x) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** Where the chain crosses the level `y` between two corners with no turn between them; rounded down for `rounding` 1, up for -1. */
function crossing(
  { xs, ys }: Chain,
  from: number,
  to: number,
  y: number,
  rounding: 1 | -1,
): number {
  const falls = (ys[from] as number) > y;
  let low = from;
  let high = to - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((ys[middle] as number) > y === falls) low = middle;
    else high = middle - 1;
  }
  const run = (xs[low + 1] as number) - (xs[low] as number);
  const rise = Math.abs((ys[low + 1] as number) - (ys[low] as number));
  const across = run * Math.abs(y - (ys[low] as number));
  return (xs[low] as number) + rounding * floorOf(rounding * across, rise);
}

interface MutableChain {
  readonly xs: number[];
  readonly ys: number[];
}

function addCorner({ xs, ys }: MutableChain, x: number, y: number): void {
  xs.push(x);
  ys.push(y);
}

/** The sum of two boxes: what most pairs of a large job are, and so made apart. */
function boxSum(a: Convex, b: Convex): Convex {
  const [minX, maxX] = [a.minX + b.minX, a.maxX + b.maxX];
  const [minY, maxY] = [a.minY + b.minY, a.maxY + b.maxY];
  const xs = [minX, maxX];
  const lower = { xs, ys: [minY, minY] };
  const upper = { xs, ys: [maxY, maxY] };
  return { minX, maxX, minY, maxY, isBox: true, lower, upper, lowest: 0, highest: 0 };
}

/** The sides of two chains joined in the order of their slopes, rising for `turn` 1 and falling for -1; sides of one slope become one. */
function chainSum(a: Chain, b: Chain, turn: 1 | -1): Chain {
  let x = (a.xs[0] as number) + (b.xs[0] as number);
  let y = (a.ys[0] as number) + (b.ys[0] as number);
  const sum: MutableChain = { xs: [x], ys: [y] };
  const [endA, endB] = [a.xs.length - 1, b.xs.length - 1];
  for (let i = 0, j = 0; i < endA || j < endB; ) {
    const order = i === endA ? 1 : j === endB ? -1 : turn * compareSlopes(a, i, b, j);
    if (order <= 0) {
      x += (a.xs[i + 1] as number) - (a.xs[i] as number);
      y += (a.ys[i + 1] as number) - (a.ys[i] as number);
      i++;
    }
    if (order >= 0) {
      x += (b.xs[j + 1] as number) - (b.xs[j] as number);
      y += (b.ys[j + 1] as number) - (b.ys[j] as number);
      j++;
    }
    addCorner(sum, x, y);
  }
  return sum;
}

/** Below 0 where side `i` of `a` rises less steeply than side `j` of `b`. */
function compareSlopes(a: Chain, i: number, b: Chain, j: number): number {
  const runA = (a.xs[i + 1] as number) - (a.xs[i] as number);
  const riseA = (a.ys[i + 1] as number) - (a.ys[i] as number);
  const runB = (b.xs[j + 1] as number) - (b.xs[j] as number);
  const riseB = (b.ys[j + 1] as number) - (b.ys[j] as number);
  return riseA * runB - riseB * runA;
}

function withEnds(lower: Chain, upper: Chain): Convex {
  const lowest = extremeOf(lower.ys, 1);
  const highest = extremeOf(upper.ys, -1);
  return {
    minX: lower.xs[0] as number,
    maxX: lower.xs[lower.xs.length - 1] as number,
    minY: lower.ys[lowest] as number,
    maxY: upper.ys[highest] as number,
    isBox: isLevel(lower) && isLevel(upper),
    lower: withoutSlack(lower),
    upper: withoutSlack(upper),
    lowest,
    highest,
  };
}

/** A list that has grown holds room for half as many entries again, and hundreds of thousands of chains are kept. */
function withoutSlack({ xs, ys }: Chain): Chain {
  return { xs: xs.slice(), ys: ys.slice() };
}

function isLevel({ ys }: Chain): boolean {
  return ys.length === 2 && ys[0] === ys[1];
}

/** The index of the least value, or for `sign` -1 of the greatest. */
function extremeOf(ys: readonly number[], sign: 1 | -1): number {
  let best = 0;
  for (let i = 1; i < ys.length; i++)
    if (sign * (ys[i] as number) < sign * (ys[best] as number)) best = i;
  return best;
}
