/** How the open kerf of a sheet grows along its cutting order. */
import type { CutStep } from '../model/holding.ts';
import type { LaidPiece } from './laid-pieces.ts';

/** One step, done. */
export interface CutMoment {
  readonly step: CutStep;
  /** Index in the list of laid pieces. */
  readonly laid: number;
  /** Place among the cuts that free something, from 1; a hole has that of the next such cut. */
  readonly place: number;
  /** On the whole sheet, this cut included. */
  readonly openKerfMm: number;
}

export function cutMoments(laid: readonly LaidPiece[], steps: readonly CutStep[]): CutMoment[] {
  const indexOf = new Map(laid.map(({ piece }, i) => [piece, i]));
  const cut = new Set<number>();
  let openKerfMm = 0;
  let place = 1;
  return steps.map((step) => {
    const index = indexOf.get(step.piece)!;
    openKerfMm += kerfOf(laid[index]!, step, cut);
    if (step.kind === 'outline') cut.add(index);
    const moment = { step, laid: index, place, openKerfMm };
    if (step.kind !== 'hole') place++;
    return moment;
  });
}

/** All the kerf that cutting this piece alone opens. */
export function ownKerfMm({ open, outlineKerfMm }: LaidPiece): number {
  return open.openings.reduce((sum, { kerfMm }) => sum + kerfMm, outlineKerfMm);
}

function kerfOf(each: LaidPiece, { kind, feature }: CutStep, cut: ReadonlySet<number>): number {
  if (kind === 'outline') {
    const sharedMm = [...each.sharedKerfMm].reduce(
      (sum, [i, mm]) => (cut.has(i) ? sum + mm : sum),
      0,
    );
    return Math.max(0, each.outlineKerfMm - sharedMm);
  }
  const opening = each.open.openings.find((o) => o.kind === kind && o.feature === feature);
  return opening?.kerfMm ?? 0;
}
