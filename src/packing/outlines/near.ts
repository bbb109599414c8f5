import type { Box } from '../../geometry/box.ts';

/**
 * Tells which entries on a sheet may meet a box.
 *
 * Idea: the sheet is cut into columns and into rows, and each keeps a set of the entries that reach into it, one bit for each. The entries in the columns of
 * a box that are in its rows as well are the answer, 32 of them by one operation.
 * Source: the projection method of Bentley & Friedman 1979, "Data structures for range searching", ACM Computing Surveys 11(4), with sets of bits in
 * the place of sorted lists.
 * Cost: columns and rows that a box reaches into, for each 32 entries on the sheet.
 * Degenerate cases: what reaches over the sheet counts to the columns and rows at its edge.
 */
export interface Near {
  readonly columns: Bands;
  readonly rows: Bands;
  /** An entry has a bit of its own as long as it lies here. */
  readonly bitOf: Int32Array;
  readonly entryOf: Int32Array;
  readonly free: number[];
  /** Bits that were ever given away. */
  given: number;
  /** The answers to the last question. */
  readonly found: Int32Array;
}

interface Bands {
  readonly from: number;
  readonly perUnit: number;
  readonly count: number;
  /** The sets, for each 32 entries one band after the other. */
  readonly sets: Int32Array;
}

/** Bands for each entry's own width or height, and no more than so many in all. */
const BANDS_PER_ENTRY = 3;
const MOST_BANDS = 1024;

/** Nothing yet, for entries below `total` that are about as wide and high as given. */
export function nearOf(
  { minX, minY, maxX, maxY }: Box,
  { width, height }: { readonly width: number; readonly height: number },
  total: number,
): Near {
  return {
    columns: bandsOf(minX, maxX, width, total),
    rows: bandsOf(minY, maxY, height, total),
    bitOf: new Int32Array(total),
    entryOf: new Int32Array(total),
    free: [],
    given: 0,
    found: new Int32Array(total),
  };
}

function bandsOf(from: number, to: number, size: number, total: number): Bands {
  const count = Math.max(
    1,
    Math.min(MOST_BANDS, Math.ceil((BANDS_PER_ENTRY * (to - from)) / size)),
  );
  const sets = new Int32Array(count * Math.ceil(total / 32));
  return { from, perUnit: count / (to - from), count, sets };
}

export function clearNear(near: Near): void {
  near.columns.sets.fill(0);
  near.rows.sets.fill(0);
  near.free.length = 0;
  near.given = 0;
}

export function addNear(near: Near, entry: number, { minX, minY, maxX, maxY }: Box): void {
  const bit = near.free.pop() ?? near.given++;
  near.bitOf[entry] = bit;
  near.entryOf[bit] = entry;
  turn(near.columns, bit, minX, maxX);
  turn(near.rows, bit, minY, maxY);
}

/** The box is the one that the entry was added with. */
export function removeNear(near: Near, entry: number, { minX, minY, maxX, maxY }: Box): void {
  const bit = near.bitOf[entry] as number;
  near.free.push(bit);
  turn(near.columns, bit, minX, maxX);
  turn(near.rows, bit, minY, maxY);
}

/** Turns the bit over in all bands between two places. */
function turn(bands: Bands, bit: number, from: number, to: number): void {
  const first = (bit >> 5) * bands.count;
  const last = first + bandAt(bands, to);
  for (let band = first + bandAt(bands, from); band <= last; band++)
    bands.sets[band] = (bands.sets[band] as number) ^ (1 << (bit & 31));
}

/** Puts the entries that may meet the box into `found` and returns their number. */
export function findNear(
  near: Near,
  minX: number,
  minY: number,
  maxX: number,
  maxY: number,
): number {
  const { columns, rows, entryOf, found, given } = near;
  const [inColumns, inRows] = [columns.sets, rows.sets];
  const [firstColumn, lastColumn] = [bandAt(columns, minX), bandAt(columns, maxX)];
  const [firstRow, lastRow] = [bandAt(rows, minY), bandAt(rows, maxY)];
  let count = 0;
  for (let word = 0; word << 5 < given; word++) {
    let level = 0;
    const atColumn = word * columns.count;
    for (let k = atColumn + firstColumn; k <= atColumn + lastColumn; k++)
      level |= inColumns[k] as number;
    if (level === 0) continue;
    let upright = 0;
    const atRow = word * rows.count;
    for (let k = atRow + firstRow; k <= atRow + lastRow; k++) upright |= inRows[k] as number;
    for (let bits = level & upright; bits !== 0; bits &= bits - 1)
      found[count++] = entryOf[(word << 5) + 31 - Math.clz32(bits & -bits)] as number;
  }
  return count;
}

function bandAt({ from, perUnit, count }: Bands, at: number): number {
  return Math.max(0, Math.min(count - 1, Math.floor((at - from) * perUnit)));
}
