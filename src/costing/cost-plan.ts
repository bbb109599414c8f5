// Reckons what a job costs in area, weight, cutting and money.
// Idea: each sheet's area is shared out among pieces, trim, kerf, offcuts kept and waste, so that the five add up to the sheet.
//   The kerf is the union of the pieces grown by the cutter's diameter, less the pieces, inside the trimmed edges: a cut shared by two pieces counts once.
//   Money is the sum of the sheets, boards and lumber taken; cutting time is the length of all contours and of the ways that clear the pockets times
//   their passes, at the feed of the machine, and the last passes of skins.
// Source: none needed, sums and products. Times leave out loading, tool changes and rapid moves.
// Cost: one polygon union a sheet, on outlines flattened to 0.05 mm.
// Degenerate cases: stock without a price makes the total unknown (null); a job without pieces has yield 0.
import { regionArea } from '../geometry/area.ts';
import { intersect } from '../geometry/boolean.ts';
import { boxArea } from '../geometry/box.ts';
import { flattenShape, PACKING_CHORD_ERROR } from '../geometry/flatten.ts';
import { offsetRegion } from '../geometry/offset.ts';
import { placeShape } from '../geometry/pose.ts';
import { boxRegion, type Region } from '../geometry/shape.ts';
import type { BoardCosts, Costs, Offcut, PartCosts, SheetCosts } from '../model/costs.ts';
import type { Action, Holding, SheetHolding } from '../model/holding.ts';
import { isRouterJob, type Job, type RouterJob } from '../model/job.ts';
import type { Layout, SheetLayout } from '../model/layout.ts';
import { cutWidth, passCount } from '../model/machine.ts';
import type { Part } from '../model/part.ts';
import { type NumberedSheet, numberedSheets } from '../model/plan.ts';
import { sawnLength } from '../model/saw-panels.ts';
import { type Material, type SheetStock, sheetArea, usableRegions } from '../model/stock.ts';
import { toMm, toMm2 } from '../model/units.ts';
import { contourLengthMm, pieceAreaMm2, weightKg } from './areas.ts';
import { costBoards } from './board-costs.ts';
import { liftingOf } from './lifts.ts';
import { costLumber } from './lumber.ts';
import { sum, sumOrNull } from './money.ts';
import { offcutsOf, usedLength } from './offcuts.ts';
import { packSurplus } from './packs.ts';
import { pocketRunMm, pocketVolumeMm3 } from './pockets.ts';
import { quoteJob } from './quote.ts';
import { sawnKerfBoxes } from './sawn-offcuts.ts';
import { wasteKinds } from './yield-waste.ts';
import { yieldsOf } from './yields.ts';

/** `holding` goes with the sheets; what its remedies take in time is part of the costs. */
export function costPlan(
  job: Job,
  layouts: readonly Layout[],
  holding: readonly SheetHolding[],
): Costs {
  const parts = job.parts.map((part) => costPart(job, part));
  const sheets = numberedSheets(layouts).map((numbered) => {
    const loose = holding[numbered.number - 1]?.loose ?? [];
    return costSheet(job, numbered, parts, loose);
  });
  const boards = costBoards(job, layouts);
  const lumber = job.lumber.map(costLumber);
  const bought = lumber.filter(({ buy }) => buy > 0);
  const surplus = packSurplus(job, layouts);
  const prices = [...sheets, ...surplus, ...boards, ...bought].map(({ priceCents }) => priceCents);
  const boughtMm2 = sum(sheets.map((sheet) => sheet.areaMm2));
  const usedMm2 = sum(sheets.map((sheet) => sheet.pieceAreaMm2));
  const costs = {
    sheets,
    surplus,
    boards,
    lumber,
    parts,
    totalCents: sumOrNull(prices),
    yieldShare: boughtMm2 === 0 ? 0 : usedMm2 / boughtMm2,
    boardYieldShare: boards.length === 0 ? null : boardYield(boards),
    yields: yieldsOf(job.materials, layouts, { sheets, boards }),
    cutLengthMm: sum(sheets.map((sheet) => sheet.cutLengthMm)),
    cutTimeS: sumOrNull(sheets.map((sheet) => sheet.cutTimeS)),
    handTimeS: sum(sheets.map((sheet) => sheet.handTimeS)),
  };
  const quote = quoteJob(job, layouts, holding, costs);
  return { ...costs, quote, lifting: liftingOf(job, layouts, costs) };
}

function boardYield(boards: readonly BoardCosts[]): number {
  return sum(boards.map((board) => board.pieceLength)) / sum(boards.map((board) => board.length));
}

function costPart(job: Job, part: Part): PartCosts {
  const areaMm2 = pieceAreaMm2(part);
  return {
    part: part.index,
    pieceAreaMm2: areaMm2,
    pieceWeightKg: weightKg(areaMm2, job.materials[part.material]!, pocketVolumeMm3(part)),
  };
}

function costSheet(
  job: Job,
  numbered: NumberedSheet,
  parts: readonly PartCosts[],
  loose: readonly Holding[],
): SheetCosts {
  const { sheet, number } = numbered;
  const material = job.materials[numbered.material]!;
  const stock = material.sheets[sheet.stock]!;
  const offcuts = offcutsOf(job, stock, sheet);
  const areaMm2 = toMm2(sheetArea(stock));
  const placed = sheet.placements.map((placement) => {
    const part = job.parts[job.pieces[placement.piece]!.part]!;
    return flattenShape(placeShape(part.shape, placement), 'curve', PACKING_CHORD_ERROR);
  });
  const pieceAreaMm2 = sum(
    sheet.placements.map(({ piece }) => parts[job.pieces[piece]!.part]!.pieceAreaMm2),
  );
  const cutLengthMm =
    job.machine.kind === 'router'
      ? sum(placed.map(contourLengthMm))
      : sum(sheet.cuts.map((cut) => toMm(sawnLength(cut))));
  return {
    sheet: number,
    areaMm2,
    pieceAreaMm2,
    ...lostAreas(job, { stock, sheet, placed, offcuts, pieceAreaMm2 }),
    yieldShare: pieceAreaMm2 / areaMm2,
    usedLength: usedLength(job, stock, sheet),
    offcuts,
    weightKg: weightKg(areaMm2, material),
    priceCents: stock.priceCents,
    cutLengthMm,
    cutTimeS: isRouterJob(job)
      ? routingTimeS(job, material, cutLengthMm) +
        pocketTimeS(job, sheet) +
        remedyTimeS(loose, ['skin'])
      : null,
    handTimeS: remedyTimeS(loose, ['tabs', 'clamp']),
  };
}

interface CostedSheet {
  readonly stock: SheetStock;
  readonly sheet: SheetLayout;
  readonly placed: readonly Region[];
  readonly offcuts: readonly Offcut[];
  readonly pieceAreaMm2: number;
}

/** What is no piece: trim, kerf, offcuts, and the rest as waste, by kinds. */
function lostAreas(job: Job, { stock, sheet, placed, offcuts, pieceAreaMm2 }: CostedSheet) {
  const usable = usableRegions(stock);
  const usableMm2 = toMm2(sum(usable.map(regionArea)));
  const boxes = offcuts.map(({ box }) => box);
  const offcutAreaMm2 = sum(boxes.map((box) => toMm2(boxArea(box))));
  const isRouted = job.machine.kind === 'router';
  const cutter = cutWidth(job.machine);
  const swept = isRouted
    ? placed.flatMap((region) => offsetRegion(region, cutter, 'mitre'))
    : sawnKerfBoxes(stock, sheet.cuts, cutter).map(boxRegion);
  const sweptMm2 = isRouted
    ? kerfAreaMm2(swept, usable, placed)
    : toMm2(sum(swept.map(regionArea)));
  const leftMm2 = usableMm2 - pieceAreaMm2 - offcutAreaMm2;
  const kerfMm2 = Math.min(sweptMm2, leftMm2);
  const wasteMm2 = leftMm2 - kerfMm2;
  const outlines = isRouted ? placed : [];
  return {
    trimAreaMm2: toMm2(sheetArea(stock)) - usableMm2,
    kerfAreaMm2: kerfMm2,
    offcutAreaMm2,
    wasteAreaMm2: wasteMm2,
    ...wasteKinds({ stock, usable, swept, outlines, cutter, offcuts: boxes, wasteMm2 }),
  };
}

function routingTimeS({ machine }: RouterJob, { thickness }: Material, lengthMm: number): number {
  return (lengthMm * passCount(machine, thickness) * 60) / machine.feedMmPerMin;
}

function pocketTimeS({ machine, parts, pieces }: RouterJob, { placements }: SheetLayout): number {
  const runs = placements.map(({ piece }) => pocketRunMm(parts[pieces[piece]!.part]!, machine));
  return (sum(runs) * 60) / machine.feedMmPerMin;
}

function remedyTimeS(loose: readonly Holding[], actions: readonly Action[]): number {
  return sum(loose.filter(({ action }) => actions.includes(action)).map(({ remedyS }) => remedyS));
}

/** What the cutter sweeps round the pieces inside the trimmed edges; the pieces lie within it and are taken off. */
function kerfAreaMm2(
  grown: readonly Region[],
  usable: readonly Region[],
  placed: readonly Region[],
): number {
  const swept = sum(intersect(grown, usable).map(regionArea));
  return toMm2(swept - sum(placed.map(regionArea)));
}
