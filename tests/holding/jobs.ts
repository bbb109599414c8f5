import { flattenShape, PACKING_CHORD_ERROR } from '../../src/geometry/flatten.ts';
import { offsetRegion } from '../../src/geometry/offset.ts';
import type { Region, Shape } from '../../src/geometry/shape.ts';
import { type Body, bodyOf } from '../../src/holding/body.ts';
import { freeingPasses, type PassForce } from '../../src/holding/cutting-force.ts';
import type { RouterJob } from '../../src/model/job.ts';
import type { Layout, Placement } from '../../src/model/layout.ts';
import type { Cutter, Router, Table } from '../../src/model/machine.ts';
import type { Material } from '../../src/model/stock.ts';
import { fromMm, toMm } from '../../src/model/units.ts';
import {
  at,
  jobOf,
  layoutOf,
  type PartInput,
  partOf,
  type SheetInput,
  sheetOf,
} from '../helpers/jobs.ts';
import { rect } from '../helpers/shapes.ts';
import { PLAIN_BOARD, PLAIN_PLACES } from '../helpers/tables.ts';

/** A blower of about 5 kW: an illustrative curve, no product. */
export const BLOWER = curve([520, 0], [430, 5], [340, 10], [245, 15], [140, 20], [0, 26]);

/** A vane pump: an illustrative curve, no product. */
export const VANE = curve([250, 0], [222, 10], [170, 30], [120, 50], [72, 70], [22, 90], [0, 98]);

/** What a parts file without `table:` gets. */
export const DEFAULT_TABLE: Table = {
  size: null,
  ...PLAIN_PLACES,
  pump: { kind: 'blower', curve: BLOWER },
  spoilboard: PLAIN_BOARD,
  altitudeM: 0,
  friction: { nominal: 0.4, low: 0.3 },
  frictionFilmFaced: { nominal: 0.25, low: 0.2 },
  assumed: [],
};

const CUTTER: Cutter = {
  diameter: fromMm(6.35),
  flutes: 2,
  spiral: 'straight',
  helixDeg: 0,
  upcutLength: 0,
  worn: false,
};

/** 6.35 mm straight cutter, 9 m/min, 18,000 rpm, up to 18 mm in one pass. */
export const FULL_DEPTH: Router = {
  kind: 'router',
  cutter: CUTTER,
  spindleRpm: 18_000,
  feedMmPerMin: 9000,
  passDepth: fromMm(18),
  lastPass: 0,
  finish: 0,
  boardKerf: 0,
  spacing: fromMm(6.35),
  assumed: [],
};

export interface Shop {
  readonly cutter?: Partial<Cutter>;
  readonly machine?: Partial<Router>;
  readonly table?: Partial<Table>;
  readonly material?: Partial<Material>;
  readonly sheet?: SheetInput;
}

/** A job of one material: 18 mm plywood on the default table unless `shop` says otherwise. */
export function shopJob(parts: readonly PartInput[], shop: Shop = {}): RouterJob {
  const job = jobOf({ sheets: [shop.sheet ?? sheetOf(2440, 1220, { trim: 10 })], parts });
  return {
    ...job,
    machine: { ...FULL_DEPTH, ...shop.machine, cutter: { ...CUTTER, ...shop.cutter } },
    table: { ...DEFAULT_TABLE, ...shop.table },
    materials: job.materials.map((material) => ({ ...material, ...shop.material })),
  };
}

/** The pass that frees a piece. */
export function freeingPass(machine: Router, material: Material): PassForce {
  return freeingPasses(machine, material)[0];
}

/** A shape as the reckoning sees it. */
export function regionOf(shape: Shape): Region {
  return flattenShape(shape, 'curve', PACKING_CHORD_ERROR);
}

/** On a porous spoilboard that takes `borderMm` of vacuum from each edge. */
export function borderedBody(region: Region, borderMm: number): Body {
  return bodyOf(region, offsetRegion(region, -fromMm(borderMm), 'mitre'));
}

/** One rectangle of `width` by `height` in the middle of a sheet. */
export function singleRectangle(
  width: number,
  height: number,
  shop: Shop = {},
): [RouterJob, Layout[]] {
  const job = shopJob([partOf(rect(width, height))], shop);
  return [job, [layoutOf([{ stock: 0, placements: [at(0, 900, 400)] }])]];
}

/** All pieces of a job in rows from the lower left, as they come, `gapMm` apart, on as many sheets as that takes. */
export function rows(job: RouterJob, gapMm = toMm(job.machine.spacing)): Layout {
  const stock = job.materials[0]!.sheets[0]!;
  const [length, width] = [
    toMm(stock.length - stock.trim.right),
    toMm(stock.width - stock.trim.top),
  ];
  const [left, bottom] = [toMm(stock.trim.left), toMm(stock.trim.bottom)];
  const sheets: Placement[][] = [[]];
  let [x, y, rowHeight] = [left, bottom, 0];
  for (const { index, part } of job.pieces) {
    const [w, h] = [toMm(job.parts[part]!.width), toMm(job.parts[part]!.height)];
    if (x + w > length) [x, y, rowHeight] = [left, y + rowHeight + gapMm, 0];
    if (y + h > width) {
      sheets.push([]);
      [x, y, rowHeight] = [left, bottom, 0];
    }
    sheets.at(-1)!.push(at(index, x, y));
    x += w + gapMm;
    rowHeight = Math.max(rowHeight, h);
  }
  return layoutOf(sheets.map((placements) => ({ stock: 0, placements })));
}

function curve(...points: readonly (readonly [number, number])[]): Table['pump']['curve'] {
  return points.map(([flowM3h, vacuumKpa]) => ({ flowM3h, vacuumKpa }));
}
