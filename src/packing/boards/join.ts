import type { Layout } from '../../model/layout.ts';
import type { Packing } from '../pack.ts';

/** The sheets and the boards of one material as one packing: what they use is summed up, and so are their bounds. */
export function joinPackings(sheets: Packing, boards: Packing): Packing {
  return {
    layout: joinLayouts(sheets.layout, boards.layout),
    stopped: sheets.stopped || boards.stopped,
  };
}

function joinLayouts(sheets: Layout, boards: Layout): Layout {
  const hasSheets = sheets.sheets.length + sheets.unplaced.length > 0;
  const states = [sheets.status, boards.status];
  return {
    material: sheets.material,
    objective: boards.objective,
    status: states.includes('impossible')
      ? 'impossible'
      : states.includes('limit')
        ? 'limit'
        : 'proved',
    used: sheets.used + boards.used,
    bound: {
      atLeast: sheets.bound.atLeast + boards.bound.atLeast,
      // The sheets' way to a bound is never stronger than the boards'.
      provedBy: hasSheets ? sheets.bound.provedBy : boards.bound.provedBy,
    },
    sheets: sheets.sheets,
    boards: boards.boards,
    unplaced: sheets.unplaced,
    unplacedLengths: boards.unplacedLengths,
  };
}
