import { boxesOverlap, growBox } from '../geometry/box.ts';
import type { Job } from '../model/job.ts';
import { closedShape, shapesCloserThan } from './closeness.ts';
import { type Fault, type FaultCode, pieceName } from './fault.ts';
import type { LaidPiece, LaidSheet } from './laid-piece.ts';

/** Any two pieces of a sheet lie at least the machine's spacing apart, and in one another's cut-outs only where that is allowed. */
export function checkSpacing(job: Job, sheets: readonly LaidSheet[]): Fault[] {
  const { spacing } = job.machine;
  const faults: Fault[] = [];
  for (const { index, pieces } of sheets) {
    for (const [i, a] of pieces.entries()) {
      const reach = growBox(a.box, spacing);
      for (let j = i + 1; j < pieces.length; j++) {
        const b = pieces[j] as LaidPiece;
        const code = boxesOverlap(reach, b.box) ? nearFault(a, b, spacing) : null;
        if (code !== null) faults.push(fault(job, code, [a, b], index));
      }
    }
  }
  return faults;
}

function nearFault(a: LaidPiece, b: LaidPiece, spacing: number): NearCode | null {
  if (!shapesCloserThan(closedShape(a), closedShape(b), spacing)) return null;
  if (!shapesCloserThan(a.shape, b.shape, spacing)) return 'cut-out';
  return shapesCloserThan(a.shape, b.shape, 0) ? 'overlap' : 'spacing';
}

type NearCode = Extract<FaultCode, 'cut-out' | 'overlap' | 'spacing'>;

const SAYING: Readonly<Record<NearCode, string>> = {
  'cut-out': 'lies inside a cut-out that is not open to other pieces, with',
  overlap: 'overlaps',
  spacing: 'is closer than the spacing to',
};

function fault(
  job: Job,
  code: NearCode,
  [a, b]: readonly [LaidPiece, LaidPiece],
  sheet: number,
): Fault {
  const message = `${pieceName(job, a.piece.index)} ${SAYING[code]} ${pieceName(job, b.piece.index)} on sheet ${sheet + 1}`;
  return { code, sheet, piece: a.piece.index, other: b.piece.index, message };
}
