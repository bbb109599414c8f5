// Fills one sheet with strips of boxes so that what lies on it is worth as much as possible.
// Idea: strips grow higher one kind of box after the other, and each kind added to the lower ones turns the richest strip of that height into the next; a second knapsack
//   then piles strips up to the height of the sheet. Where the strips together want more boxes than there are, those that are served stay, and the height that is left is filled anew.
// Source: Gilmore & Gomory 1965, "Multistage cutting stock problems of two and more dimensions", Operations Research 13, section 2 (strips, then sheets); the knapsack that
//   counts its copies is the usual one for bounded counts.
// Where we differ: counts are kept within a strip, not over the sheet, and set right afterwards; sizes are rounded up to cells of the sheet where they have no common measure.
// Cost: cells of the width times boxes, and cells of the height times strips; meant for jobs with hundreds of kinds and many copies.
// Degenerate cases: nothing fits: an empty pattern; a kind that is worth nothing is not looked at.
import { commonDivisor } from '../common-divisor.ts';
import { COLUMN, type Direction } from '../panelsaw/direction.ts';
import { type BoxStock, NO_BOX } from './box-task.ts';
import { codeOf } from './code.ts';

/** Cells of a side of the sheet, unless its boxes have a common measure that makes fewer. */
const MOST_CELLS = 4096;
/** Sums of worths are told apart by more than they are rounded. */
const TINY = 1e-12;

/** What one pattern holds, strip after strip, in each the highest box first. */
export interface StripPattern {
  readonly codes: readonly number[];
  readonly worth: number;
}

/** The sheet as seen along the strips: boxes in cells, the lowest first. */
interface Grid {
  readonly boxes: readonly GridBox[];
  readonly width: number;
  readonly height: number;
}

interface GridBox {
  readonly kind: number;
  readonly code: number;
  readonly width: number;
  readonly height: number;
}

/** The class guards the agreement between the tables of one knapsack. */
export class StripPatterns {
  /** Cells looked at so far, for counted work. */
  work = 0;
  readonly #along: Grid;
  readonly #across: Grid;
  readonly #worth: Float64Array;
  readonly #piled: Float64Array;
  readonly #topStrip: Int32Array;
  /** How many of the newest box are in the richest strip of each width: one row for each box. */
  #copies = new Uint16Array(0);

  constructor(stock: BoxStock) {
    this.#along = gridOf(stock.width, stock.height, stock.boxWidth, stock.boxHeight);
    this.#across = gridOf(stock.height, stock.width, stock.boxHeight, stock.boxWidth);
    const cells = Math.max(this.#along.width, this.#across.width) + 1;
    const piled = Math.max(this.#along.height, this.#across.height) + 1;
    this.#worth = new Float64Array(cells);
    this.#piled = new Float64Array(piled);
    this.#topStrip = new Int32Array(piled);
  }

  /** Cells of the tables of both ways, when all boxes are looked at. */
  get cells(): number {
    const { boxes } = this.#along;
    return boxes.length * (this.#along.width + this.#across.width + 2);
  }

  /** The richest pattern of strips one above the other, or side by side, of at most `remaining` boxes of each kind. */
  richest(direction: Direction, worths: Float64Array, remaining: Int32Array): StripPattern {
    const grid = direction === COLUMN ? this.#along : this.#across;
    const left = remaining.slice();
    const strips: GridBox[][] = [];
    let worth = 0;
    let height = grid.height;
    for (;;) {
      const { served, isShort } = this.#fill(grid, height, worths, left);
      for (const strip of served) {
        strips.push(strip);
        height -= strip[0]!.height;
        for (const { kind } of strip) worth += worths[kind]!;
      }
      if (!isShort || served.length === 0) break;
    }
    strips.sort((a, b) => b[0]!.height - a[0]!.height);
    return { codes: strips.flat().map(({ code }) => code), worth };
  }

  /** Strips up to a height that `left` can serve, taken off it; whether there were more that it could not. */
  #fill(grid: Grid, height: number, worths: Float64Array, left: Int32Array) {
    const boxes = grid.boxes.filter(
      ({ kind, height: own }) => left[kind]! > 0 && worths[kind]! > 0 && own <= height,
    );
    const strips = this.#strips(boxes, grid.width, worths, left);
    const served: GridBox[][] = [];
    let isShort = false;
    for (const index of this.#pile(strips, height)) {
      const strip = this.#boxesOf(boxes, strips[index]!.count, grid.width);
      const taken: GridBox[] = [];
      for (const box of strip) {
        if (left[box.kind] === 0) break;
        left[box.kind]!--;
        taken.push(box);
      }
      if (taken.length === strip.length) served.push(strip);
      else {
        isShort = true;
        for (const { kind } of taken) left[kind]!++;
      }
    }
    return { served, isShort };
  }

  /** The richest strip of each height that is richer than all lower ones. */
  #strips(
    boxes: readonly GridBox[],
    width: number,
    worths: Float64Array,
    left: Int32Array,
  ): Strip[] {
    const worth = this.#worth.fill(0, 0, width + 1);
    const row = width + 1;
    if (this.#copies.length < boxes.length * row)
      this.#copies = new Uint16Array(boxes.length * row);
    const strips: Strip[] = [];
    let best = 0;
    for (const [i, box] of boxes.entries()) {
      const copies = this.#copies.subarray(i * row, (i + 1) * row).fill(0);
      this.#add(worth, copies, box.width, worths[box.kind]!, left[box.kind]!);
      if (boxes[i + 1]?.height === box.height || worth[width]! <= best + TINY) continue;
      best = worth[width]!;
      strips.push({ height: box.height, worth: best, count: i + 1 });
    }
    this.work += boxes.length * row;
    return strips;
  }

  #add(worth: Float64Array, copies: Uint16Array, step: number, gain: number, most: number): void {
    for (let x = step; x < copies.length; x++) {
      const sum = worth[x - step]! + gain;
      if (sum <= worth[x]! + TINY || copies[x - step]! >= most) continue;
      worth[x] = sum;
      copies[x] = copies[x - step]! + 1;
    }
  }

  /** The strips, by index and the highest first, whose heights together are worth most. */
  #pile(strips: readonly Strip[], height: number): number[] {
    const piled = this.#piled;
    const topStrip = this.#topStrip;
    piled[0] = 0;
    for (let y = 1; y <= height; y++) {
      piled[y] = piled[y - 1]!;
      topStrip[y] = -1;
      for (let s = 0; s < strips.length && strips[s]!.height <= y; s++) {
        const sum = piled[y - strips[s]!.height]! + strips[s]!.worth;
        if (sum <= piled[y]! + TINY) continue;
        piled[y] = sum;
        topStrip[y] = s;
      }
    }
    this.work += height * strips.length;
    const chosen: number[] = [];
    for (let y = height; y > 0; ) {
      const strip = topStrip[y]!;
      if (strip < 0) y--;
      else {
        chosen.push(strip);
        y -= strips[strip]!.height;
      }
    }
    return chosen.sort((a, b) => b - a);
  }

  /** The boxes of the richest strip of the first `count` boxes, the highest first. */
  #boxesOf(boxes: readonly GridBox[], count: number, width: number): GridBox[] {
    const strip: GridBox[] = [];
    let x = width;
    for (let i = count - 1; i >= 0; i--) {
      const copies = this.#copies[i * (width + 1) + x]!;
      for (let n = 0; n < copies; n++) strip.push(boxes[i]!);
      x -= copies * boxes[i]!.width;
    }
    return strip;
  }
}

/** The richest strip of the lowest `count` boxes. */
interface Strip {
  readonly height: number;
  readonly worth: number;
  readonly count: number;
}

function gridOf(width: number, height: number, boxWidth: Int32Array, boxHeight: Int32Array): Grid {
  const cellX = cellOf(width, boxWidth);
  const cellY = cellOf(height, boxHeight);
  const boxes = [...boxWidth.keys()]
    .filter((box) => boxWidth[box] !== NO_BOX)
    .map((box) => ({
      kind: box >> 1,
      code: codeOf(box >> 1, box & 1),
      width: Math.ceil(boxWidth[box]! / cellX),
      height: Math.ceil(boxHeight[box]! / cellY),
    }))
    .sort((a, b) => a.height - b.height || a.width - b.width || a.code - b.code);
  return { boxes, width: Math.floor(width / cellX), height: Math.floor(height / cellY) };
}

/** The common measure of the sizes, or one that makes few enough cells. */
function cellOf(side: number, sizes: Int32Array): number {
  let common = 0;
  for (const size of sizes) if (size !== NO_BOX) common = commonDivisor(common, size);
  return Math.max(common, Math.ceil(side / MOST_CELLS), 1);
}
