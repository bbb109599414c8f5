import { boxesOverlap, growBox } from '../geometry/box.ts';
import { boxContour } from '../geometry/shape.ts';
import type { Job } from '../model/job.ts';
import type { KeepOut } from '../model/stock.ts';
import { closedShape, shapesCloserThan } from './closeness.ts';
import { type Fault, pieceName } from './fault.ts';
import type { LaidPiece, LaidSheet } from './laid-piece.ts';

/** Every piece keeps the machine's spacing to every keep-out of its sheet. */
export function checkKeepOuts(job: Job, sheets: readonly LaidSheet[]): Fault[] {
  return sheets.flatMap(({ index, stock, pieces }) =>
    (stock?.keepOuts ?? []).flatMap((keepOut) =>
      pieces
        .filter((laid) => touches(laid, keepOut, job.machine.spacing))
        .map(({ piece }) => ({
          code: 'keep-out',
          sheet: index,
          piece: piece.index,
          other: null,
          message: `${pieceName(job, piece.index)} is too close to a keep-out (${keepOut.why}) of sheet ${index + 1}`,
        })),
    ),
  );
}

function touches(laid: LaidPiece, { box }: KeepOut, spacing: number): boolean {
  if (!boxesOverlap(growBox(laid.box, spacing), box)) return false;
  return shapesCloserThan(closedShape(laid), { outer: boxContour(box), inner: [] }, spacing);
}
