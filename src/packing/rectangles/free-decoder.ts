// Lays boxes on one sheet in a given order.
// Idea: a sheet is kept as an order of boxes and a position rule, not as positions. Each box in turn goes to the free rectangle that its rule likes best,
//   at that rectangle's lower-left corner; a box that fits nowhere is left out, and as soon as the boxes left out cost more than the limit the try is given up.
// Source: Jylänki 2010, "A thousand ways to pack the bin", section 2 (position rules); Hopper & Turton 2001, "An empirical investigation of
//   meta-heuristic and heuristic algorithms for a 2D packing problem", EJOR 128, section 4 (orders as the thing searched). The early end is ours.
// Cost: boxes times free rectangles, about a million sheets of ten boxes a second; allocation-free after the first growth.
// Degenerate cases: an empty order is a sheet with nothing on it; a kind that does not fit the stock has no box and is left out.
import { type BoxStock, NO_BOX } from './box-task.ts';
import { codeOf } from './code.ts';
import type { Costs, Decoded } from './decoded.ts';
import { FreeSpace } from './free-space.ts';
import {
  FAR_FROM_CORNER,
  LEAST_AREA,
  LEFTMOST_RIGHT,
  LOWEST_CORNER,
  LOWEST_TOP,
  MOST_TOUCHING,
  SHORT_SIDE,
} from './rules.ts';

/** The class guards the agreement between the free space and the boxes placed. */
export class FreeDecoder {
  readonly #space = new FreeSpace();
  readonly #costs: Costs;
  readonly #into: Decoded;
  #leastWidth = new Int32Array(65);
  #leastHeight = new Int32Array(65);
  readonly #failedIn: Int32Array;
  #run = 0;
  // The best place found so far for the box in hand: which free rectangle, which of its boxes, and what the rule gave.
  #bestAt = -1;
  #bestBox = 0;
  #bestValue = 0;
  #bestTie = 0;

  constructor(kindCount: number, costs: Costs, into: Decoded) {
    this.#failedIn = new Int32Array(4 * kindCount);
    this.#costs = costs;
    this.#into = into;
  }

  /** Free rectangles and boxes looked at so far, for counted work. */
  get work(): number {
    return this.#space.work;
  }

  /** Whether the boxes left out cost at most `limit`; `width` and `height` cut the sheet short. */
  decode(
    stock: BoxStock,
    order: Int32Array,
    length: number,
    rule: number,
    limit: number,
    width: number,
    height: number,
  ): boolean {
    this.#begin(stock, order, length, width, height);
    const failedIn = this.#failedIn;
    for (let i = 0; i < length; i++) {
      const code = order[i]!;
      const lie = code & 3;
      if (failedIn[code] !== this.#run) {
        const at = (code >> 2) * 2;
        this.#bestAt = -1;
        this.#bestValue = Number.POSITIVE_INFINITY;
        if (lie !== 1) this.#seek(stock, at, rule);
        if (lie !== 0 && stock.boxWidth[at + 1] !== NO_BOX) this.#seek(stock, at + 1, rule);
        if (this.#bestAt >= 0) {
          this.#place(stock, i + 1);
          continue;
        }
        // Free space only shrinks, so the same code need not be tried again on this sheet.
        failedIn[code] = this.#run;
      }
      this.#into.leaveOut(code, this.#costs.ofKind[code >> 2]!);
      if (this.#into.leftCost > limit) return false;
    }
    return true;
  }

  #begin(stock: BoxStock, order: Int32Array, length: number, width: number, height: number): void {
    this.#into.begin(length);
    if (this.#leastWidth.length <= length) {
      this.#leastWidth = new Int32Array(2 * length + 1);
      this.#leastHeight = new Int32Array(2 * length + 1);
    }
    this.#run++;
    if (stock.isPlain) this.#space.clear(width, height);
    else this.#space.copy(stock.empty, width, height);
    let leastWidth = NO_BOX;
    let leastHeight = NO_BOX;
    this.#leastWidth[length] = NO_BOX;
    this.#leastHeight[length] = NO_BOX;
    for (let i = length - 1; i >= 0; i--) {
      const at = (order[i]! >> 2) * 2;
      leastWidth = Math.min(leastWidth, stock.boxWidth[at]!, stock.boxWidth[at + 1]!);
      leastHeight = Math.min(leastHeight, stock.boxHeight[at]!, stock.boxHeight[at + 1]!);
      this.#leastWidth[i] = leastWidth;
      this.#leastHeight[i] = leastHeight;
    }
  }

  /** Improves the best place by the places of one box. */
  #seek(stock: BoxStock, box: number, rule: number): void {
    const { count, minX, minY, maxX, maxY } = this.#space;
    const w = stock.boxWidth[box]!;
    const h = stock.boxHeight[box]!;
    for (let i = 0; i < count; i++) {
      const x = minX[i]!;
      const spareX = maxX[i]! - x - w;
      if (spareX < 0) continue;
      const y = minY[i]!;
      const spareY = maxY[i]! - y - h;
      if (spareY < 0) continue;
      let value = 0;
      let tie = 0;
      switch (rule) {
        case LOWEST_TOP:
          value = y + h;
          tie = x;
          break;
        case SHORT_SIDE:
          value = Math.min(spareX, spareY);
          tie = spareX + spareY;
          break;
        case LEAST_AREA:
          value = (spareX + w) * (spareY + h);
          tie = Math.min(spareX, spareY);
          break;
        case FAR_FROM_CORNER: {
          const awayX = stock.width - x - w;
          const awayY = stock.height - y - h;
          value = -(awayX * awayX + awayY * awayY);
          break;
        }
        case MOST_TOUCHING:
          value = -this.#touchedShare(stock, x, y, w, h);
          tie = Math.min(spareX, spareY);
          break;
        case LEFTMOST_RIGHT:
          value = x + w;
          tie = y;
          break;
        case LOWEST_CORNER:
          value = y;
          tie = x;
          break;
        default:
          value = x;
          tie = y;
      }
      if (value < this.#bestValue || (value === this.#bestValue && tie < this.#bestTie)) {
        this.#bestValue = value;
        this.#bestTie = tie;
        this.#bestAt = i;
        this.#bestBox = box;
      }
    }
    this.#space.work += count;
  }

  /** How much of the box's border would lie against the sheet's border and the boxes placed, as a share of its two sides. */
  #touchedShare(stock: BoxStock, x: number, y: number, w: number, h: number): number {
    const right = x + w;
    const top = y + h;
    let touched = 0;
    if (x === 0) touched += h;
    if (y === 0) touched += w;
    if (right === stock.width) touched += h;
    if (top === stock.height) touched += w;
    const { placed, placedX, placedY, placedCount } = this.#into;
    for (let k = 0; k < placedCount; k++) {
      const at = (placed[k]! >> 2) * 2 + (placed[k]! & 3);
      const left = placedX[k]!;
      const bottom = placedY[k]!;
      const otherRight = left + stock.boxWidth[at]!;
      const otherTop = bottom + stock.boxHeight[at]!;
      if (otherRight === x || left === right) {
        touched += Math.max(0, Math.min(otherTop, top) - Math.max(bottom, y));
      } else if (otherTop === y || bottom === top) {
        touched += Math.max(0, Math.min(otherRight, right) - Math.max(left, x));
      }
    }
    this.#space.work += placedCount;
    return touched / (w + h);
  }

  /** Lays the box just found down; `next` is the place in the order that comes after it. */
  #place(stock: BoxStock, next: number): void {
    const space = this.#space;
    const w = stock.boxWidth[this.#bestBox]!;
    const h = stock.boxHeight[this.#bestBox]!;
    const x = space.minX[this.#bestAt]!;
    const y = space.minY[this.#bestAt]!;
    this.#into.place(codeOf(this.#bestBox >> 1, this.#bestBox & 1), x, y, w * h);
    space.take(x, y, x + w, y + h, this.#leastWidth[next]!, this.#leastHeight[next]!);
  }
}
