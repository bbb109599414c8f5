// Lays boxes on one sheet from one side, gap by gap.
// Idea: what is laid has a skyline of steps. The lowest step is a gap between two walls; of all boxes that fit it the one that fills it best is taken, the first in
//   the order among equals, and put beside the higher wall. Where none fits, the gap is lost up to its lower wall.
// Source: Burke, Kendall & Whitwell 2004, "A new placement heuristic for the orthogonal stock-cutting problem", Operations Research 52 (gaps and walls);
//   Leung, Zhang & Sim 2011, "A two-stage intelligent search algorithm for the two-dimensional strip packing problem", EJOR 215 (scores, the order decides among equals).
// Where we differ: on a sheet of fixed size boxes may be left out. The area lost so far says what will have to be left out at least, so a hopeless try ends early.
//   The order in which boxes were placed, laid out again, gives the same layout: each was the first of the best among more boxes.
// Cost: boxes times the boxes looked at for a gap; several times faster than maximal free rectangles, and better where many small boxes fill a sheet to the brim.
// Degenerate cases: no box fits: nothing is placed. Only for sheets without keep-outs.
import { type BoxStock, NO_BOX } from './box-task.ts';
import { codeOf } from './code.ts';
import type { Costs, Decoded } from './decoded.ts';

/** How well a box fills a gap: both its walls' distance and the height of the higher wall, of the lower one, and so on down. */
const FILLS_TO_HIGHER = 4;
const FILLS_TO_LOWER = 3;
const FILLS_WIDTH = 2;
const LEVEL_WITH_WALL = 1;
const FITS = 0;

/** The class guards the agreement between the steps, the boxes still to place and those placed. Lengths run along the side that is built upon. */
export class Skyline {
  /** Steps and boxes looked at so far, for counted work. */
  work = 0;
  readonly #into: Decoded;
  readonly #costs: Costs;
  readonly #area: Float64Array;
  /** The boxes still to place as a chain of places in the order; the entry behind the last one is the head. */
  #next = new Int32Array(65);
  /** Where each step starts, one entry more for the end of the side, and how high it is. */
  #from = new Int32Array(66);
  #top = new Int32Array(66);
  #steps = 0;
  // The box that fills the gap in hand best: its place in the order, the one before it in the chain, and which of its boxes.
  #best = -1;
  #bestBefore = -1;
  #bestBox = 0;

  constructor(area: Float64Array, costs: Costs, into: Decoded) {
    this.#area = area;
    this.#costs = costs;
    this.#into = into;
  }

  /** Whether the boxes left out cost at most `limit`. `sideways` builds upon the left side, else upon the lower one. */
  decode(
    stock: BoxStock,
    order: Int32Array,
    length: number,
    sideways: boolean,
    limit: number,
    width: number,
    height: number,
  ): boolean {
    const along = sideways ? stock.boxHeight : stock.boxWidth;
    const across = sideways ? stock.boxWidth : stock.boxHeight;
    const end = sideways ? height : width;
    const high = sideways ? width : height;
    const boxArea = this.#begin(order, length, end);
    const shortest = shortestSide(along, order, length);
    let spare = end * high - boxArea + Math.max(0, limit) / this.#costs.leastPerArea;
    while (this.#next[length]! < length) {
      const low = this.#lowestStep();
      const gap = this.#from[low + 1]! - this.#from[low]!;
      if (gap >= shortest && this.#choose(along, across, order, length, low, high)) {
        this.#place(along, across, low, high, sideways);
        continue;
      }
      const rise = Math.min(this.#wall(low - 1, low, high), this.#wall(low + 1, low, high));
      spare -= gap * rise;
      if (spare < 0) return false;
      if (this.#top[low]! + rise >= high) break;
      this.#raise(low, rise);
    }
    for (let i = this.#next[length]!; i < length; i = this.#next[i]!)
      this.#into.leaveOut(order[i]!, this.#costs.ofKind[order[i]! >> 2]!);
    return this.#into.leftCost <= limit || length === this.#into.placedCount;
  }

  /** One step at height 0 and all boxes in the chain; returns their area. */
  #begin(order: Int32Array, length: number, end: number): number {
    this.#into.begin(length);
    if (this.#next.length <= length) {
      this.#next = new Int32Array(2 * length + 1);
      this.#from = new Int32Array(2 * length + 2);
      this.#top = new Int32Array(2 * length + 2);
    }
    this.#steps = 1;
    this.#from[0] = 0;
    this.#from[1] = end;
    this.#top[0] = 0;
    let area = 0;
    for (let i = 0; i < length; i++) {
      this.#next[i] = i + 1;
      area += this.#area[order[i]! >> 2]!;
    }
    this.#next[length] = 0;
    this.work += length;
    return area;
  }

  #lowestStep(): number {
    const top = this.#top;
    let low = 0;
    for (let step = 1; step < this.#steps; step++) if (top[step]! < top[low]!) low = step;
    this.work += this.#steps;
    return low;
  }

  /** How far the step beside rises above the lowest; the sheet's own border is a wall too. */
  #wall(beside: number, low: number, high: number): number {
    const isBorder = beside < 0 || beside === this.#steps;
    return (isBorder ? high : this.#top[beside]!) - this.#top[low]!;
  }

  /** Finds the box that fills the gap best; false where none fits. */
  #choose(
    along: Int32Array,
    across: Int32Array,
    order: Int32Array,
    length: number,
    low: number,
    high: number,
  ): boolean {
    const next = this.#next;
    const gap = this.#from[low + 1]! - this.#from[low]!;
    const room = high - this.#top[low]!;
    const left = this.#wall(low - 1, low, high);
    const right = this.#wall(low + 1, low, high);
    const higher = Math.max(left, right);
    const lower = Math.min(left, right);
    let bestScore = -1;
    let before = length;
    for (let i = next[length]!; i < length; before = i, i = next[i]!) {
      this.work++;
      const lie = order[i]! & 3;
      const first = (order[i]! >> 2) * 2;
      const last = lie === 0 ? first : first + 1;
      for (let box = lie === 1 ? last : first; box <= last; box++) {
        const w = along[box]!;
        const h = across[box]!;
        if (w > gap || h > room) continue;
        const score = scoreOf(gap - w, higher - h, lower - h);
        if (score <= bestScore) continue;
        bestScore = score;
        this.#best = i;
        this.#bestBefore = before;
        this.#bestBox = box;
      }
      if (bestScore === FILLS_TO_HIGHER) break;
    }
    return bestScore >= 0;
  }

  /** Lays the box just found beside the higher wall. */
  #place(
    along: Int32Array,
    across: Int32Array,
    low: number,
    high: number,
    sideways: boolean,
  ): void {
    const from = this.#from;
    const box = this.#bestBox;
    const w = along[box]!;
    const h = across[box]!;
    const y = this.#top[low]!;
    const atLeft = this.#wall(low - 1, low, high) >= this.#wall(low + 1, low, high);
    const x = atLeft ? from[low]! : from[low + 1]! - w;
    this.#next[this.#bestBefore] = this.#next[this.#best]!;
    this.#into.place(codeOf(box >> 1, box & 1), sideways ? y : x, sideways ? x : y, w * h);
    if (w === from[low + 1]! - from[low]!) this.#raise(low, h);
    else if (atLeft) {
      this.#split(low, x + w);
      this.#raise(low, h);
    } else {
      this.#split(low, x);
      this.#raise(low + 1, h);
    }
  }

  /** Cuts a step in two at `x`. */
  #split(step: number, x: number): void {
    for (let i = this.#steps; i > step; i--) {
      this.#from[i + 1] = this.#from[i]!;
      this.#top[i] = this.#top[i - 1]!;
    }
    this.#from[step + 1] = x;
    this.#steps++;
  }

  /** Raises a step; it becomes one with a neighbour of its new height. */
  #raise(step: number, rise: number): void {
    const top = this.#top;
    const height = top[step]! + rise;
    top[step] = height;
    if (step + 1 < this.#steps && top[step + 1] === height) this.#join(step);
    if (step > 0 && top[step - 1] === height) this.#join(step - 1);
  }

  /** Makes a step and the next one, of the same height, one. */
  #join(step: number): void {
    for (let i = step + 1; i < this.#steps; i++) {
      this.#from[i] = this.#from[i + 1]!;
      this.#top[i] = this.#top[i + 1]!;
    }
    this.#steps--;
  }
}

function scoreOf(spare: number, belowHigher: number, belowLower: number): number {
  if (spare > 0) return belowHigher === 0 ? LEVEL_WITH_WALL : FITS;
  if (belowHigher === 0) return FILLS_TO_HIGHER;
  return belowLower === 0 ? FILLS_TO_LOWER : FILLS_WIDTH;
}

function shortestSide(sides: Int32Array, order: Int32Array, length: number): number {
  let shortest = NO_BOX;
  for (let i = 0; i < length; i++) {
    const first = (order[i]! >> 2) * 2;
    shortest = Math.min(shortest, sides[first]!, sides[first + 1]!);
  }
  return shortest;
}
