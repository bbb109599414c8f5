import { type Box, boxesOverlap, isEmptyBox, sameBox } from '../geometry/box.ts';
import type { Job } from '../model/job.ts';
import type { Layout, SawCut } from '../model/layout.ts';
import type { PanelSaw } from '../model/machine.ts';
import { sawnHalves, sawnLength, wholeSheet } from '../model/saw-panels.ts';
import { type Fault, type FaultCode, pieceName } from './fault.ts';
import type { LaidSheet } from './laid-piece.ts';

/**
 * At a saw every sheet is cut again on paper: each cut has to go from edge to edge of a panel that is in hand, none longer than the machine takes and
 * not more stages than it has, the first one that parts pieces runs as told where any cut that runs so could, and what lies there at the end has to be the pieces, or waste without any part of one. A router has no such cuts.
 */
export function checkSequence(job: Job, layout: Layout, sheets: readonly LaidSheet[]): Fault[] {
  const { machine } = job;
  return sheets.flatMap((sheet) => {
    const { cuts } = layout.sheets[sheet.index]!;
    if (machine.kind === 'router')
      return cuts.length === 0 ? [] : [fault('stray-cut', sheet, 'a router makes no saw cuts')];
    return sheet.stock === null ? [] : replay(job, machine, sheet, cuts);
  });
}

/** A panel in hand, and how it came to be: the direction of the last cut that parted pieces, and how many such changes there were. */
interface Panel {
  readonly box: Box;
  readonly axis: SawCut['axis'] | null;
  readonly stage: number;
}

function replay(job: Job, saw: PanelSaw, sheet: LaidSheet, cuts: readonly SawCut[]): Fault[] {
  const boxes = sheet.pieces.map(({ box }) => box);
  const keepOuts = sheet.stock!.keepOuts.map(({ box }) => box);
  const faults: Fault[] = [];
  let inHand: Panel[] = [{ box: wholeSheet(sheet.stock!), axis: null, stage: 0 }];
  for (const [i, cut] of cuts.entries()) {
    const panel = inHand.find(({ box }) => sameBox(box, cut.panel));
    const name = `cut ${i + 1} of sheet ${sheet.index + 1}`;
    if (panel === undefined) {
      faults.push(fault('cut-elsewhere', sheet, `${name} is not through a panel in hand`));
      continue;
    }
    if (!meets(cut, saw.kerf))
      faults.push(fault('cut-elsewhere', sheet, `${name} runs beside its panel`));
    if (isTooLong(cut, saw))
      faults.push(fault('cut-too-long', sheet, `${name} is longer than the saw takes`));
    const { low, high } = sawnHalves(cut, saw.kerf);
    const halves = [low, high];
    const parts = halves.every((half) => boxes.some((box) => boxesOverlap(box, half)));
    const stage = parts && panel.axis !== cut.axis ? panel.stage + 1 : panel.stage;
    if (saw.stages !== null && stage > saw.stages)
      faults.push(fault('too-many-stages', sheet, `${name} is in stage ${stage}`));
    if (parts && panel.stage === 0 && isFirstWrong(cut, saw, boxes, keepOuts))
      faults.push(fault('first-cut', sheet, `${name} does not run ${saw.firstCut} the sheet`));
    const made = halves.map((box) => ({ box, axis: parts ? cut.axis : panel.axis, stage }));
    inHand = [
      ...inHand.filter((other) => other !== panel),
      ...made.filter(({ box }) => !isEmptyBox(box)),
    ];
  }
  return [...faults, ...piecesCut(job, sheet, inHand)];
}

/** Every piece is a panel by itself, and no other panel has any of it. */
function piecesCut(job: Job, sheet: LaidSheet, inHand: readonly Panel[]): Fault[] {
  return sheet.pieces
    .filter(({ box }) => {
      const own = inHand.filter((panel) => boxesOverlap(panel.box, box));
      return own.length !== 1 || !sameBox(own[0]!.box, box);
    })
    .map(({ piece }) => ({
      ...fault(
        'not-cut-out',
        sheet,
        `the cuts do not part ${pieceName(job, piece.index)} from the rest`,
      ),
      piece: piece.index,
    }));
}

/** Whether a cut runs across the direction that the first one is to have, though one of that direction could part the pieces and pass all keep-outs. */
function isFirstWrong(
  { axis }: SawCut,
  { firstCut, kerf }: PanelSaw,
  boxes: readonly Box[],
  keepOuts: readonly Box[],
): boolean {
  const told = firstCut === 'along' ? 'x' : 'y';
  if (firstCut === null || axis === told) return false;
  const span = ({ minX, minY, maxX, maxY }: Box, isPiece: boolean) =>
    told === 'x' ? { low: minY, high: maxY, isPiece } : { low: minX, high: maxX, isPiece };
  const spans = [
    ...boxes.map((box) => span(box, true)),
    ...keepOuts.map((box) => span(box, false)),
  ].sort((a, b) => a.low - b.low);
  let reached = Number.NEGATIVE_INFINITY;
  let groups = 0;
  let hasPiece = true;
  for (const { low, high, isPiece } of spans) {
    if (low >= reached + kerf) hasPiece = false;
    if (isPiece && !hasPiece) {
      groups++;
      hasPiece = true;
    }
    reached = Math.max(reached, high);
  }
  return groups > 1;
}

/** Whether the blade takes anything of the panel. */
function meets({ panel, axis, at }: SawCut, kerf: number): boolean {
  const [low, high] = axis === 'x' ? [panel.minY, panel.maxY] : [panel.minX, panel.maxX];
  return low < at + kerf && at < high;
}

function isTooLong(cut: SawCut, { longestRip, longestCrosscut }: PanelSaw): boolean {
  const most = cut.axis === 'x' ? longestRip : longestCrosscut;
  return most !== null && sawnLength(cut) > most;
}

function fault(code: FaultCode, sheet: LaidSheet, message: string): Fault {
  return { code, sheet: sheet.index, piece: null, other: null, message };
}
