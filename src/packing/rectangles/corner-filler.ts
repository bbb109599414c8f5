// Fills one sheet corner by corner.
// Idea: take the lowest (or leftmost) corner of all free rectangles and ask every remaining kind how well it goes there; where none goes, give the corner up.
//   The order found, laid out again by the rule "lowest corner", gives the same layout, so the sheet stays an ordinary order.
// Source: Burke, Kendall & Whitwell 2004, "A new placement heuristic for the orthogonal stock-cutting problem", Operations Research 52 (best fit).
//   Here on maximal free rectangles instead of a skyline, with weights drawn anew for each sheet, so that repeated calls differ.
// Cost: placed boxes times kinds; allocation-free after the first growth.
// Degenerate cases: no kind fits: nothing is placed; one kind: rows of it.

import type { Random } from '../random.ts';
import { type BoxStock, type BoxTask, NO_BOX } from './box-task.ts';
import { codeOf } from './code.ts';
import { FreeSpace } from './free-space.ts';
import { LEFTMOST_CORNER, LOWEST_CORNER } from './rules.ts';

/** The class guards the agreement between the free space, the counts and the boxes placed. Its results stand until the next call. */
export class CornerFiller {
  /** How large each kind counts when kinds compete for a corner, largest 1. */
  readonly size: Float64Array;
  placed = new Int32Array(64);
  placedCount = 0;
  area = 0;
  /** The rule that lays the order out again. */
  rule = LOWEST_CORNER;
  /** Kinds still to place and how many of each; what is not placed is left here. */
  readonly kinds: Int32Array;
  readonly counts: Int32Array;
  kindCount = 0;
  readonly #slotOf: Int32Array;
  readonly #space = new FreeSpace();
  readonly #merit: Float64Array;
  #forFlush = 0;
  #forFlushAcross = 0;
  #againstGap = 0;
  #leastWidth = 1;
  #leastHeight = 1;
  #bestMerit = 0;
  #bestSlot = -1;
  #bestBox = 0;

  constructor(task: BoxTask) {
    this.size = Float64Array.from(task.area);
    this.kinds = new Int32Array(task.kindCount);
    this.counts = new Int32Array(task.kindCount);
    this.#slotOf = new Int32Array(task.kindCount).fill(-1);
    this.#merit = new Float64Array(task.kindCount);
  }

  get work(): number {
    return this.#space.work;
  }

  /** Forgets all kinds. */
  clear(): void {
    for (let i = 0; i < this.kindCount; i++) this.#slotOf[this.kinds[i]!] = -1;
    this.kindCount = 0;
  }

  add(kind: number, count: number): void {
    const slot = this.#slotOf[kind]!;
    if (slot >= 0) {
      this.counts[slot] = this.counts[slot]! + count;
      return;
    }
    this.#slotOf[kind] = this.kindCount;
    this.kinds[this.kindCount] = kind;
    this.counts[this.kindCount++] = count;
  }

  /** Places of the kinds added what goes well on one sheet, and takes it off their counts. */
  fill(stock: BoxStock, random: Random): void {
    const space = this.#space;
    this.rule = random() < 0.5 ? LOWEST_CORNER : LEFTMOST_CORNER;
    this.placedCount = 0;
    this.area = 0;
    space.copy(stock.empty, stock.width, stock.height);
    this.#weighKinds(stock, random);
    while (space.count > 0) {
      const corner = this.#nextCorner();
      const x = space.minX[corner]!;
      const y = space.minY[corner]!;
      this.#choose(stock, x, y);
      if (this.#bestSlot < 0) space.giveUp(x, y);
      else this.#place(stock, x, y);
    }
  }

  /** Draws how much size, chance and tight gaps count on this sheet. */
  #weighKinds(stock: BoxStock, random: Random): void {
    const forSize = random();
    const noise = 0.3 * random();
    this.#forFlush = 0.5 * random();
    this.#forFlushAcross = 0.5 * random();
    this.#againstGap = random();
    this.#leastWidth = NO_BOX;
    this.#leastHeight = NO_BOX;
    let largest = 0;
    for (let slot = 0; slot < this.kindCount; slot++)
      largest = Math.max(largest, this.size[this.kinds[slot]!]!);
    for (let slot = 0; slot < this.kindCount; slot++) {
      const at = 2 * this.kinds[slot]!;
      const share = this.size[this.kinds[slot]!]! / largest;
      this.#merit[slot] = forSize * share + noise * random();
      this.#leastWidth = Math.min(this.#leastWidth, stock.boxWidth[at]!, stock.boxWidth[at + 1]!);
      this.#leastHeight = Math.min(
        this.#leastHeight,
        stock.boxHeight[at]!,
        stock.boxHeight[at + 1]!,
      );
    }
  }

  /** The free rectangle with the corner to fill next. */
  #nextCorner(): number {
    const { count, minX, minY } = this.#space;
    const first = this.rule === LOWEST_CORNER ? minY : minX;
    const second = this.rule === LOWEST_CORNER ? minX : minY;
    let best = 0;
    for (let i = 1; i < count; i++) {
      if (first[i]! < first[best]! || (first[i] === first[best] && second[i]! < second[best]!))
        best = i;
    }
    this.#space.work += count;
    return best;
  }

  /** Finds the kind and lie that suit the corner best; none where nothing fits. */
  #choose(stock: BoxStock, x: number, y: number): void {
    const { count, minX, minY } = this.#space;
    this.#bestSlot = -1;
    this.#bestMerit = Number.NEGATIVE_INFINITY;
    for (let i = 0; i < count; i++) {
      if (minX[i] === x && minY[i] === y) this.#chooseIn(stock, i);
    }
    this.#space.work += count;
  }

  #chooseIn(stock: BoxStock, i: number): void {
    const space = this.#space;
    const width = space.maxX[i]! - space.minX[i]!;
    const height = space.maxY[i]! - space.minY[i]!;
    const along = this.rule === LOWEST_CORNER ? width : height;
    for (let slot = 0; slot < this.kindCount; slot++) {
      if (this.counts[slot] === 0) continue;
      const first = 2 * this.kinds[slot]!;
      for (let box = first; box <= first + 1; box++) {
        const spareX = width - stock.boxWidth[box]!;
        const spareY = height - stock.boxHeight[box]!;
        if (spareX < 0 || spareY < 0) continue;
        const gap = this.rule === LOWEST_CORNER ? spareX : spareY;
        const gapAcross = this.rule === LOWEST_CORNER ? spareY : spareX;
        let merit = this.#merit[slot]! - this.#againstGap * (gap / along);
        if (gap === 0) merit += this.#forFlush;
        if (gapAcross === 0) merit += this.#forFlushAcross;
        if (merit > this.#bestMerit) {
          this.#bestMerit = merit;
          this.#bestSlot = slot;
          this.#bestBox = box;
        }
      }
    }
    this.#space.work += this.kindCount;
  }

  #place(stock: BoxStock, x: number, y: number): void {
    const w = stock.boxWidth[this.#bestBox]!;
    const h = stock.boxHeight[this.#bestBox]!;
    if (this.placedCount === this.placed.length) {
      const larger = new Int32Array(2 * this.placed.length);
      larger.set(this.placed);
      this.placed = larger;
    }
    this.placed[this.placedCount++] = codeOf(this.#bestBox >> 1, this.#bestBox & 1);
    this.counts[this.#bestSlot] = this.counts[this.#bestSlot]! - 1;
    this.area += w * h;
    this.#space.take(x, y, x + w, y + h, this.#leastWidth, this.#leastHeight);
  }
}
