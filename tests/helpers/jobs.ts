import { assert } from '../../src/geometry/assert.ts';
import { boxOfShape } from '../../src/geometry/pose.ts';
import type { Contour, Shape } from '../../src/geometry/shape.ts';
import { NO_LIMITS, type RouterJob } from '../../src/model/job.ts';
import type { Layout, Placement, SheetLayout } from '../../src/model/layout.ts';
import { USUAL_LAYERS } from '../../src/model/machine-layers.ts';
import { USUAL_OFFCUTS } from '../../src/model/offcut-rule.ts';
import {
  type MatchedSet,
  NO_SIDES,
  type Part,
  type PartFace,
  type PartGrain,
  type Piece,
  type Sides,
} from '../../src/model/part.ts';
import type { Material, SheetStock } from '../../src/model/stock.ts';
import { fromMm } from '../../src/model/units.ts';
import { PLAIN_BOARD, PLAIN_PLACES } from './tables.ts';

/**
 * Jobs built by hand. All lengths here are in mm; a value with a fraction goes to the nearest base length,
 * so that `1 / UNITS_PER_MM` is the smallest step. Shapes are made in shapes.ts.
 *
 *     jobOf({ spacing: 8, sheets: [sheetOf(2440, 1220, { trim: 10 })], parts: [partOf(rect(700, 400), { count: 2 })] })
 */
export function jobOf({ spacing = 8, sheets = [], materials, parts }: JobInput): RouterJob {
  const stocks = materials ?? [sheets];
  const made: Part[] = [];
  const pieces: Piece[] = [];
  const sets: MatchedSet[] = [];
  for (const input of parts) {
    if (input.kind === 'set') addSet(input, { parts: made, pieces, sets });
    else addPart(input, { parts: made, pieces, sets });
  }
  return {
    name: 'Trial',
    unit: 'mm',
    currency: { code: 'EUR', decimals: 2 },
    machine: { ...ROUTER, spacing: fromMm(spacing) },
    table: TABLE,
    materials: stocks.map(materialOf),
    parts: made,
    pieces,
    sets,
    lengthParts: [],
    lumber: [],
    limits: NO_LIMITS,
    offcuts: USUAL_OFFCUTS.mm,
    rates: null,
    rack: null,
    drawings: [],
    layers: USUAL_LAYERS,
    labels: null,
  };
}

export interface JobInput {
  readonly spacing?: number;
  /** The sheets of the only material; or `materials`, a list of sheets each. */
  readonly sheets?: readonly SheetInput[];
  readonly materials?: readonly (readonly SheetInput[])[];
  /** Piece indices run through this list in order. */
  readonly parts: readonly (PartInput | SetInput)[];
}

export interface SheetInput {
  readonly length: number;
  readonly width: number;
  /** One value for all sides, or a value a side, 0 where left out. */
  readonly trim?: number | Partial<Sides>;
  readonly grain?: 'x' | 'y' | null;
  /** Left, bottom, length and width of each. */
  /** Corners of an odd-shaped sheet, counter-clockwise; length and width are then those of its box. */
  readonly boundary?: readonly (readonly [number, number])[];
  readonly keepOuts?: readonly (readonly [number, number, number, number])[];
  readonly priceCents?: number | null;
  readonly onHand?: number | null;
  readonly pack?: number;
  readonly lifted?: SheetStock['lifted'];
}

export interface PartTraits {
  readonly name?: string;
  readonly material?: number;
  readonly count?: number;
  readonly grain?: PartGrain;
  readonly face?: PartFace;
  readonly turns?: readonly number[];
  readonly nestInside?: boolean;
}

export interface PartInput extends PartTraits {
  readonly kind: 'part';
  readonly shape: Shape;
}

export interface SetInput extends PartTraits {
  readonly kind: 'set';
  readonly shapes: readonly Shape[];
  readonly axis: 'x' | 'y';
}

export function sheetOf(
  length: number,
  width: number,
  traits: Omit<SheetInput, 'length' | 'width'> = {},
): SheetInput {
  return { length, width, ...traits };
}

export function partOf(shape: Shape, traits: PartTraits = {}): PartInput {
  return { kind: 'part', shape, ...traits };
}

/** A matched set with one piece a shape; `count` sets of it. */
export function setOf(
  shapes: readonly Shape[],
  axis: 'x' | 'y',
  traits: PartTraits = {},
): SetInput {
  return { kind: 'set', shapes, axis, ...traits };
}

/** A placement by the place of the piece's own origin in mm. */
export function at(piece: number, x: number, y: number, turn = 0, mirrored = false): Placement {
  return { piece, x: fromMm(x), y: fromMm(y), turn, mirrored };
}

/** A layout that claims to be proved; what it should claim differently is given in `changes`. */
export function layoutOf(
  laid: readonly (Omit<SheetLayout, 'cuts'> & Partial<SheetLayout>)[],
  changes: Partial<Layout> = {},
): Layout {
  const sheets = laid.map((sheet) => ({ cuts: [], ...sheet }));
  return {
    material: 0,
    objective: 'sheets',
    status: 'proved',
    used: sheets.length,
    bound: { atLeast: sheets.length, provedBy: 'area' },
    sheets,
    boards: [],
    unplaced: [],
    unplacedLengths: [],
    ...changes,
  };
}

const QUARTERS = [0, 90, 180, 270];

const ROUTER = {
  kind: 'router',
  cutter: {
    diameter: fromMm(6),
    flutes: 2,
    spiral: 'straight',
    helixDeg: 0,
    upcutLength: 0,
    worn: false,
  },
  spindleRpm: 18_000,
  feedMmPerMin: 6000,
  passDepth: fromMm(6),
  lastPass: 0,
  finish: 0,
  boardKerf: 0,
  assumed: [],
} as const;

const TABLE = {
  size: null,
  ...PLAIN_PLACES,
  pump: { kind: 'blower', curve: [{ flowM3h: 0, vacuumKpa: 20 }] },
  spoilboard: PLAIN_BOARD,
  altitudeM: 0,
  friction: { nominal: 0.4, low: 0.3 },
  frictionFilmFaced: { nominal: 0.25, low: 0.2 },
  assumed: [],
} as const;

const NOWHERE = { line: 1, column: 1 };

interface Lists {
  readonly parts: Part[];
  readonly pieces: Piece[];
  readonly sets: MatchedSet[];
}

function addPart(input: PartInput, { parts, pieces }: Lists): void {
  const part = makePart(parts.length, input, input.shape);
  parts.push(part);
  for (let number = 1; number <= part.count; number++)
    pieces.push({ index: pieces.length, part: part.index, number, set: null, setOrder: null });
}

function addSet(input: SetInput, { parts, pieces, sets }: Lists): void {
  const name = input.name ?? `Set ${sets.length}`;
  const first = parts.length;
  for (const shape of input.shapes) parts.push(makePart(parts.length, { ...input, name }, shape));
  for (let number = 1; number <= (input.count ?? 1); number++) {
    const members = input.shapes.map((_, k) => pieces.length + k);
    input.shapes.forEach((_, k) => {
      const order = { number: (number - 1) * input.shapes.length + k + 1, setOrder: k + 1 };
      pieces.push({ index: pieces.length, part: first + k, set: sets.length, ...order });
    });
    sets.push({ index: sets.length, name, number, axis: input.axis, pieces: members });
  }
}

function makePart(index: number, traits: PartTraits, shape: Shape): Part {
  const { minX, minY, maxX: width, maxY: height } = boxOfShape(shape);
  assert(minX === 0 && minY === 0, 'the lower-left corner of a part is its origin');
  return {
    index,
    name: traits.name ?? `Part ${index}`,
    material: traits.material ?? 0,
    group: null,
    note: null,

    count: traits.count ?? 1,
    shape,
    rectangular:
      shape.outer.length === 4 && shape.outer.every((v) => isBoxCorner(v, width, height)),
    width,
    height,
    finishedWidth: width,
    finishedHeight: height,
    edgeBands: NO_SIDES,
    showEdges: [],
    grain: traits.grain ?? 'any',
    face: traits.face ?? 'up',
    turns: traits.turns ?? QUARTERS,
    nestInside: traits.nestInside ?? false,
    holes: [],
    pockets: [],
    place: NOWHERE,
  };
}

function isBoxCorner({ x, y, via }: Contour[number], width: number, height: number): boolean {
  return via === null && (x === 0 || x === width) && (y === 0 || y === height);
}

function materialOf(sheets: readonly SheetInput[], index: number): Material {
  return {
    index,
    id: `material${index}`,
    name: `Material ${index}`,
    family: 'plywood',
    thickness: fromMm(18),
    densityKgPerM3: 680,
    filmFaced: false,
    sheets: sheets.map(stockOf),
    boards: [],
    leastLeftover: 0,
    place: NOWHERE,
  };
}

function stockOf(input: SheetInput, index: number): SheetStock {
  const keepOuts = input.keepOuts ?? [];
  return {
    index,
    name: `${input.length} x ${input.width}`,
    length: fromMm(input.length),
    width: fromMm(input.width),
    boundary: input.boundary?.map(([x, y]) => ({ x: fromMm(x), y: fromMm(y) })) ?? null,
    trim: sidesOf(input.trim ?? 0),
    grainAxis: input.grain ?? null,
    keepOuts: keepOuts.map(([x, y, length, width]) => ({
      box: { minX: fromMm(x), minY: fromMm(y), maxX: fromMm(x + length), maxY: fromMm(y + width) },
      why: 'knot',
    })),
    priceCents: input.priceCents ?? null,
    lifted: input.lifted ?? [],
    onHand: input.onHand ?? null,
    pack: input.pack ?? 1,
    rack: null,
    place: NOWHERE,
  };
}

function sidesOf(trim: number | Partial<Sides>): Sides {
  const sides =
    typeof trim === 'number' ? { left: trim, right: trim, bottom: trim, top: trim } : trim;
  const { left, right, bottom, top } = { ...NO_SIDES, ...sides };
  return {
    left: fromMm(left),
    right: fromMm(right),
    bottom: fromMm(bottom),
    top: fromMm(top),
  };
}
