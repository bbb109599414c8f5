import { samePoint } from '../geometry/point.ts';
import { placePoint } from '../geometry/pose.ts';
import type { Job } from '../model/job.ts';
import type { Layout } from '../model/layout.ts';
import type { MatchedSet } from '../model/part.ts';
import { type Fault, type FaultCode, pieceName } from './fault.ts';
import type { LaidPiece, LaidSheet } from './laid-piece.ts';

/** The pieces of each matched set lie on one sheet, turned and faced alike, in order, one spacing apart and level. */
export function checkSets(job: Job, layout: Layout, sheets: readonly LaidSheet[]): Fault[] {
  const laid = new Map<number, LaidPiece>();
  for (const sheet of sheets) {
    for (const piece of sheet.pieces) laid.set(piece.piece.index, piece);
  }
  const ofMaterial = ({ pieces }: MatchedSet) =>
    pieces.some((index) => {
      const piece = job.pieces[index];
      return piece && job.parts[piece.part]?.material === layout.material;
    });
  return job.sets.filter(ofMaterial).flatMap((set) => checkSet(job, set, laid));
}

function checkSet(job: Job, set: MatchedSet, laid: ReadonlyMap<number, LaidPiece>): Fault[] {
  const faults: Fault[] = [];
  for (let k = 1; k < set.pieces.length; k++) {
    const [left, right] = [set.pieces[k - 1] as number, set.pieces[k] as number];
    const [a, b] = [laid.get(left), laid.get(right)];
    // A set that is left out as a whole is not torn apart; which pieces may be left out is for another check.
    if (!a && !b) continue;
    const code = a && b ? neighbourFault(a, b, set.axis, job.machine.spacing) : 'set-apart';
    if (code !== null) {
      const message = `${pieceName(job, right)} ${SAYING[code]} ${pieceName(job, left)}, before it in the matched set ${set.name}`;
      faults.push({ code, sheet: b?.sheet ?? null, piece: right, other: left, message });
    }
  }
  return faults;
}

type SetFaultCode = Extract<FaultCode, `set-${string}`>;

const SAYING: Readonly<Record<SetFaultCode, string>> = {
  'set-apart': 'is not on the sheet of',
  'set-turn': 'is not turned and faced like',
  'set-order': 'does not follow after',
  'set-gap': 'is not level with and exactly one spacing away from',
};

function neighbourFault(
  a: LaidPiece,
  b: LaidPiece,
  axis: 'x' | 'y',
  spacing: number,
): SetFaultCode | null {
  if (a.sheet !== b.sheet) return 'set-apart';
  if (a.placement.turn !== b.placement.turn || a.placement.mirrored !== b.placement.mirrored)
    return 'set-turn';
  const step =
    axis === 'x' ? { x: a.part.width + spacing, y: 0 } : { x: 0, y: a.part.height + spacing };
  const due = placePoint(step, a.placement);
  if (samePoint(due, b.placement)) return null;
  const { x, y } = a.placement;
  const along = (due.x - x) * (b.placement.x - x) + (due.y - y) * (b.placement.y - y);
  return along <= 0 ? 'set-order' : 'set-gap';
}
