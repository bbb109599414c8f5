// Finds what a saw leaves of a sheet: the panels that no cut makes anything of.
// Idea: the cuts are replayed, and what lies there at the end without any of a piece or a bad place is left over. Only what is inside the trimmed edges counts,
//   since the raw edge of a sheet has to come off sooner or later.
// Source: our own.
// Cost: panels times pieces.
// Degenerate cases: an uncut sheet without pieces is one panel; a panel with a keep-out on it is waste, since its good part is another cut away.
import { type Box, boxArea, boxesOverlap, isEmptyBox } from '../geometry/box.ts';
import { boxOfShape, placeShape } from '../geometry/pose.ts';
import type { Offcut } from '../model/costs.ts';
import type { Job } from '../model/job.ts';
import type { SawCut, SheetLayout } from '../model/layout.ts';
import type { PanelSaw } from '../model/machine.ts';
import { panelsLeft, sawnHalves, wholeSheet } from '../model/saw-panels.ts';
import { closedBoxes, type SheetStock, usableBox } from '../model/stock.ts';

/** Largest first. */
export function sawnLeftovers(
  job: Job,
  { kerf }: PanelSaw,
  stock: SheetStock,
  { placements, cuts }: SheetLayout,
): readonly Offcut[] {
  const taken: Box[] = [...closedBoxes(stock), ...stock.keepOuts.map(({ box }) => box)];
  for (const placement of placements) {
    const { shape } = job.parts[job.pieces[placement.piece]!.part]!;
    taken.push(boxOfShape(placeShape(shape, placement)));
  }
  return panelsLeft(wholeSheet(stock), cuts, kerf)
    .map((panel) => ({ box: within(panel, usableBox(stock)), panel }))
    .filter(({ box }) => !isEmptyBox(box) && !taken.some((other) => boxesOverlap(other, box)))
    .sort((a, b) => boxArea(b.box) - boxArea(a.box));
}

/** What the blade turns to dust inside the trimmed edges, a box a cut; they do not overlap. */
export function sawnKerfBoxes(
  stock: SheetStock,
  cuts: readonly SawCut[],
  kerf: number,
): readonly Box[] {
  return cuts.flatMap((cut) => {
    const { low, high } = sawnHalves(cut, kerf);
    const swept =
      cut.axis === 'x'
        ? { ...cut.panel, minY: low.maxY, maxY: high.minY }
        : { ...cut.panel, minX: low.maxX, maxX: high.minX };
    const box = within(within(swept, cut.panel), usableBox(stock));
    return isEmptyBox(box) ? [] : [box];
  });
}

function within(a: Box, b: Box): Box {
  return {
    minX: Math.max(a.minX, b.minX),
    minY: Math.max(a.minY, b.minY),
    maxX: Math.min(a.maxX, b.maxX),
    maxY: Math.min(a.maxY, b.maxY),
  };
}
