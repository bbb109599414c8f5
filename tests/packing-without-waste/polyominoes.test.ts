import { describe, expect, it } from 'vitest';
import type { Shape } from '../../src/geometry/shape.ts';
import { packingTask } from '../../src/packing/bodies.ts';
import { type Random, seededRandom } from '../../src/packing/random.ts';
import { packWithoutWaste } from '../../src/packing/without-waste/pack-without-waste.ts';
import { WorkBudget } from '../../src/packing/work.ts';
import { jobOf, partOf, sheetOf } from '../helpers/jobs.ts';
import { lShape, polygon, rect } from '../helpers/shapes.ts';
import { faultsOf } from '../packing-outlines/second-look.ts';

type Cell = readonly [number, number];

/** A shape of square cells, 100 mm wide each. */
interface Polyomino {
  readonly shape: Shape;
  readonly cells: readonly Cell[];
}

const SINGLE: Polyomino = { shape: rect(100, 100), cells: [[0, 0]] };

const POLYOMINOES: readonly Polyomino[] = [
  SINGLE,
  { shape: rect(200, 100), cells: cellsOf('##') },
  { shape: rect(300, 100), cells: cellsOf('###') },
  { shape: lShape(200, 200, 100), cells: cellsOf('#.', '##') },
  { shape: lShape(300, 200, 100), cells: cellsOf('#..', '###') },
  { shape: lShape(200, 300, 100), cells: cellsOf('#.', '#.', '##') },
  {
    shape: corners([0, 0], [3, 0], [3, 1], [2, 1], [2, 2], [1, 2], [1, 1], [0, 1]),
    cells: cellsOf('.#.', '###'),
  },
  {
    shape: corners([0, 0], [3, 0], [3, 2], [2, 2], [2, 1], [1, 1], [1, 2], [0, 2]),
    cells: cellsOf('#.#', '###'),
  },
  {
    shape: corners([0, 0], [2, 0], [2, 1], [3, 1], [3, 2], [1, 2], [1, 1], [0, 1]),
    cells: cellsOf('.##', '##.'),
  },
];

/** A small sheet and as many polyominoes, drawn by chance, as its area holds. */
function drawnJob(random: Random) {
  const upTo = (most: number) => Math.floor(random() * most);
  const columns = 2 + upTo(4);
  const rows = 2 + upTo(3);
  const drawn: Polyomino[] = [];
  for (let left = columns * rows; left > 0; left -= drawn.at(-1)?.cells.length ?? 0) {
    const one = POLYOMINOES[upTo(POLYOMINOES.length)] as Polyomino;
    drawn.push(one.cells.length <= left ? one : SINGLE);
  }
  return { columns, rows, drawn };
}

describe('sheets of polyominoes', () => {
  it.each(Array.from({ length: 12 }, (_, i) => 100 * i))(
    'are filled exactly where trying every cell fills them, from seed %i on',
    (first) => {
      for (let seed = first; seed < first + 100; seed++) {
        const { columns, rows, drawn } = drawnJob(seededRandom(seed));
        const task = packingTask(
          jobOf({
            spacing: 0,
            sheets: [sheetOf(100 * columns, 100 * rows)],
            parts: drawn.map(({ shape }) => partOf(shape, { turns: [0, 90, 180, 270] })),
          }),
          0,
        );
        const start = { sheets: [], unplaced: task.bodies.map(({ index }) => index) };
        const budget = new WorkBudget(1e8);
        const search = { random: seededRandom(seed), atLeast: 0, track: 0, found: () => undefined };
        const candidate = packWithoutWaste(task, { ...search, budget, start });
        expect(faultsOf(task, candidate), `seed ${seed}`).toEqual([]);
        const isFilled = candidate.unplaced.length === 0;
        const grid = new Array<boolean>(columns * rows).fill(false);
        expect(isFilled, `seed ${seed}`).toBe(fillsGrid(grid, columns, drawn));
        expect(budget.exhausted).toBe(false);
      }
    },
  );
});

/** Whether the polyominoes fill what is free of a grid: each in turn in the first free cell, in every way. */
function fillsGrid(grid: readonly boolean[], columns: number, left: readonly Polyomino[]): boolean {
  const at = grid.indexOf(false);
  if (at < 0) return true;
  const [x, y] = [at % columns, Math.floor(at / columns)];
  return left.some((one, i) =>
    turnsOf(one.cells).some((cells) => {
      const own = cells.map(([dx, dy]): Cell => [x + dx, y + dy]);
      const isFree = own.every(
        ([u, v]) => u >= 0 && u < columns && grid[v * columns + u] === false,
      );
      if (!isFree) return false;
      const next = grid.map((taken, k) => taken || own.some(([u, v]) => v * columns + u === k));
      return fillsGrid(next, columns, left.toSpliced(i, 1));
    }),
  );
}

/** The cells turned by quarters, each time with the first one of the lowest row at the origin. */
function turnsOf(cells: readonly Cell[]): Cell[][] {
  return [0, 1, 2, 3].map((quarters) => {
    const turned = cells.map(([x, y]): Cell => {
      if (quarters === 1) return [-y, x];
      if (quarters === 2) return [-x, -y];
      return quarters === 3 ? [y, -x] : [x, y];
    });
    const [fromX, fromY] = turned.toSorted((a, b) => a[1] - b[1] || a[0] - b[0])[0] as Cell;
    return turned.map(([x, y]): Cell => [x - fromX, y - fromY]);
  });
}

/** Rows from the top; `#` is a cell. */
function cellsOf(...rows: readonly string[]): Cell[] {
  return rows.flatMap((row, i) =>
    [...row].flatMap((sign, x): Cell[] => (sign === '#' ? [[x, rows.length - 1 - i]] : [])),
  );
}

function corners(...cells: readonly Cell[]): Shape {
  return polygon(...cells.map(([x, y]) => [100 * x, 100 * y] as const));
}
