import { boxToSum, type Sides, type SumBox, sumBoxes } from './depth.ts';

/**
 * Tells how much two forms overlap from a table by how they lie to one another.
 *
 * Idea: a grid over all places at which two forms may overlap. A cell is known to be clear of their sums, to lie inside one of them, or neither; inside, the
 * root of the overlap is interpolated between the corners of the cell. So most questions are answered by a few looks at flat lists, whatever the
 * forms are, and only near to a contact they have to be asked exactly.
 * Source: the penetration maps of Sato, Martins, Gomes & Tsuzuki 2019, "Raster penetration map applied to the irregular packing problem", European
 * Journal of Operational Research 279(2), from memory.
 * Where we differ: the grid never decides a contact, a pair of forms has one whatever the sheet, and a corner is only worked out when first asked for.
 * Cost: cells times sides of the sums for a map; a corner costs an exact answer. Worth it for a pair that is asked for some thousand times.
 * Degenerate cases: once there is no room no more maps are made.
 */
export interface OverlapMaps {
  /** For each first form, by the second one, the number of their map, from 1 on, below 0 where it is to be read mirrored; 0 where there is none. */
  readonly ofForm: Int32Array[];
  /** The forms of each map. */
  readonly pairs: (readonly [first: number, second: number])[];
  /** Of each map least x and y, and cells for each base length along both. */
  frames: Float64Array;
  /** By rows, what each cell is. */
  kinds: Uint8Array;
  /** By rows, the root at each corner of a cell. */
  roots: Float32Array;
  readonly rootAt: RootAt;
  /** Bytes that are left for more maps. */
  room: number;
}

/** The root of the overlap of two forms, (x, y) being the first one's origin seen from the second one's. */
export type RootAt = (first: number, second: number, x: number, y: number) => number;

/** What a map says where it does not know; every root is more. */
export const UNSURE = -1;

/** Cells each way. */
const CELLS = 24;
const CORNERS = CELLS + 1;
const CELLS_OF_MAP = CELLS * CELLS;
const CORNERS_OF_MAP = CORNERS * CORNERS;

/** A cell is clear of all sums, near to a side of one, or inside one. */
const CLEAR = 0;
const BORDER = 1;
const WITHIN = 2;
const KINDS = { clear: CLEAR, border: BORDER, within: WITHIN };

const FRAME = 4;

const FIRST_MAPS = 64;
const BYTES_OF_MAP = CELLS_OF_MAP + 4 * CORNERS_OF_MAP + 8 * FRAME;
const MOST_BYTES = 64e6;

/** No maps yet, of so many forms. */
export function overlapMaps(forms: number, rootAt: RootAt): OverlapMaps {
  const none = new Int32Array(forms);
  return {
    ofForm: Array.from({ length: forms }, () => none),
    pairs: [],
    frames: new Float64Array(FRAME * FIRST_MAPS),
    kinds: new Uint8Array(CELLS_OF_MAP * FIRST_MAPS),
    roots: new Float32Array(CORNERS_OF_MAP * FIRST_MAPS).fill(Number.NaN),
    rootAt,
    room: MOST_BYTES,
  };
}

/** The root where the map knows it, else `UNSURE`; always a root where the forms are known to overlap. */
export function rootOnMap(
  maps: OverlapMaps,
  map: number,
  x: number,
  y: number,
  areOver: boolean,
): number {
  const { frames, kinds } = maps;
  const at = Math.abs(map) - 1;
  const sign = map > 0 ? 1 : -1;
  const f = FRAME * at;
  const u = (sign * x - (frames[f] as number)) * (frames[f + 2] as number);
  const v = (sign * y - (frames[f + 1] as number)) * (frames[f + 3] as number);
  const column = Math.floor(u);
  const row = Math.floor(v);
  if (column < 0 || row < 0 || column >= CELLS || row >= CELLS) return 0;
  const kind = kinds[CELLS_OF_MAP * at + row * CELLS + column];
  if (kind === CLEAR) return 0;
  if (kind === BORDER && !areOver) return UNSURE;
  return between(maps, at, CORNERS_OF_MAP * at + row * CORNERS + column, u - column, v - row);
}

/** Interpolates from the lower left corner of a cell, at `s` and `t` of its sides. */
function between(maps: OverlapMaps, at: number, corner: number, s: number, t: number): number {
  const { roots } = maps;
  const above = corner + CORNERS;
  let a = roots[corner] as number;
  let b = roots[corner + 1] as number;
  let c = roots[above] as number;
  let d = roots[above + 1] as number;
  if (Number.isNaN(a + b + c + d)) {
    a = askedAt(maps, at, corner);
    b = askedAt(maps, at, corner + 1);
    c = askedAt(maps, at, above);
    d = askedAt(maps, at, above + 1);
  }
  return a + s * (b - a) + t * (c - a + s * (a - b - c + d));
}

function askedAt(
  { frames, roots, pairs, rootAt }: OverlapMaps,
  at: number,
  corner: number,
): number {
  const known = roots[corner] as number;
  if (!Number.isNaN(known)) return known;
  const [minX, minY, perX, perY] = frameOf(frames, at);
  const [first, second] = pairs[at] as readonly [number, number];
  const own = corner - CORNERS_OF_MAP * at;
  const row = Math.floor(own / CORNERS);
  const column = own - row * CORNERS;
  const root = Math.fround(rootAt(first, second, minX + column / perX, minY + row / perY));
  roots[corner] = root;
  return root;
}

/** Makes a map of two forms from the sides of their sums, if there is room; for the pair the other way round as well, unless the second form never moves. */
export function addMap(
  maps: OverlapMaps,
  [first, second]: readonly [first: number, second: number],
  sides: Sides,
  isMirrored: boolean,
): void {
  maps.room -= BYTES_OF_MAP;
  if (maps.room < 0) return;
  const at = maps.pairs.push([first, second]) - 1;
  if (CELLS_OF_MAP * at === maps.kinds.length) lengthen(maps);
  const boxes = sumBoxes(sides);
  const minX = Math.min(...boxes.map((box) => box.minX));
  const minY = Math.min(...boxes.map((box) => box.minY));
  const width = Math.max(...boxes.map((box) => box.maxX)) - minX;
  const height = Math.max(...boxes.map((box) => box.maxY)) - minY;
  maps.frames.set([minX, minY, CELLS / width, CELLS / height], FRAME * at);
  for (const box of boxes) enter(maps, at, sides, box);
  if (isMirrored) setNumber(maps, second, first, -1 - at);
  setNumber(maps, first, second, 1 + at);
}

function lengthen(maps: OverlapMaps): void {
  const { frames, kinds, roots } = maps;
  maps.frames = new Float64Array(2 * frames.length);
  maps.frames.set(frames);
  maps.kinds = new Uint8Array(2 * kinds.length);
  maps.kinds.set(kinds);
  maps.roots = new Float32Array(2 * roots.length).fill(Number.NaN);
  maps.roots.set(roots);
}

/** Forms without any map share a list, so that many forms take little. */
function setNumber(maps: OverlapMaps, first: number, second: number, map: number): void {
  let own = maps.ofForm[first] as Int32Array;
  if (own.every((number) => number === 0)) {
    own = new Int32Array(own.length);
    maps.ofForm[first] = own;
    maps.room -= 4 * own.length;
  }
  own[second] = map;
}

/** Enters a sum into the cells that it reaches. A cell counts as larger by a base length on each side, as whole places come to a cell by rounding. */
function enter({ frames, kinds }: OverlapMaps, at: number, sides: Sides, sum: SumBox): void {
  const [minX, minY, perX, perY] = frameOf(frames, at);
  const cellAt = (place: number) => Math.max(0, Math.min(CELLS - 1, Math.floor(place)));
  const [fromColumn, toColumn] = [
    cellAt((sum.minX - 1 - minX) * perX),
    cellAt((sum.maxX + 1 - minX) * perX),
  ];
  const [fromRow, toRow] = [
    cellAt((sum.minY - 1 - minY) * perY),
    cellAt((sum.maxY + 1 - minY) * perY),
  ];
  for (let row = fromRow; row <= toRow; row++)
    for (let column = fromColumn; column <= toColumn; column++) {
      const cell = CELLS_OF_MAP * at + row * CELLS + column;
      const lies = boxToSum(sides, sum, {
        minX: minX + column / perX - 1,
        maxX: minX + (column + 1) / perX + 1,
        minY: minY + row / perY - 1,
        maxY: minY + (row + 1) / perY + 1,
      });
      kinds[cell] = Math.max(kinds[cell] as number, KINDS[lies]);
    }
}

function frameOf(
  frames: Float64Array,
  at: number,
): readonly [minX: number, minY: number, perX: number, perY: number] {
  const f = FRAME * at;
  return [
    frames[f] as number,
    frames[f + 1] as number,
    frames[f + 2] as number,
    frames[f + 3] as number,
  ];
}
