import type { Random } from '../random.ts';
import type { Crowd, CrowdSheet } from './crowd.ts';
import type { Form } from './forms.ts';
import { findNear } from './near.ts';
import type { Range } from './probe.ts';
import type { RootGrid, RootGrids } from './root-grids.ts';

/** A form that may lie at any place of a range. */
export interface Quest {
  readonly form: number;
  readonly sheet: number;
  readonly range: Range;
}

/** So many rows of a grid are looked at, at most. */
const MOST_ROWS = 128;

/** The second place is more than as many points away from the first, along x or y. */
const APART = 2;

/** Additions that make up a unit of work. */
const ADDITIONS_PER_UNIT = 8;

/**
 * The two places on a grid at which entry `i` has the least weighted loss, the better one first; about, as all lie on the grid.
 *
 * Idea: how much two forms overlap is known for all points of one grid (root-grids.ts). Each entry near to the range is moved to the point next to it,
 * what its overlap would be is added up times its weight, and so the loss at some thousand points comes for the price of some dozen single looks.
 * Source: the cost maps of Sato, Martins, Gomes & Tsuzuki 2019, "Raster penetration map applied to the irregular packing problem", European
 * Journal of Operational Research 279(2), from memory.
 * Where we differ: the grid only proposes places; what they are worth and where they lie exactly is left to a descent.
 * Cost: about eight additions for each point; a range of more points is looked at through a window at a random place.
 * Degenerate cases: a range of a single point has one place.
 */
export function leastPlaces(
  crowd: Crowd,
  grids: RootGrids,
  i: number,
  quest: Quest,
  random: Random,
): readonly { readonly x: number; readonly y: number }[] {
  const view = viewOf(quest.range, grids, random);
  addUp(crowd, grids, i, quest, view);
  const first = leastPoint(grids.sums, view, -1);
  const second = leastPoint(grids.sums, view, first);
  return [first, second]
    .filter((point) => point >= 0)
    .map((point) => ({
      x: Math.round(view.minX + (point % view.columns) * grids.pitch),
      y: Math.round(view.minY + Math.floor(point / view.columns) * grids.pitch),
    }));
}

/** The points that are looked at. */
interface View {
  readonly minX: number;
  readonly minY: number;
  readonly columns: number;
  readonly rows: number;
}

function viewOf(
  { minX, minY, maxX, maxY }: Range,
  { pitch, sums }: RootGrids,
  random: Random,
): View {
  const allRows = Math.floor((maxY - minY) / pitch) + 1;
  const allColumns = Math.floor((maxX - minX) / pitch) + 1;
  const rows = Math.min(MOST_ROWS, allRows);
  const columns = Math.min(Math.floor(sums.length / rows), allColumns);
  const firstColumn = Math.floor(random() * (allColumns - columns + 1));
  const firstRow = Math.floor(random() * (allRows - rows + 1));
  return { minX: minX + firstColumn * pitch, minY: minY + firstRow * pitch, columns, rows };
}

/** Fills the sums with the loss at each point, by rows, but for the size of the entry itself. */
function addUp(
  crowd: Crowd,
  { pitch, of, sums }: RootGrids,
  i: number,
  { form, sheet }: Quest,
  view: View,
): void {
  const { minX, minY, columns, rows } = view;
  const { weight, size, x, y, form: forms } = crowd;
  const { near } = crowd.sheets[sheet] as CrowdSheet;
  const { reach } = crowd.setup.forms[form] as Form;
  const count = findNear(
    near,
    minX + reach.minX,
    minY + reach.minY,
    minX + columns * pitch + reach.maxX,
    minY + rows * pitch + reach.maxY,
  );
  const known = of.row(form);
  sums.fill(0, 0, columns * rows);
  let additions = columns * rows;
  for (let k = 0; k < count; k++) {
    const j = near.found[k] as number;
    if (j === i) continue;
    const factor = (weight[i * crowd.total + j] as number) * (size[j] as number);
    const column = Math.round(((x[j] as number) - minX) / pitch);
    const row = Math.round(((y[j] as number) - minY) / pitch);
    const grid = known[forms[j] as number] ?? of(form, forms[j] as number);
    additions += addGrid(sums, view, grid, { column, row, factor });
  }
  crowd.work += count + Math.ceil(additions / ADDITIONS_PER_UNIT);
}

/** Adds a grid whose second form lies at a point, as far as it is in view; returns the number of additions. */
function addGrid(
  sums: Float64Array,
  view: View,
  grid: RootGrid,
  at: { readonly column: number; readonly row: number; readonly factor: number },
): number {
  const { columns, roots } = grid;
  const { factor } = at;
  const atColumn = at.column + grid.fromColumn;
  const atRow = at.row + grid.fromRow;
  const from = Math.max(0, -atColumn);
  const to = Math.min(columns, view.columns - atColumn);
  const last = Math.min(grid.rows, view.rows - atRow);
  if (to <= from) return 0;
  let additions = 0;
  for (let row = Math.max(0, -atRow); row < last; row++) {
    const start = row * columns;
    const shift = (atRow + row) * view.columns + atColumn - start;
    for (let k = start + from; k < start + to; k++)
      sums[shift + k] = (sums[shift + k] as number) + factor * (roots[k] as number);
    additions += to - from;
  }
  return additions;
}

/** The point with the least sum, not near to the point `other` where that is not below 0; -1 where there is none. */
function leastPoint(sums: Float64Array, { columns, rows }: View, other: number): number {
  const otherRow = Math.floor(other / columns);
  const otherColumn = other - otherRow * columns;
  let least = Number.POSITIVE_INFINITY;
  let found = -1;
  for (let k = 0; k < columns * rows; k++) {
    if ((sums[k] as number) >= least) continue;
    const row = Math.floor(k / columns);
    const isNear =
      Math.abs(row - otherRow) <= APART && Math.abs(k - row * columns - otherColumn) <= APART;
    if (other >= 0 && isNear) continue;
    least = sums[k] as number;
    found = k;
  }
  return found;
}
