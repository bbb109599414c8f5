import type { LayAgain } from '../task.ts';

/**
 * What laying out one sheet gave; it stands until the next sheet is laid out, by whichever decoder.
 * The class guards that all lists have room for the boxes of the sheet in hand.
 */
export class Decoded {
  /** Codes as placed, in order, each with the lie it got, and the lower-left corners of the grown boxes. */
  placed = new Int32Array(64);
  placedX = new Int32Array(64);
  placedY = new Int32Array(64);
  placedCount = 0;
  /** Codes left out, as they were given. */
  left = new Int32Array(64);
  leftCount = 0;
  leftCost = 0;
  /** Area of the boxes placed. */
  area = 0;

  /** Forgets all; `length` boxes are to come. */
  begin(length: number): void {
    this.placedCount = 0;
    this.leftCount = 0;
    this.leftCost = 0;
    this.area = 0;
    if (this.placed.length >= length) return;
    this.placed = new Int32Array(2 * length);
    this.placedX = new Int32Array(2 * length);
    this.placedY = new Int32Array(2 * length);
    this.left = new Int32Array(2 * length);
  }

  place(code: number, x: number, y: number, area: number): void {
    const k = this.placedCount++;
    this.placed[k] = code;
    this.placedX[k] = x;
    this.placedY[k] = y;
    this.area += area;
  }

  leaveOut(code: number, cost: number): void {
    this.left[this.leftCount++] = code;
    this.leftCost += cost;
  }
}

/** What leaving out a box costs. */
export interface Costs {
  /** For each kind; the search changes it as it learns. */
  readonly ofKind: Float64Array;
  /** No kind costs less than this for a unit of its area. */
  leastPerArea: number;
}

/** What a sheet is laid out from: an order of codes, and how. */
export interface LaidOut extends LayAgain {
  readonly codes: Int32Array;
  readonly count: number;
}
