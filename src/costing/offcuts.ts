// Finds the leftovers of a sheet that are worth keeping.
// Idea: a useful leftover is a whole rectangle. Take the one that is worth most of what the pieces and keep-outs leave, note it, treat it as taken, and look again
//   until what is left is too small. Boxes stand for the pieces, so that an offcut is never smaller than promised.
// Source: largest empty rectangle as in geometry; what is worth keeping says the file.
// Cost: a few rectangle searches a sheet.
// Degenerate cases: an empty sheet is one offcut; a full one has none.
import { type Box, boxOf, growBox } from '../geometry/box.ts';
import { largestEmptyRectangle } from '../geometry/empty-rectangle.ts';
import { boxOfShape, placeShape } from '../geometry/pose.ts';
import type { Offcut } from '../model/costs.ts';
import type { Job } from '../model/job.ts';
import type { SheetLayout } from '../model/layout.ts';
import { cutWidth } from '../model/machine.ts';
import { isWorthKeeping, offcutWorth } from '../model/offcut-rule.ts';
import { closedBoxes, type SheetStock, usableBox } from '../model/stock.ts';
import { sawnLeftovers } from './sawn-offcuts.ts';

const MOST_OFFCUTS = 4;

/** The offcuts of one sheet, those wanted most first, at least one spacing and the width of the cut away from every piece; at a saw the panels that its cuts leave. */
export function offcutsOf(job: Job, stock: SheetStock, sheet: SheetLayout): readonly Offcut[] {
  const { machine, offcuts: rule } = job;
  if (machine.kind === 'panel-saw')
    return sawnLeftovers(job, machine, stock, sheet).filter(({ box }) => isWorthKeeping(box, rule));
  // With common cuts there is no spacing between pieces, but the cutter still takes its width beside them.
  const apart = Math.max(machine.spacing, cutWidth(machine));
  const usable = usableBox(stock);
  const obstacles: Box[] = [...closedBoxes(stock), ...stock.keepOuts.map(({ box }) => box)];
  for (const placement of sheet.placements) {
    const part = job.parts[job.pieces[placement.piece]!.part]!;
    obstacles.push(growBox(boxOfShape(placeShape(part.shape, placement)), apart));
  }
  const offcuts: Offcut[] = [];
  while (offcuts.length < MOST_OFFCUTS) {
    const box = largestEmptyRectangle(usable, obstacles, (each) => offcutWorth(each, usable, rule));
    if (box === null || !isWorthKeeping(box, rule)) break;
    offcuts.push({ box, panel: box });
    // The cut that parts it from the next one needs room as well.
    obstacles.push(growBox(box, apart));
  }
  return offcuts;
}

/** How far the pieces reach along the sheet's length, from the trimmed edge. */
export function usedLength(job: Job, stock: SheetStock, sheet: SheetLayout): number {
  const ends = sheet.placements.map((placement) => {
    const part = job.parts[job.pieces[placement.piece]!.part]!;
    return { x: boxOfShape(placeShape(part.shape, placement)).maxX, y: 0 };
  });
  return ends.length === 0 ? 0 : boxOf(ends).maxX - stock.trim.left;
}
