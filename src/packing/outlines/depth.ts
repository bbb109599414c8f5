import type { Box } from '../../geometry/box.ts';
import { commonDivisor } from '../common-divisor.ts';
import type { Chain } from './chains.ts';
import type { Forbidden } from './forbidden.ts';
import { type PairTable, pairTable } from './pair-table.ts';

/**
 * The sums of one pair of forms in one flat list: their number; then for each its box (least and greatest x, then y), the number of its
 * slanted sides, and these sides. A side is four numbers: `a * x + b * y - c` is its length times the distance of a point to its line, seen
 * from the lower-left corner of the box, above 0 on the inner side; the fourth is one over the length.
 */
export type Sides = Float64Array;

const HEAD = 5;
const SIDE = 4;

/** As many numbers are kept, about 70 million bytes; each pair counts as some more. */
const MOST_NUMBERS = 8e6;
const PAIR_OVERHEAD = 30;

/** The sides by the moving and the still form, of `count` forms. */
export function sidesTable(count: number, forbidden: PairTable<Forbidden>): PairTable<Sides> {
  return pairTable({
    count,
    make: (moving, still) => sidesOf(forbidden(moving, still)),
    sizeOf: (sides) => PAIR_OVERHEAD + sides.length,
    room: MOST_NUMBERS,
  });
}

/**
 * The sum over all convex sums of the distance from (x, y) to the nearest of its sides, where it lies strictly inside.
 *
 * Idea: inside a convex ring the distance to the border is the least of the distances to its sides' lines, and a point is not inside as
 * soon as one of them is not positive. The sign is that of a whole number, so touching counts as no overlap, exactly.
 * Source: the separation distance of Dobkin, Hershberger, Kirkpatrick & Suri 1993, "Computing the intersection-depth of polyhedra",
 * Algorithmica 9; here as a sum over convex parts, so it is an upper estimate that is 0 where the true depth is 0.
 */
export function depthAt(sides: Sides, x: number, y: number): number {
  let total = 0;
  let p = 1;
  for (let k = sides[0] as number; k > 0; k--) {
    const fromLeft = x - (sides[p] as number);
    const fromBelow = y - (sides[p + 2] as number);
    let depth = Math.min(fromLeft, fromBelow);
    const fromRight = (sides[p + 1] as number) - x;
    if (fromRight < depth) depth = fromRight;
    const fromAbove = (sides[p + 3] as number) - y;
    if (fromAbove < depth) depth = fromAbove;
    const end = p + HEAD + SIDE * (sides[p + 4] as number);
    for (p += HEAD; p < end && depth > 0; p += SIDE) {
      const height =
        ((sides[p] as number) * fromLeft +
          (sides[p + 1] as number) * fromBelow -
          (sides[p + 2] as number)) *
        (sides[p + 3] as number);
      if (height < depth) depth = height;
    }
    p = end;
    if (depth > 0) total += depth;
  }
  return total;
}

/** Whether (x, y) lies strictly inside one of the sums: whether the depth is above 0, told sooner. */
export function isInside(sides: Sides, x: number, y: number): boolean {
  let p = 1;
  for (let k = sides[0] as number; k > 0; k--) {
    const fromLeft = x - (sides[p] as number);
    const fromBelow = y - (sides[p + 2] as number);
    const end = p + HEAD + SIDE * (sides[p + 4] as number);
    let isIn =
      fromLeft > 0 && fromBelow > 0 && x < (sides[p + 1] as number) && y < (sides[p + 3] as number);
    for (p += HEAD; p < end && isIn; p += SIDE)
      isIn =
        (sides[p] as number) * fromLeft +
          (sides[p + 1] as number) * fromBelow -
          (sides[p + 2] as number) >
        0;
    if (isIn) return true;
    p = end;
  }
  return false;
}

/** The box of a sum, and where in the list it begins. */
export interface SumBox extends Box {
  readonly p: number;
}

export function sumBoxes(sides: Sides): readonly SumBox[] {
  const boxes: SumBox[] = [];
  let p = 1;
  for (let k = sides[0] as number; k > 0; k--) {
    boxes.push({
      p,
      minX: sides[p] as number,
      maxX: sides[p + 1] as number,
      minY: sides[p + 2] as number,
      maxY: sides[p + 3] as number,
    });
    p += HEAD + SIDE * (sides[p + 4] as number);
  }
  return boxes;
}

/** Whether a box lies clear of a sum, all within it, or neither; by its corners that are furthest to the one and the other side of each line. */
export function boxToSum(sides: Sides, sum: SumBox, box: Box): 'clear' | 'within' | 'border' {
  if (box.minX >= sum.maxX || box.maxX <= sum.minX || box.minY >= sum.maxY || box.maxY <= sum.minY)
    return 'clear';
  let isWithin =
    box.minX > sum.minX && box.maxX < sum.maxX && box.minY > sum.minY && box.maxY < sum.maxY;
  const x = (box.minX + box.maxX) / 2 - sum.minX;
  const y = (box.minY + box.maxY) / 2 - sum.minY;
  const first = sum.p + HEAD;
  const end = first + SIDE * (sides[sum.p + 4] as number);
  for (let p = first; p < end; p += SIDE) {
    const [a, b] = [sides[p] as number, sides[p + 1] as number];
    const middle = a * x + b * y - (sides[p + 2] as number);
    const spread = (Math.abs(a) * (box.maxX - box.minX) + Math.abs(b) * (box.maxY - box.minY)) / 2;
    if (middle + spread <= 0) return 'clear';
    isWithin &&= middle - spread > 0;
  }
  return isWithin ? 'within' : 'border';
}

function sidesOf(sums: Forbidden): Sides {
  const counts = sums.map(({ lower, upper }) => slantedCount(lower) + slantedCount(upper));
  const sides = new Float64Array(counts.reduce((n, count) => n + HEAD + SIDE * count, 1));
  sides[0] = sums.length;
  let p = 1;
  sums.forEach(({ minX, maxX, minY, maxY, lower, upper }, k) => {
    const count = counts[k] as number;
    sides.set([minX, maxX, minY, maxY, count], p);
    p += HEAD;
    const order = { first: p, count, step: jumpFor(count), next: 0, minX, minY };
    addSides(sides, order, lower, 1);
    addSides(sides, order, upper, -1);
    p += SIDE * count;
  });
  return sides;
}

/** The sides that are not level; those parallel to the axes are in the box already. */
function slantedCount(chain: Chain): number {
  let count = 0;
  for (let i = 3; i < chain.length; i += 2) if (chain[i] !== chain[i - 2]) count++;
  return count;
}

/** In which order sides are put: each one `step` places on from the one before, so that for a point outside one that shows it comes early. */
interface Order {
  readonly first: number;
  readonly count: number;
  readonly step: number;
  next: number;
  readonly minX: number;
  readonly minY: number;
}

/** About 0.38 of the way round, and without a common divisor with the count, so that every place is met. */
function jumpFor(count: number): number {
  let step = Math.max(1, Math.round(count * 0.38));
  while (commonDivisor(step, count) > 1) step--;
  return step;
}

/** The sides of a lower chain as it runs, or of an upper one the other way, so that the inside is on the left. */
function addSides(sides: Sides, order: Order, chain: Chain, direction: 1 | -1): void {
  for (let i = 0; i + 2 < chain.length; i += 2) {
    const from = direction === 1 ? i : i + 2;
    const [x, y] = [chain[from] as number, chain[from + 1] as number];
    const dx = (chain[from + 2 * direction] as number) - x;
    const dy = (chain[from + 2 * direction + 1] as number) - y;
    if (dy === 0) continue;
    const p = order.first + SIDE * order.next;
    order.next = (order.next + order.step) % order.count;
    sides[p] = 0 - dy;
    sides[p + 1] = dx;
    sides[p + 2] = dx * (y - order.minY) - dy * (x - order.minX);
    sides[p + 3] = 1 / Math.sqrt(dx * dx + dy * dy);
  }
}
