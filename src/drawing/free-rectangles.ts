// Finds the places inside an outline where a label can lie: the maximal axis-parallel rectangles that stay inside and clear of obstacles.
// Idea: lay a grid over the box of the outline and mark the cells that are wholly free. Row by row, the free cells below each column's top
//   form a bar chart; every rectangle under its bars that cannot grow sideways is one candidate, found with one stack.
// Source: the largest rectangle under a histogram by a stack, common knowledge of algorithm courses.
// Where we differ: all candidates are kept, since which one suits depends on the label. Cut-outs count with their box.
// Cost: rows of cells times corners of the outline; meant for 48 x 48 cells and outlines of some hundred corners.
// Degenerate cases: an outline thinner than a cell has no free cell and gives no rectangle.
import { type Box, boxOf } from '../geometry/box.ts';
import type { Point } from '../geometry/point.ts';
import type { Region, Ring } from '../geometry/shape.ts';

const CELLS = 48;

/** Free rectangles in `region`, in its own unit; no rectangle enters a cut-out or an obstacle. */
export function freeRectangles(region: Region, obstacles: readonly Box[]): readonly Box[] {
  const box = boxOf(region.outer);
  const blocks = [...region.holes.map((hole) => boxOf(hole)), ...obstacles];
  if (blocks.length === 0 && isBox(region.outer, box)) return [box];
  return maximalRectangles(freeCells(region.outer, blocks, box)).map((cells) =>
    boxOfCells(box, cells),
  );
}

function isBox(ring: Ring, { minX, minY, maxX, maxY }: Box): boolean {
  return (
    ring.length === 4 &&
    ring.every(({ x, y }) => (x === minX || x === maxX) && (y === minY || y === maxY))
  );
}

/** `free[row][column]`, rows upwards: all four corners of the cell lie inside and nothing blocks it. */
function freeCells(outer: Ring, blocks: readonly Box[], box: Box): boolean[][] {
  const lines = Array.from({ length: CELLS + 1 }, (_, i) => ({
    x: lineAt(box.minX, box.maxX, i),
    y: lineAt(box.minY, box.maxY, i),
  }));
  const isWhole = isBox(outer, box);
  const across = lines.map(({ x }) => x);
  const inside = lines.map(({ y }) =>
    isWhole ? across.map(() => true) : insideAlong(outer, y, across),
  );
  const cells = lines.slice(0, CELLS).map((_, i) => i);
  const free = cells.map((row) =>
    cells.map((column) =>
      [row, row + 1].every((r) => inside[r]?.[column] && inside[r]?.[column + 1]),
    ),
  );
  for (const { minX, maxX, minY, maxY } of blocks) {
    const columns = cells.filter((i) => lines[i]!.x < maxX && minX < lines[i + 1]!.x);
    const rows = cells.filter((i) => lines[i]!.y < maxY && minY < lines[i + 1]!.y);
    for (const row of rows) for (const column of columns) free[row]![column] = false;
  }
  return free;
}

/** Which places on a level lie in the ring or on it: those between the sides that cross it from just below or from just above. */
function insideAlong(ring: Ring, y: number, across: readonly number[]): boolean[] {
  const spans = [
    ...spansAlong(ring, y, (point) => point.y < y),
    ...spansAlong(ring, y, (point) => point.y <= y),
  ];
  return across.map((x) => spans.some(({ from, to }) => from <= x && x <= to));
}

/** Where the ring winds round the places on a level at all. */
function spansAlong(ring: Ring, y: number, isBelow: (point: Point) => boolean): readonly Span[] {
  const crossings = ring
    .flatMap((to, i) => {
      const from = ring.at(i - 1)!;
      if (isBelow(from) === isBelow(to)) return [];
      const x = from.x + ((to.x - from.x) * (y - from.y)) / (to.y - from.y);
      return [{ x, turn: isBelow(from) ? 1 : -1 }];
    })
    .sort((a, b) => a.x - b.x);
  let winding = 0;
  return crossings.flatMap(({ x, turn }, i) => {
    winding += turn;
    return winding === 0 ? [] : [{ from: x, to: crossings[i + 1]!.x }];
  });
}

interface Span {
  readonly from: number;
  readonly to: number;
}

/** A box of whole cells as a box in the unit of `box`. */
function boxOfCells(box: Box, cells: Box): Box {
  const x = (index: number) => lineAt(box.minX, box.maxX, index);
  const y = (index: number) => lineAt(box.minY, box.maxY, index);
  return { minX: x(cells.minX), maxX: x(cells.maxX), minY: y(cells.minY), maxY: y(cells.maxY) };
}

/** Where a line of the grid runs that divides the way from `from` to `to` into cells. */
function lineAt(from: number, to: number, index: number): number {
  return from + ((to - from) * index) / CELLS;
}

function maximalRectangles(free: readonly (readonly boolean[])[]): readonly Box[] {
  const found: Box[] = [];
  const heights = new Array<number>(CELLS).fill(0);
  free.forEach((cells, row) => {
    for (let column = 0; column < CELLS; column++) {
      heights[column] = cells[column] ? (heights[column] ?? 0) + 1 : 0;
    }
    const growsUp = (from: number, to: number) =>
      row + 1 < CELLS && free[row + 1]?.slice(from, to).every((cell) => cell) === true;
    for (const { from, to, height } of barRectangles(heights)) {
      if (growsUp(from, to)) continue;
      found.push({ minX: from, maxX: to, minY: row + 1 - height, maxY: row + 1 });
    }
  });
  return found;
}

/** The rectangles under a bar chart that can grow neither sideways nor upwards: columns `from` up to before `to`. */
function barRectangles(
  heights: readonly number[],
): readonly { from: number; to: number; height: number }[] {
  const found: { from: number; to: number; height: number }[] = [];
  const open: { from: number; height: number }[] = [];
  [...heights, 0].forEach((height, column) => {
    let from = column;
    for (let top = open.at(-1); top !== undefined && top.height > height; top = open.at(-1)) {
      found.push({ from: top.from, to: column, height: top.height });
      from = top.from;
      open.pop();
    }
    if (height > 0 && open.at(-1)?.height !== height) open.push({ from, height });
  });
  return found;
}
