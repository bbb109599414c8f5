import type { Box } from '../../geometry/box.ts';

/**
 * A grid over a sheet that tells which entries may meet a box, for sheets with so many entries that a look at each of them takes longer.
 *
 * Idea: every cell lists the entries whose boxes reach into it. A box asks the cells that it reaches into, and an entry that lies in several of them is
 * given once.
 * Source: the cell method of Bentley & Friedman 1979, "Data structures for range searching", ACM Computing Surveys 11(4).
 * Cost: the entries in the cells of a box; a cell is about as large as an entry.
 * Degenerate cases: what reaches over the sheet counts to the cells at its edge.
 */
export interface Near {
  readonly minX: number;
  readonly minY: number;
  /** Side of the square cells. */
  readonly side: number;
  readonly columns: number;
  readonly rows: number;
  readonly cells: readonly number[][];
  /** For each entry the last question to which it was an answer. */
  readonly answered: Int32Array;
  /** The answers to the last question. */
  readonly found: Int32Array;
  question: number;
}

/** An empty grid of about `count` cells for entries below `total`. */
export function nearOf({ minX, minY, maxX, maxY }: Box, count: number, total: number): Near {
  const [width, height] = [maxX - minX, maxY - minY];
  const side = Math.max(1, Math.sqrt((width * height) / count));
  const columns = Math.ceil(width / side);
  const rows = Math.ceil(height / side);
  return {
    minX,
    minY,
    side,
    columns,
    rows,
    cells: Array.from({ length: columns * rows }, () => []),
    answered: new Int32Array(total),
    found: new Int32Array(total),
    question: 0,
  };
}

export function clearNear({ cells }: Near): void {
  for (const cell of cells) cell.length = 0;
}

export function addNear(near: Near, entry: number, box: Box): void {
  for (let row = rowAt(near, box.minY); row <= rowAt(near, box.maxY); row++)
    for (let column = columnAt(near, box.minX); column <= columnAt(near, box.maxX); column++)
      cellAt(near, row, column).push(entry);
}

/** The box is the one that the entry was added with. */
export function removeNear(near: Near, entry: number, box: Box): void {
  for (let row = rowAt(near, box.minY); row <= rowAt(near, box.maxY); row++)
    for (let column = columnAt(near, box.minX); column <= columnAt(near, box.maxX); column++) {
      const cell = cellAt(near, row, column);
      cell.splice(cell.indexOf(entry), 1);
    }
}

/** Puts the entries that may meet the box into `found` and returns their number. */
export function findNear(
  near: Near,
  minX: number,
  minY: number,
  maxX: number,
  maxY: number,
): number {
  const { answered, found } = near;
  const question = ++near.question;
  const lastRow = rowAt(near, maxY);
  const [firstColumn, lastColumn] = [columnAt(near, minX), columnAt(near, maxX)];
  let count = 0;
  for (let row = rowAt(near, minY); row <= lastRow; row++)
    for (let column = firstColumn; column <= lastColumn; column++) {
      const cell = cellAt(near, row, column);
      for (let k = 0; k < cell.length; k++) {
        const entry = cell[k] as number;
        if (answered[entry] === question) continue;
        answered[entry] = question;
        found[count++] = entry;
      }
    }
  return count;
}

function rowAt({ minY, side, rows }: Near, y: number): number {
  return Math.max(0, Math.min(rows - 1, Math.floor((y - minY) / side)));
}

function columnAt({ minX, side, columns }: Near, x: number): number {
  return Math.max(0, Math.min(columns - 1, Math.floor((x - minX) / side)));
}

function cellAt({ cells, columns }: Near, row: number, column: number): number[] {
  return cells[row * columns + column] as number[];
}
