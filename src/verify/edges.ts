import { boxContains } from '../geometry/box.ts';
import type { Job } from '../model/job.ts';
import { usableBox } from '../model/stock.ts';
import { type Fault, pieceName } from './fault.ts';
import type { LaidSheet } from './laid-piece.ts';

/**
 * Every piece lies on its sheet less the trim; touching the trim is legal.
 * The usable part of a sheet is a box, so a piece lies in it just where the piece's own box does.
 */
export function checkEdges(job: Job, sheets: readonly LaidSheet[]): Fault[] {
  return sheets.flatMap(({ index, stock, pieces }) => {
    if (!stock) return [];
    const usable = usableBox(stock);
    return pieces
      .filter(({ box }) => !boxContains(usable, box))
      .map(({ piece }) => ({
        code: 'outside',
        sheet: index,
        piece: piece.index,
        other: null,
        message: `${pieceName(job, piece.index)} reaches over the trimmed edge of sheet ${index + 1}`,
      }));
  });
}
