// Writes `plan.json`: the record of a plan that other programs read. Its fields are a contract (format 1): fields may be added, none changes meaning.
// Lengths are millimetres with at most six decimals whatever the file's unit, shares lie between 0 and 1, keys stand in a fixed order,
// an empty list is written and never a missing key. The same plan gives the same bytes.
import type { PlacedPiece } from '../../drawing/placed-pieces.ts';
import type { Holding, SheetHolding } from '../../model/holding.ts';
import type { Job } from '../../model/job.ts';
import { isEmptyLayout, type Layout, type SheetLayout } from '../../model/layout.ts';
import { cutWidth } from '../../model/machine.ts';
import type { Part, Sides } from '../../model/part.ts';
import {
  type NumberedBoard,
  type NumberedSheet,
  numberedBoards,
  numberedSheets,
  type Plan,
} from '../../model/plan.ts';
import { fenceSetting } from '../../model/saw-panels.ts';
import { type SheetStock, type Stretch, sheetRing } from '../../model/stock.ts';
import { toMm } from '../../model/units.ts';
import { missingLengths } from '../unplaced.ts';
import { assumptions } from '../wording.ts';
import { liftingRecord, quoteRecord } from './quote-record.ts';
import { yieldRecord } from './yield-json.ts';

const FORMAT = 'holdfast-plan/1';

/** What the record says of where it comes from; the caller knows it, the plan does not. */
export interface Origin {
  readonly toolVersion: string;
  readonly partsFileSha256: string;
}

/** `placed` holds each sheet's pieces as they lie, in the order of the sheets' numbers. */
export function toPlanJson(
  plan: Plan,
  placed: readonly (readonly PlacedPiece[])[],
  origin: Origin,
): string {
  const { job, options } = plan;
  const { kind, spacing } = job.machine;
  const record = {
    format: FORMAT,
    toolVersion: origin.toolVersion,
    partsFileSha256: origin.partsFileSha256,
    drawings: job.drawings.map(({ path, sha256 }) => ({ path, sha256 })),
    options: { effort: options.effort, seed: options.seed, seconds: options.seconds },
    stoppedByTime: plan.stopped === 'time',
    interrupted: plan.stopped === 'interrupt',
    job: job.name,
    unit: job.unit,
    currency: job.currency.code,
    machine: { kind, cut: toMm(cutWidth(job.machine)), spacing: toMm(spacing) },
    assumed: assumptions(job),
    materials: plan.layouts.map((layout) => materialRecord(plan, layout, placed)),
    lumber: lumberRecords(plan),
    holding: plan.holding.flatMap((sheet) =>
      sheet.loose.map((loose) => holdingRecord(plan, loose)),
    ),
    yields: yieldRecord(plan),
    costs: costsRecord(plan),
    sensitivity: plan.sensitivity.map(({ input, from, to, piece, marginFrom, marginTo }) => ({
      input,
      from,
      to,
      ...pieceName(plan, piece),
      marginFrom,
      marginTo,
    })),
    cutWarnings: plan.cutWarnings,
  };
  return `${JSON.stringify(record, null, 1)}\n`;
}

function materialRecord(
  plan: Plan,
  layout: Layout,
  placed: readonly (readonly PlacedPiece[])[],
): object {
  const material = plan.job.materials[layout.material]!;
  return {
    material: material.id,
    name: material.name,
    family: material.family,
    thickness: toMm(material.thickness),
    status: layout.status,
    objective: layout.objective,
    used: layout.used,
    atLeast: layout.bound.atLeast,
    provedBy: isEmptyLayout(layout) ? null : layout.bound.provedBy,
    unplaced: [
      ...layout.unplaced.map(({ piece, why }) => ({ ...pieceName(plan, piece), why })),
      ...missingLengths(plan, layout).flatMap(({ part, numbers, why }) =>
        numbers.map((number) => ({ part: part.name, piece: number, why })),
      ),
    ],
    sheets: numberedSheets(plan.layouts)
      .filter((sheet) => sheet.material === layout.material)
      .map((sheet) => sheetRecord(plan, sheet, placed[sheet.number - 1]!)),
    boards: numberedBoards(plan.layouts)
      .filter((board) => board.material === layout.material)
      .map((board) => boardRecord(plan, board)),
  };
}

function lumberRecords({ job, costs }: Plan): readonly object[] {
  return job.lumber.map((lumber, i) => {
    const { net, waste, onHand, buy, priceCents } = costs.lumber[i]!;
    return {
      material: lumber.id,
      name: lumber.name,
      thickness: toMm(lumber.thickness),
      rough: toMm(lumber.rough),
      measure: lumber.measure,
      net,
      waste,
      wasteOf: lumber.waste.of,
      onHand,
      buy,
      priceMinor: priceCents,
      parts: lumber.parts.map((part) => ({
        part: part.name,
        count: part.count,
        length: toMm(part.length),
        width: toMm(part.width),
      })),
    };
  });
}

function sheetRecord(plan: Plan, numbered: NumberedSheet, placed: readonly PlacedPiece[]): object {
  const stock = plan.job.materials[numbered.material]!.sheets[numbered.sheet.stock]!;
  const costs = plan.costs.sheets[numbered.number - 1]!;
  return {
    number: numbered.number,
    stock: stock.name,
    rack: stock.rack,
    length: toMm(stock.length),
    width: toMm(stock.width),
    boundary: sheetRing(stock).map(pointRecord),
    trim: sidesRecord(stock.trim),
    keepOuts: stock.keepOuts.map(({ box, why }) => ({ ...boxRecord(box), why })),
    grainDeg: sheetGrainDeg(stock),
    usedLength: toMm(costs.usedLength),
    yield: share(costs.yieldShare),
    placements: placed.map((piece) => placementRecord(plan, piece)),
    offcuts: costs.offcuts.map(({ box }) => boxRecord(box)),
    cuts: cutRecords(plan.job, numbered.sheet),
    ...orderRecord(plan.holding[numbered.number - 1] ?? null),
  };
}

function boardRecord({ job, costs }: Plan, { number, material, board }: NumberedBoard): object {
  const stock = job.materials[material]!.boards[board.stock]!;
  const { leftovers, yieldShare } = costs.boards[number - 1]!;
  const stretch = ({ from, to }: Stretch) => ({ at: toMm(from), length: toMm(to - from) });
  return {
    number,
    stock: stock.name,
    length: toMm(stock.length),
    pieces: board.pieces.map((piece) => ({
      part: job.lengthParts[piece.part]!.name,
      piece: piece.number,
      at: toMm(piece.at),
      length: toMm(job.lengthParts[piece.part]!.length),
    })),
    trim: toMm(stock.endTrim),
    defects: stock.defects.map((defect) => ({ ...stretch(defect), why: defect.why })),
    yield: share(yieldShare),
    leftovers: leftovers.map((leftover) => ({ ...stretch(leftover), keep: leftover.isKept })),
  };
}

/** The cuts of a saw in their order; none at a router. `setting` is what lies between fence and blade. */
function cutRecords({ machine }: Job, { cuts }: SheetLayout): readonly object[] {
  return cuts.map((cut, i) => ({
    number: i + 1,
    axis: cut.axis === 'x' ? 'along' : 'across',
    panel: {
      minX: toMm(cut.panel.minX),
      minY: toMm(cut.panel.minY),
      maxX: toMm(cut.panel.maxX),
      maxY: toMm(cut.panel.maxY),
    },
    at: toMm(cut.at),
    fence: cut.fence,
    setting: toMm(fenceSetting(cut, cutWidth(machine))),
    stage: cut.stage,
    care: cut.care,
  }));
}

/** Nothing at a saw, which has no vacuum. */
function orderRecord(holding: SheetHolding | null): object {
  if (holding === null) return {};
  const { order, fileOrder, vacuumStartKpa, vacuumAlongKpa, lostAfter } = holding;
  return { vacuumStartKpa, vacuumAlongKpa, lostAfter, order, fileOrder };
}

function placementRecord(plan: Plan, { placement, region, holes, pockets }: PlacedPiece): object {
  const piece = plan.job.pieces[placement.piece]!;
  const part = plan.job.parts[piece.part]!;
  return {
    ...pieceName(plan, placement.piece),
    x: toMm(placement.x),
    y: toMm(placement.y),
    turn: placement.turn,
    mirrored: placement.mirrored,
    outline: region.outer.map(pointRecord),
    cutOuts: region.holes.map((hole) => hole.map(pointRecord)),
    grainDeg: pieceGrainDeg(part, placement.turn),
    set: piece.set === null ? null : piece.set + 1,
    setOrder: piece.setOrder,
    face: placement.mirrored ? 'down' : 'up',
    holes: holes.map(({ x, y, diameter, depth }) => ({
      x: toMm(x),
      y: toMm(y),
      diameter: toMm(diameter),
      depth: depth === null ? 'through' : toMm(depth),
    })),
    pockets: pockets.map(({ ring, depth }) => ({
      outline: ring.map(pointRecord),
      depth: toMm(depth),
    })),
    edges: sidesRecord(part.edgeBands),
  };
}

function sidesRecord({ left, right, bottom, top }: Sides): object {
  return { left: toMm(left), right: toMm(right), bottom: toMm(bottom), top: toMm(top) };
}

function holdingRecord(plan: Plan, loose: Holding): object {
  return {
    kind: loose.kind,
    ...(loose.piece === null ? { part: null, piece: null } : pieceName(plan, loose.piece)),
    sheet: loose.sheet,
    outline: (loose.outline ?? []).map(pointRecord),
    cutOrder: loose.cutOrder,
    vacuumKpa: loose.vacuumKpa,
    holdingForceN: loose.holdingForceN,
    cuttingForceN: loose.cuttingForceN,
    margin: loose.margin,
    marginLow: loose.marginLow,
    verdict: loose.verdict,
    action: loose.action,
    marginAfter: loose.marginAfter,
    verdictAfter: loose.verdictAfter,
    skinMm: toMm(loose.skin),
    tabs: loose.tabs.map(({ at, width, height }) => ({
      x: toMm(at.x),
      y: toMm(at.y),
      width: toMm(width),
      height: toMm(height),
    })),
    why: loose.why,
    clamp: loose.clamp === null ? null : boxRecord(loose.clamp),
    remedySeconds: loose.remedyS,
    skinFor: loose.skinFor,
    skinCuts: loose.skinCuts,
    pocketing: loose.pocketing,
  };
}

function costsRecord(plan: Plan): object {
  const { costs } = plan;
  return {
    totalMinor: costs.totalCents,
    surplus: costs.surplus.map(({ material, stock, count, priceCents }) => ({
      material: plan.job.materials[material]!.id,
      stock: plan.job.materials[material]!.sheets[stock]!.name,
      count,
      priceMinor: priceCents,
    })),
    yield: share(costs.yieldShare),
    cutLengthMm: Math.round(costs.cutLengthMm),
    cutTimeS: costs.cutTimeS === null ? null : Math.round(costs.cutTimeS),
    handTimeS: costs.handTimeS,
    sheets: costs.sheets.map((sheet) => ({
      number: sheet.sheet,
      priceMinor: sheet.priceCents,
      weightKg: Math.round(sheet.weightKg * 100) / 100,
      shares: {
        pieces: share(sheet.pieceAreaMm2 / sheet.areaMm2),
        trim: share(sheet.trimAreaMm2 / sheet.areaMm2),
        kerf: share(sheet.kerfAreaMm2 / sheet.areaMm2),
        offcuts: share(sheet.offcutAreaMm2 / sheet.areaMm2),
        waste: share(sheet.wasteAreaMm2 / sheet.areaMm2),
      },
    })),
    boards: costs.boards.map(({ board, priceCents }) => ({
      number: board,
      priceMinor: priceCents,
    })),
    quote: quoteRecord(plan),
    lifting: liftingRecord(plan),
  };
}

function pieceName(plan: Plan, index: number): { part: string; piece: number } {
  const piece = plan.job.pieces[index]!;
  return { part: plan.job.parts[piece.part]!.name, piece: piece.number };
}

function sheetGrainDeg(stock: SheetStock): number | null {
  if (stock.grainAxis === null) return null;
  return stock.grainAxis === 'x' ? 0 : 90;
}

/** Direction of a placed piece's grain on its sheet, 0 to 179 degrees; null where the part has none. */
function pieceGrainDeg(part: Part, turn: number): number | null {
  if (part.grain === 'any') return null;
  return (turn + (part.grain === 'across' ? 90 : 0)) % 180;
}

function pointRecord({ x, y }: { x: number; y: number }): readonly [number, number] {
  return [toMm(x), toMm(y)];
}

function boxRecord(box: { minX: number; minY: number; maxX: number; maxY: number }): object {
  return {
    x: toMm(box.minX),
    y: toMm(box.minY),
    length: toMm(box.maxX - box.minX),
    width: toMm(box.maxY - box.minY),
  };
}

function share(value: number): number {
  return Math.round(value * 1e6) / 1e6;
}
