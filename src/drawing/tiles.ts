// Lays a drawing that is larger than the paper over pages.
// Idea: the paper's printable part less a foot is a window. Windows overlap, and the middle of each overlap is a seam: along it the pages are
//   cut and joined. Seams lie on round coordinates of the drawing, so that the figures at the register marks are round. The seams part the
//   drawing into cells; a page is printed where its cell has ink, so every point of the drawing is on a page.
// Source: our own. That prints are joined by overlaps and crosses is common practice, no source.
// Where we differ: pages without ink are left out only while the others hang together; an island could not be put in its place.
// Cost: pages times items.
// Degenerate cases: a drawing that fits is one page without seams.
import { type Box, growBox } from '../geometry/box.ts';
import type { FileUnit } from '../model/job.ts';
import type { Drawing, DrawnPoint } from './display-list.ts';
import { inkTest } from './ink.ts';
import { indexLetters } from './sheet-view.ts';

/** Of every page, in millimetres of paper: what printers leave white, what the foot takes, and how far neighbours overlap. */
export const TILE = { margin: 10, foot: 17, overlap: 10 } as const;

/** Seams lie on multiples of this, in millimetres of paper. */
const GRID: Readonly<Record<FileUnit, number>> = { mm: 5, in: 6.35 };

/** Room that a cross wants around it, in millimetres of paper, and by how many steps it may give way. */
const CLEAR = 5;
const ASIDE = [0, 1, -1, 2, -2, 3, -3, 4, -4] as const;

/** Long side first, in millimetres. */
export type PaperSize = readonly [number, number];

/** One page of the drawing. */
export interface Tile {
  /** Column by letter from the left, row by number from above: "B1". */
  readonly name: string;
  readonly column: number;
  readonly row: number;
  /** What of the drawing is on it. */
  readonly window: Box;
  /** Where it is joined to a neighbour that is printed. */
  readonly seams: readonly { readonly from: DrawnPoint; readonly to: DrawnPoint }[];
  /** Crosses on its seams; the neighbour has the same ones. */
  readonly marks: readonly DrawnPoint[];
}

/** How a drawing is spread; windows, seams and marks in its own millimetres. */
export interface Tiling {
  readonly scale: number;
  readonly page: { readonly width: number; readonly height: number };
  readonly columns: number;
  readonly rows: number;
  readonly tiles: readonly Tile[];
}

/** The drawing at 1 : `scale`, on pages that lie the way that needs fewer of them, upright if in doubt. */
export function tileDrawing(
  drawing: Drawing,
  [long, short]: PaperSize,
  scale: number,
  unit: FileUnit,
): Tiling {
  const [upright, across] = [
    spread(drawing, { width: short, height: long }, scale, unit),
    spread(drawing, { width: long, height: short }, scale, unit),
  ];
  return across.tiles.length < upright.tiles.length ? across : upright;
}

/** How many pages a drawing of this size takes at most, before blank ones are left out; millimetres of paper. */
export function mostTiles(
  width: number,
  height: number,
  [long, short]: PaperSize,
  unit: FileUnit,
): number {
  const count = (page: Tiling['page']) => {
    const { across, up } = steps(page, unit);
    return cellCount(width, across, unit) * cellCount(height, up, unit);
  };
  return Math.min(count({ width: short, height: long }), count({ width: long, height: short }));
}

/** From seam to seam, in millimetres of paper. */
function steps(page: Tiling['page'], unit: FileUnit): { across: number; up: number } {
  const round = (room: number) => Math.floor((room - TILE.overlap) / GRID[unit]) * GRID[unit];
  return {
    across: round(page.width - 2 * TILE.margin),
    up: round(page.height - 2 * TILE.margin - TILE.foot),
  };
}

/** One grid width goes to the shift that puts the seams on round places. */
function cellCount(length: number, step: number, unit: FileUnit): number {
  if (length <= step + TILE.overlap) return 1;
  return Math.ceil((length + GRID[unit] - TILE.overlap) / step);
}

interface Cells {
  readonly columns: number;
  readonly rows: number;
  readonly left: number;
  readonly top: number;
  readonly across: number;
  readonly up: number;
  readonly lap: number;
}

function spread(drawing: Drawing, page: Tiling['page'], scale: number, unit: FileUnit): Tiling {
  const { across, up } = steps(page, unit);
  const columns = cellCount(drawing.width / scale, across, unit);
  const rows = cellCount(drawing.height / scale, up, unit);
  const grid = GRID[unit] * scale;
  const start = (middle: number, length: number, count: number) =>
    count === 1 ? middle - length / 2 : Math.round((middle - length / 2) / grid) * grid;
  const [width, height] = [columns * across * scale, rows * up * scale];
  const left = start(drawing.left + drawing.width / 2, width, columns);
  const bottom = start(drawing.bottom + drawing.height / 2, height, rows);
  const cells: Cells = {
    columns,
    rows,
    left,
    top: bottom + height,
    across: across * scale,
    up: up * scale,
    lap: (TILE.overlap / 2) * scale,
  };
  const hasInk = inkOf(drawing);
  const printed = printedCells(hasInk, cells);
  const tiles = [...printed].map((cell) => tileOf(cell, cells, printed, { hasInk, grid, scale }));
  return { scale, page, columns, rows, tiles };
}

type InkTest = (box: Box) => boolean;

function inkOf({ layers }: Drawing): InkTest {
  const tests = layers
    .filter(({ name }) => name !== 'background')
    .flatMap(({ groups }) => groups.flatMap(({ items }) => items.map(inkTest)));
  return (box) => tests.some((isIn) => isIn(box));
}

/** Cells by number, row by row from above, that have ink; all of them where those would fall apart. */
function printedCells(hasInk: InkTest, cells: Cells): ReadonlySet<number> {
  const all = Array.from({ length: cells.columns * cells.rows }, (_, i) => i);
  const inked = new Set(all.filter((i) => hasInk(outermost(i, cells))));
  return hangsTogether(inked, cells) ? inked : new Set(all);
}

function hangsTogether(inked: ReadonlySet<number>, cells: Cells): boolean {
  const reached = new Set<number>();
  const next = [...inked].slice(0, 1);
  for (let cell = next.pop(); cell !== undefined; cell = next.pop()) {
    if (reached.has(cell)) continue;
    reached.add(cell);
    next.push(...neighbours(cell, cells).flatMap(({ cell: to }) => (inked.has(to) ? [to] : [])));
  }
  return reached.size === inked.size;
}

type Way = 'left' | 'right' | 'above' | 'below';

function neighbours(
  cell: number,
  { columns, rows }: Cells,
): readonly { readonly way: Way; readonly cell: number }[] {
  const column = cell % columns;
  return [
    ...(column > 0 ? [{ way: 'left' as const, cell: cell - 1 }] : []),
    ...(column < columns - 1 ? [{ way: 'right' as const, cell: cell + 1 }] : []),
    ...(cell >= columns ? [{ way: 'above' as const, cell: cell - columns }] : []),
    ...(cell < columns * (rows - 1) ? [{ way: 'below' as const, cell: cell + columns }] : []),
  ];
}

/** From seam to seam; the windows reach further by half an overlap. */
function cellBox(cell: number, { columns, left, top, across, up }: Cells): Box {
  const minX = left + (cell % columns) * across;
  const maxY = top - Math.floor(cell / columns) * up;
  return { minX, maxX: minX + across, minY: maxY - up, maxY };
}

/** The cell, which at the rim of all reaches as far as its window. */
function outermost(cell: number, cells: Cells): Box {
  const { minX, minY, maxX, maxY } = cellBox(cell, cells);
  const ways = neighbours(cell, cells).map(({ way }) => way);
  const lap = (way: Way) => (ways.includes(way) ? 0 : cells.lap);
  return {
    minX: minX - lap('left'),
    maxX: maxX + lap('right'),
    minY: minY - lap('below'),
    maxY: maxY + lap('above'),
  };
}

/** What crosses keep clear of, and the steps in which they may stand. */
interface Ground {
  readonly hasInk: InkTest;
  readonly grid: number;
  readonly scale: number;
}

function tileOf(cell: number, cells: Cells, printed: ReadonlySet<number>, ground: Ground): Tile {
  const { columns, lap } = cells;
  const box = cellBox(cell, cells);
  const window = {
    minX: box.minX - lap,
    maxX: box.maxX + lap,
    minY: box.minY - lap,
    maxY: box.maxY + lap,
  };
  const ways = neighbours(cell, cells).flatMap(({ way, cell: to }) =>
    printed.has(to) ? [way] : [],
  );
  const column = cell % columns;
  const row = Math.floor(cell / columns);
  return {
    name: `${indexLetters(column)}${row + 1}`,
    column,
    row,
    window,
    seams: ways.map((way) => seam(way, box, window)),
    marks: ways.flatMap((way) => crosses(way, box, ground)),
  };
}

function seam(way: Way, box: Box, window: Box): Tile['seams'][number] {
  if (way === 'left' || way === 'right') {
    const x = way === 'left' ? box.minX : box.maxX;
    return { from: { x, y: window.minY }, to: { x, y: window.maxY } };
  }
  const y = way === 'below' ? box.minY : box.maxY;
  return { from: { x: window.minX, y }, to: { x: window.maxX, y } };
}

/** Two on a seam, about a quarter of its length from either end, clear of what is drawn if they can be. */
function crosses(way: Way, box: Box, { hasInk, grid, scale }: Ground): readonly DrawnPoint[] {
  const round = (value: number) => Math.round(value / grid) * grid;
  const isUpright = way === 'left' || way === 'right';
  const seamAt = round({ left: box.minX, right: box.maxX, below: box.minY, above: box.maxY }[way]);
  const [from, to] = isUpright ? [box.minY, box.maxY] : [box.minX, box.maxX];
  return [0.25, 0.75].map((share) => {
    const wanted = round(from + share * (to - from));
    const places = ASIDE.map((steps) => {
      const along = wanted + steps * grid;
      return isUpright ? { x: seamAt, y: along } : { x: along, y: seamAt };
    });
    const isClear = ({ x, y }: DrawnPoint) =>
      !hasInk(growBox({ minX: x, maxX: x, minY: y, maxY: y }, CLEAR * scale));
    return places.find(isClear) ?? (places[0] as DrawnPoint);
  });
}
