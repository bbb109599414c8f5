import type { Form } from './forms.ts';
import { type Overlaps, rootAt } from './overlap.ts';
import { type PairTable, pairTable } from './pair-table.ts';

/**
 * The roots of the overlap of any two forms at the points of one grid, so that those of many forms can be added up point by point.
 * An index of a grid is where the first form's origin lies, seen from the second one's, in pitches.
 */
export interface RootGrids {
  /** Between two points of the grid, along x as along y. */
  readonly pitch: number;
  readonly of: PairTable<RootGrid>;
  /** What the roots are added up in; no more points are looked at at once. */
  readonly sums: Float64Array;
}

/** Two forms do not overlap outside of it. */
export interface RootGrid {
  readonly fromColumn: number;
  readonly fromRow: number;
  readonly columns: number;
  readonly rows: number;
  /** By rows. */
  readonly roots: Float32Array;
}

/** Pitches along the side of a square that is as large as the forms are on average: from the fewest that tell places apart to the most that pay. */
const LEAST_PITCHES = 3;
const MOST_PITCHES = 6;

/** Pitches times forms, at most: the grids of many forms are coarser, so that those of all pairs stay about as large. */
const MOST_PITCHES_OF_ALL = 960;

/** Units of work, at least, for two forms and a square pitch; with fewer, grids take more than they save. */
const LEAST_WORK = 200;

/** As many points are looked at at once. */
const MOST_POINTS = 8192;

/** About 30 million bytes. */
const MOST_ROOTS = 8e6;
const GRID_OVERHEAD = 40;

/** The grids of the forms, each made when first asked for; null where the `count` of them that a search looks at is too great, or too great for the work. */
export function rootGrids(
  forms: readonly Form[],
  overlaps: Overlaps,
  { work, count }: { readonly work: number; readonly count: number },
): RootGrids | null {
  const pitches = Math.min(MOST_PITCHES, MOST_PITCHES_OF_ALL / count);
  if (count === 0 || pitches < LEAST_PITCHES) return null;
  const side = pitches * count;
  if (work < LEAST_WORK * side * side) return null;
  const area = forms.reduce((sum, form) => sum + form.area, 0) / forms.length;
  const pitch = Math.max(1, Math.sqrt(area) / pitches);
  const of: PairTable<RootGrid> = pairTable({
    count: forms.length,
    make: (first, second) => {
      const other = of.row(second)[first];
      return other === undefined
        ? gridOf(overlaps, pitch, [first, second], forms)
        : turnedRound(other);
    },
    sizeOf: ({ roots }) => GRID_OVERHEAD + roots.length,
    room: MOST_ROOTS,
  });
  return { pitch, of, sums: new Float64Array(MOST_POINTS) };
}

function gridOf(
  overlaps: Overlaps,
  pitch: number,
  [first, second]: readonly [number, number],
  forms: readonly Form[],
): RootGrid {
  const { reach: own } = forms[first] as Form;
  const { reach: other } = forms[second] as Form;
  const fromColumn = Math.floor((other.minX - own.maxX) / pitch) + 1;
  const fromRow = Math.floor((other.minY - own.maxY) / pitch) + 1;
  const columns = Math.max(0, Math.ceil((other.maxX - own.minX) / pitch) - fromColumn);
  const rows = Math.max(0, Math.ceil((other.maxY - own.minY) / pitch) - fromRow);
  const map = overlaps.maps.ofForm[first]?.[second] ?? 0;
  const roots = Float32Array.from({ length: columns * rows }, (_, k) => {
    const row = Math.floor(k / columns);
    const x = Math.round((fromColumn + k - row * columns) * pitch);
    const y = Math.round((fromRow + row) * pitch);
    return rootAt(overlaps, map, first, second, x, y, Number.POSITIVE_INFINITY);
  });
  return { fromColumn, fromRow, columns, rows, roots };
}

/** The grid of the same two forms seen from the first one. */
function turnedRound({ fromColumn, fromRow, columns, rows, roots }: RootGrid): RootGrid {
  return {
    fromColumn: 1 - fromColumn - columns,
    fromRow: 1 - fromRow - rows,
    columns,
    rows,
    roots: roots.toReversed(),
  };
}
