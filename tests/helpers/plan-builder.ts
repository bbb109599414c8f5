import { yieldsOf } from '../../src/costing/yields.ts';
import { type Contour, circle, rectangle, reverseContour } from '../../src/geometry/shape.ts';
import type { SheetCosts } from '../../src/model/costs.ts';
import type { Action, Holding, SheetHolding, SkinStep } from '../../src/model/holding.ts';
import { type FileUnit, NO_LIMITS, type RouterJob } from '../../src/model/job.ts';
import type { Layout, Placement } from '../../src/model/layout.ts';
import type { Router, Table } from '../../src/model/machine.ts';
import { USUAL_LAYERS } from '../../src/model/machine-layers.ts';
import { USUAL_OFFCUTS } from '../../src/model/offcut-rule.ts';
import {
  type Hole,
  type MatchedSet,
  NO_SIDES,
  type Part,
  type Piece,
  type Pocket,
} from '../../src/model/part.ts';
import type { Plan } from '../../src/model/plan.ts';
import type { Quote } from '../../src/model/quote.ts';
import type { Material, SheetStock } from '../../src/model/stock.ts';
import { fromMm } from '../../src/model/units.ts';
import { PLAIN_BOARD, PLAIN_PLACES } from './tables.ts';

const PLACE = { line: 1, column: 1 };

/** A part given in millimetres; a rectangle unless it has an `outer`. */
export interface PartSketch {
  readonly name: string;
  readonly width: number;
  readonly height: number;
  readonly material?: number;
  readonly outer?: Contour;
  readonly inner?: readonly Contour[];
  readonly holes?: readonly Hole[];
  readonly pockets?: readonly Pocket[];
  readonly bands?: Partial<Part['edgeBands']>;
}

/** A piece of the part with this index at its place in millimetres, with what the holding plan says of it. */
export interface PieceSketch {
  readonly part: number;
  readonly at: readonly [number, number];
  readonly turn?: number;
  readonly set?: readonly [number, number];
  readonly holding?: Partial<Holding>;
}

export interface SheetSketch {
  readonly stock: SheetStock;
  readonly material: number;
  readonly pieces: readonly PieceSketch[];
  readonly waste?: readonly Partial<Holding>[];
  readonly offcuts?: readonly (readonly [number, number, number, number])[];
}

export interface PlanSketch {
  readonly name: string;
  readonly unit?: FileUnit;
  readonly materials: readonly Material[];
  readonly parts: readonly PartSketch[];
  readonly sheets: readonly SheetSketch[];
}

/** A whole plan from a sketch: what the sketch leaves out is ordinary. */
export function buildPlan(sketch: PlanSketch): Plan {
  const pieces = buildPieces(sketch);
  const parts = sketch.parts.map((part, index) => buildPart(part, index));
  const job = buildJob(sketch, parts, pieces);
  const layouts = sketch.materials.map((material) => buildLayout(sketch, material.index));
  const sheets = sketch.sheets.map((sheet, i) => buildCosts(sheet, i + 1));
  return {
    job,
    options: { effort: 'quick', seed: 1, seconds: null },
    stopped: null,
    layouts,
    holding: sketch.sheets.map((sheet, i) => buildSheetHolding(sketch, sheet, i)),
    sensitivity: [],
    cutWarnings: [],
    costs: {
      sheets,
      boards: [],
      lumber: [],
      parts: [],
      surplus: [],
      totalCents: 21_450,
      yieldShare: 0.7421,
      boardYieldShare: null,
      yields: yieldsOf(sketch.materials, layouts, { sheets, boards: [] }),
      cutLengthMm: 61_234,
      cutTimeS: 822,
      handTimeS: 0,
      quote: NO_QUOTE,
      lifting: { limitKg: 12.94, lifts: [] },
    },
  };
}

/** Of a job whose price nobody asks for. */
const NO_QUOTE: Quote = {
  isMaterialOnly: true,
  lines: [],
  costCents: 0,
  marginCents: 0,
  priceCents: 0,
  taxCents: null,
  totalCents: 0,
  machineS: null,
  benchS: null,
  groups: [],
  unknown: [],
  leftOut: [],
};

export function stock(length: number, width: number, more: Partial<SheetStock> = {}): SheetStock {
  const trim = fromMm(10);
  return {
    index: 0,
    name: `${length} x ${width}`,
    length: fromMm(length),
    width: fromMm(width),
    trim: { left: trim, right: trim, bottom: trim, top: trim },
    grainAxis: 'x',
    boundary: null,
    keepOuts: [],
    priceCents: 9200,
    lifted: [],
    onHand: null,
    pack: 1,
    rack: null,
    place: PLACE,
    ...more,
  };
}

export function material(index: number, name: string, sheets: readonly SheetStock[]): Material {
  return {
    index,
    id: `material-${index}`,
    name,
    family: 'plywood',
    thickness: fromMm(18),
    densityKgPerM3: 680,
    filmFaced: false,
    sheets,
    boards: [],
    leastLeftover: 0,
    place: PLACE,
  };
}

export function hole(x: number, y: number, diameter: number, depth: number | null): Hole {
  return {
    x: fromMm(x),
    y: fromMm(y),
    diameter: fromMm(diameter),
    depth: depth === null ? null : fromMm(depth),
  };
}

/** A contour through corners in millimetres; a corner of four numbers starts an arc through the last two. */
export function contour(...corners: readonly (readonly number[])[]): Contour {
  return corners.map(([x = 0, y = 0, viaX, viaY]) => ({
    x: fromMm(x),
    y: fromMm(y),
    via: viaX === undefined || viaY === undefined ? null : { x: fromMm(viaX), y: fromMm(viaY) },
  }));
}

export function disc(diameter: number): Contour {
  const r = fromMm(diameter / 2);
  return circle({ x: r, y: r }, r);
}

export function roundCutOut(x: number, y: number, diameter: number): Contour {
  return reverseContour(circle({ x: fromMm(x), y: fromMm(y) }, fromMm(diameter / 2)));
}

export function cutOut(x: number, y: number, width: number, height: number): Contour {
  return reverseContour(rectangle(fromMm(x), fromMm(y), fromMm(width), fromMm(height)));
}

/** What the holding plan says of one thing; in need of nothing unless told. */
export function holding(sheet: number, more: Partial<Holding>): Holding {
  const action: Action = more.action ?? 'none';
  return {
    kind: 'piece',
    piece: null,
    sheet,
    outline: null,
    cutOrder: 1,
    vacuumKpa: 23.1,
    holdingForceN: 310,
    cuttingForceN: 92,
    margin: action === 'none' ? 3.4 : 0.8,
    marginLow: action === 'none' ? 1.9 : 0.5,
    verdict: action === 'none' ? 'stays' : 'moves',
    action,
    marginAfter: 3.4,
    verdictAfter: 'stays',
    skin: 0,
    skinFor: null,
    skinCuts: [],
    tabs: [],
    pocketing: null,
    clamp: null,
    remedyS: 0,
    why: 'large enough for the vacuum that is left',
    ...more,
  };
}

function buildPart(sketch: PartSketch, index: number): Part {
  const width = fromMm(sketch.width);
  const height = fromMm(sketch.height);
  return {
    index,
    name: sketch.name,
    material: sketch.material ?? 0,
    group: null,
    note: null,
    count: 1,
    shape: { outer: sketch.outer ?? rectangle(0, 0, width, height), inner: sketch.inner ?? [] },
    rectangular: sketch.outer === undefined,
    width,
    height,
    finishedWidth: width,
    finishedHeight: height,
    edgeBands: { ...NO_SIDES, ...sketch.bands },
    showEdges: [],
    grain: 'any',
    face: 'up',
    turns: [0, 90, 180, 270],
    nestInside: false,
    holes: sketch.holes ?? [],
    pockets: sketch.pockets ?? [],
    place: PLACE,
  };
}

/** The vacuum falls evenly to three fifths of what it is at the start. */
function buildSheetHolding(sketch: PlanSketch, sheet: SheetSketch, index: number): SheetHolding {
  const waste = (sheet.waste ?? []).map((w) => holding(index + 1, w));
  const loose = [...buildHoldings(sketch, index), ...waste];
  const cuts = Math.max(0, ...loose.map(({ cutOrder }) => cutOrder));
  return {
    sheet: index + 1,
    loose,
    steps: loose
      .toSorted((a, b) => a.cutOrder - b.cutOrder)
      .flatMap(({ action, kind, piece, cutOrder }): SkinStep[] =>
        action !== 'skin' || kind === 'sliver' || piece === null
          ? []
          : [{ kind: 'skin', thing: kind, piece, cutOrder }],
      ),
    vacuumStartKpa: 20,
    lostAfter: null,
    vacuumAlongKpa: Array.from({ length: cuts }, (_, i) => 20 - (8 * (i + 1)) / cuts),
    order: { travelMm: 4000, leastMargin: 0.8 },
    fileOrder: { travelMm: 6000, leastMargin: 0.7 },
  };
}

function buildPieces({ sheets, parts }: PlanSketch): readonly Piece[] {
  const counts = new Map<string, number>();
  return sheets
    .flatMap((sheet) => sheet.pieces)
    .map(({ part, set }, index) => {
      const name = parts[part]?.name ?? '';
      const number = (counts.get(name) ?? 0) + 1;
      counts.set(name, number);
      return { index, part, number, set: set?.[0] ?? null, setOrder: set?.[1] ?? null };
    });
}

function buildJob(
  { name, unit, materials }: PlanSketch,
  parts: readonly Part[],
  pieces: readonly Piece[],
): RouterJob {
  const setIndices = [...new Set(pieces.flatMap(({ set }) => (set === null ? [] : [set])))];
  const sets = setIndices.map((index): MatchedSet => {
    const members = pieces.filter((piece) => piece.set === index);
    return {
      index,
      name: parts[members[0]?.part ?? 0]?.name ?? '',
      number: index + 1,
      axis: 'x',
      pieces: members.map((piece) => piece.index),
    };
  });
  return {
    name,
    unit: unit ?? 'mm',
    currency: { code: 'EUR', decimals: 2 },
    machine: ROUTER,
    table: TABLE,
    materials,
    parts,
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

/** Placements of every sheet, pieces numbered through the sketch. */
function placementsOf({ sheets }: PlanSketch): readonly (readonly Placement[])[] {
  let next = 0;
  return sheets.map(({ pieces }) =>
    pieces.map(({ at: [x, y], turn }) => ({
      piece: next++,
      x: fromMm(x),
      y: fromMm(y),
      turn: turn ?? 0,
      mirrored: false,
    })),
  );
}

function buildLayout(sketch: PlanSketch, materialIndex: number): Layout {
  const placements = placementsOf(sketch);
  const sheets = sketch.sheets.flatMap((sheet, i) =>
    sheet.material === materialIndex
      ? [{ stock: sheet.stock.index, placements: placements[i] ?? [], cuts: [] }]
      : [],
  );
  return {
    material: materialIndex,
    objective: 'sheets',
    status: 'proved',
    used: sheets.length,
    bound: { atLeast: sheets.length, provedBy: 'area' },
    sheets,
    boards: [],
    unplaced: [],
    unplacedLengths: [],
  };
}

/** One line a piece, in the order of the sketch unless it says otherwise. */
function buildHoldings(sketch: PlanSketch, sheetIndex: number): readonly Holding[] {
  const sheet = sketch.sheets[sheetIndex];
  const placements = placementsOf(sketch)[sheetIndex] ?? [];
  return placements.map(({ piece }, i) =>
    holding(sheetIndex + 1, { piece, cutOrder: i + 1, ...sheet?.pieces[i]?.holding }),
  );
}

function buildCosts({ stock: of, offcuts }: SheetSketch, sheet: number): SheetCosts {
  const areaMm2 = (of.length / 8000) * (of.width / 8000);
  return {
    sheet,
    areaMm2,
    pieceAreaMm2: areaMm2 * 0.74,
    trimAreaMm2: areaMm2 * 0.03,
    kerfAreaMm2: areaMm2 * 0.03,
    offcutAreaMm2: areaMm2 * 0.1,
    wasteAreaMm2: areaMm2 * 0.1,
    keepOutAreaMm2: 0,
    skeletonAreaMm2: areaMm2 * 0.08,
    looseAreaMm2: areaMm2 * 0.02,
    yieldShare: 0.7421,
    offcuts: (offcuts ?? []).map((corners) => {
      const [minX, minY, maxX, maxY] = corners.map(fromMm) as [number, number, number, number];
      const box = { minX, minY, maxX, maxY };
      return { box, panel: box };
    }),
    weightKg: 36.4,
    priceCents: of.priceCents,
    cutLengthMm: 30_617,
    cutTimeS: 411,
    handTimeS: 0,
    usedLength: of.length,
  };
}

const ROUTER: Router = {
  kind: 'router',
  cutter: {
    diameter: fromMm(6.35),
    flutes: 2,
    spiral: 'compression',
    helixDeg: 30,
    upcutLength: fromMm(6),
    worn: false,
  },
  spindleRpm: 18_000,
  feedMmPerMin: 9000,
  passDepth: fromMm(9),
  lastPass: 0,
  finish: 0,
  boardKerf: 0,
  spacing: fromMm(8),
  assumed: ['flutes: 2'],
};

const TABLE: Table = {
  size: null,
  ...PLAIN_PLACES,
  pump: {
    kind: 'blower',
    curve: [
      { flowM3h: 520, vacuumKpa: 0 },
      { flowM3h: 0, vacuumKpa: 26 },
    ],
  },
  spoilboard: PLAIN_BOARD,
  altitudeM: 0,
  friction: { nominal: 0.4, low: 0.3 },
  frictionFilmFaced: { nominal: 0.25, low: 0.2 },
  assumed: ['spoilboard: 18 mm MDF', 'friction: 0.4, at worst 0.3'],
};
