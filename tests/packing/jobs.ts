import { rectangle, type Shape } from '../../src/geometry/shape.ts';
import { NO_LIMITS, type RouterJob } from '../../src/model/job.ts';
import { USUAL_LAYERS } from '../../src/model/machine-layers.ts';
import { USUAL_OFFCUTS } from '../../src/model/offcut-rule.ts';
import { type MatchedSet, NO_SIDES, type Part, type Piece } from '../../src/model/part.ts';
import type { SheetStock } from '../../src/model/stock.ts';
import { PLAIN_BOARD, PLAIN_PLACES } from '../helpers/tables.ts';

/** A part of a test job: a rectangle, unless it brings its own shape with its lower-left corner at the origin. */
export interface PartSketch {
  readonly width: number;
  readonly height: number;
  readonly count?: number;
  readonly shape?: Shape;
  readonly grain?: Part['grain'];
  readonly face?: Part['face'];
  readonly turns?: readonly number[];
  readonly nestInside?: boolean;
  /** Makes one matched set of its pieces, in a row along this axis. */
  readonly matched?: 'x' | 'y';
}

export interface StockSketch extends Partial<Omit<SheetStock, 'index' | 'place'>> {
  readonly length: number;
  readonly width: number;
}

export const QUARTERS = [0, 90, 180, 270];
const PLACE = { line: 1, column: 1 };

/** A job of one material. */
export function jobOf(
  stocks: readonly StockSketch[],
  sketches: readonly PartSketch[],
  spacing = 0,
): RouterJob {
  const parts = sketches.map(partOf);
  const pieces: Piece[] = [];
  const sets: MatchedSet[] = [];
  for (const [part, { count = 1, matched }] of sketches.entries()) {
    const set = matched === undefined ? null : sets.length;
    const own = Array.from({ length: count }, (_, k) => {
      const piece = {
        index: pieces.length,
        part,
        number: k + 1,
        set,
        setOrder: set === null ? null : k + 1,
      };
      pieces.push(piece);
      return piece.index;
    });
    if (matched !== undefined)
      sets.push({ index: sets.length, name: `set ${part}`, number: 1, axis: matched, pieces: own });
  }
  return {
    name: 'test',
    unit: 'mm',
    currency: { code: 'EUR', decimals: 2 },
    machine: {
      kind: 'router',
      cutter: {
        diameter: spacing,
        flutes: 2,
        spiral: 'straight',
        helixDeg: 0,
        upcutLength: 0,
        worn: false,
      },
      spindleRpm: 18_000,
      feedMmPerMin: 9000,
      passDepth: 72_000,
      lastPass: 0,
      finish: 0,
      boardKerf: 0,
      spacing,
      assumed: [],
    },
    table: {
      size: null,
      ...PLAIN_PLACES,
      pump: { kind: 'blower', curve: [] },
      spoilboard: PLAIN_BOARD,
      altitudeM: 0,
      friction: { nominal: 0.4, low: 0.3 },
      frictionFilmFaced: { nominal: 0.25, low: 0.2 },
      assumed: [],
    },
    materials: [
      {
        index: 0,
        id: 'ply',
        name: 'Plywood',
        family: 'plywood',
        thickness: 144_000,
        densityKgPerM3: 680,
        filmFaced: false,
        sheets: stocks.map(stockOf),
        boards: [],
        leastLeftover: 0,
        place: PLACE,
      },
    ],
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

function stockOf(sketch: StockSketch, index: number): SheetStock {
  return {
    index,
    name: `stock ${index}`,
    trim: NO_SIDES,
    grainAxis: null,
    boundary: null,
    keepOuts: [],
    lifted: [],
    priceCents: null,
    onHand: null,
    pack: 1,
    rack: null,
    place: PLACE,
    ...sketch,
  };
}

function partOf(sketch: PartSketch, index: number): Part {
  const { width, height, count = 1, shape, grain, face, turns, nestInside } = sketch;
  return {
    index,
    name: `part ${index}`,
    material: 0,
    group: null,
    note: null,
    count,
    shape: shape ?? { outer: rectangle(0, 0, width, height), inner: [] },
    rectangular: shape === undefined,
    width,
    height,
    finishedWidth: width,
    finishedHeight: height,
    edgeBands: NO_SIDES,
    showEdges: [],
    grain: grain ?? 'any',
    face: face ?? 'up',
    turns: turns ?? QUARTERS,
    nestInside: nestInside ?? false,
    holes: [],
    pockets: [],
    place: PLACE,
  };
}
