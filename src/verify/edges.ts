import { boxContains, growBox } from '../geometry/box.ts';
import { boxContour, type Shape } from '../geometry/shape.ts';
import type { Job } from '../model/job.ts';
import { type SheetStock, usableBox } from '../model/stock.ts';
import { shapesCloserThan } from './closeness.ts';
import { type Fault, pieceName } from './fault.ts';
import type { LaidPiece, LaidSheet } from './laid-piece.ts';

/**
 * Every piece lies on its sheet less the trim; touching the trim is legal.
 * The usable part of a rectangular sheet is a box, so a piece lies in it just where the piece's own box does. Around an odd-shaped sheet a frame is put,
 * and a piece keeps the trim from it as it keeps the spacing from another piece.
 */
export function checkEdges(job: Job, sheets: readonly LaidSheet[]): Fault[] {
  return sheets.flatMap(({ index, stock, pieces }) => {
    if (!stock) return [];
    const usable = usableBox(stock);
    const frame = frameOf(stock);
    return pieces
      .filter((laid) => !boxContains(usable, laid.box) || (frame && isNear(laid, frame, stock)))
      .map(({ piece }) => ({
        code: 'outside',
        sheet: index,
        piece: piece.index,
        other: null,
        message: `${pieceName(job, piece.index)} reaches over the trimmed edge of sheet ${index + 1}`,
      }));
  });
}

/** What surrounds an odd-shaped sheet: the box round it, a little larger, with the sheet as an opening; null for a rectangular sheet. */
function frameOf({ boundary, length, width }: SheetStock): Shape | null {
  if (boundary === null) return null;
  const around = growBox({ minX: 0, minY: 0, maxX: length, maxY: width }, RIM);
  const opening = [...boundary].reverse().map(({ x, y }) => ({ x, y, via: null }));
  return { outer: boxContour(around), inner: [opening] };
}

/** Any width will do, so that the frame is a sound body. */
const RIM = 8000;

function isNear({ shape }: LaidPiece, frame: Shape, { trim }: SheetStock): boolean {
  return shapesCloserThan({ outer: shape.outer, inner: [] }, frame, trim.left);
}
