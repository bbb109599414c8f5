import { assert } from '../geometry/assert.ts';
import type { Bound, Layout, Placement, SheetLayout, Unplaced } from '../model/layout.ts';
import { fitsStock } from './bounds/body-measures.ts';
import { leftoverValue } from './leftover.ts';
import { sawSheet } from './panelsaw/saw-sheet.ts';
import { boxTask } from './rectangles/box-task.ts';
import { usedBy } from './score.ts';
import type { Candidate, PackedSheet, PackingTask, Spot } from './task.ts';

/** The packing in the words of the model: fullest sheet first, the one with the most useful leftover last, pieces in their order. */
export function toLayout(task: PackingTask, candidate: Candidate, bound: Bound): Layout {
  const used = usedBy(task, candidate.sheets);
  const unplaced = unplacedPieces(task, candidate);
  const complete = unplaced.length === 0;
  assert(
    !complete || used >= bound.atLeast,
    `${used} used, though no layout can use less than ${bound.atLeast}`,
  );
  const status = !complete ? 'impossible' : used === bound.atLeast ? 'proved' : 'limit';
  const sheets = inOrder(task, candidate.sheets).map((sheet) => toSheet(task, sheet));
  const { material, objective } = task;
  return {
    material,
    objective,
    status,
    used,
    bound,
    sheets,
    boards: [],
    unplaced,
    unplacedLengths: [],
  };
}

function inOrder(task: PackingTask, sheets: readonly PackedSheet[]): PackedSheet[] {
  const measured = sheets.map((sheet, index) => ({
    sheet,
    index,
    fill: fillOf(task, sheet),
    leftover: leftoverValue(task, sheet),
  }));
  const last = measured.reduce<number>(
    (most, { leftover }, i) => (leftover > (measured[most]?.leftover ?? 0) ? i : most),
    0,
  );
  measured.sort(
    (a, b) =>
      Number(a.index === last) - Number(b.index === last) || b.fill - a.fill || a.index - b.index,
  );
  return measured.map(({ sheet }) => sheet);
}

/** The share of the sheet that its bodies' boxes take. */
function fillOf(task: PackingTask, { stock, spots }: PackedSheet): number {
  const own = task.stocks[stock];
  const area = spots.reduce((sum, { body, orientation }) => {
    const lie = task.bodies[body]?.orientations[orientation];
    return sum + (lie?.width ?? 0) * (lie?.height ?? 0);
  }, 0);
  return area / ((own?.length ?? 1) * (own?.width ?? 1));
}

function toSheet(task: PackingTask, sheet: PackedSheet): SheetLayout {
  const { stock } = sheet;
  const { machine } = task.job;
  const { spots, cuts } =
    machine.kind === 'router' ? { ...sheet, cuts: [] } : sawSheet(task, machine, sheet);
  const placements = spots.flatMap((spot) => placementsOf(task, spot));
  placements.sort((a, b) => a.piece - b.piece);
  return { stock, placements, cuts };
}

function placementsOf(task: PackingTask, { body, orientation, x, y }: Spot): Placement[] {
  const lie = task.bodies[body]?.orientations[orientation];
  assert(lie !== undefined, `body ${body} has no orientation ${orientation}`);
  return lie.placements.map((placement) => ({
    ...placement,
    x: placement.x + x,
    y: placement.y + y,
  }));
}

function unplacedPieces(task: PackingTask, { unplaced }: Candidate): Unplaced[] {
  if (unplaced.length === 0) return [];
  const boxes = boxTask(task);
  const pieces = unplaced.flatMap((index): Unplaced[] => {
    const body = task.bodies[index];
    if (body === undefined) return [];
    // A rectangle has no room where its box has none, keep-outs looked at; another outline may slip past a keep-out.
    const rectangular = body.orientations.every((lie) => lie.rectangular);
    const fits = task.stocks.some((stock, k) => stock.onHand !== null && fitsStock(body, stock, k));
    const roomy = rectangular ? boxes.area[body.kind] !== 0 : fits;
    return body.pieces.map((piece) => ({ piece, why: roomy ? 'no-stock' : 'no-room' }));
  });
  return pieces.sort((a, b) => a.piece - b.piece);
}
