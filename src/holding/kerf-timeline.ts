/** How the open kerf of a sheet grows along its cutting order, and how the vacuum falls. */
import type { ContourStep, SheetHolding } from '../model/holding.ts';
import { type Air, vacuumAt } from './air.ts';
import { CONSTANTS } from './constants.ts';
import type { LaidPiece } from './laid-pieces.ts';
import { kerfUm, sharesOf } from './open-kerf.ts';

/** One step, done. */
export interface CutMoment {
  readonly step: ContourStep;
  /** Index in the list of laid pieces. */
  readonly laid: number;
  /** Place among the cuts that free something, from 1; a pocket or a hole has that of the next such cut. */
  readonly place: number;
  /** On the whole sheet, this cut included. */
  readonly openKerfMm: number;
}

export function cutMoments(laid: readonly LaidPiece[], steps: readonly ContourStep[]): CutMoment[] {
  const indexOf = new Map(laid.map(({ piece }, i) => [piece, i]));
  const cut = new Set<number>();
  let openUm = 0;
  let place = 1;
  return steps.map((step) => {
    const index = indexOf.get(step.piece)!;
    openUm += openedBy(laid[index]!, step, cut);
    if (step.kind === 'outline') cut.add(index);
    const moment = { step, laid: index, place, openKerfMm: openUm / 1000 };
    if (frees(step)) place++;
    return moment;
  });
}

function frees({ kind }: ContourStep): boolean {
  return kind === 'cut-out' || kind === 'outline';
}

/** With the numbers as they are. */
export function vacuumAlong(
  air: Air,
  moments: readonly CutMoment[],
): Pick<SheetHolding, 'vacuumStartKpa' | 'vacuumAlongKpa' | 'lostAfter'> {
  const at = (openKerfMm: number): number => vacuumAt(air, openKerfMm, 'nominal');
  const freeing = moments.filter(({ step }) => frees(step));
  const vacuumStartKpa = at(0);
  const vacuumAlongKpa = freeing.map(({ openKerfMm }) => at(openKerfMm));
  const kpas = [vacuumStartKpa, ...vacuumAlongKpa];
  const lost = kpas.findIndex((kpa) => isLost(kpa, vacuumStartKpa));
  return { vacuumStartKpa, vacuumAlongKpa, lostAfter: lost < 0 ? null : lost };
}

/** Whether a table has so little left of its vacuum that it no longer holds. */
export function isLost(vacuumKpa: number, startKpa: number): boolean {
  return vacuumKpa === 0 || vacuumKpa < CONSTANTS.lostVacuum.value * startKpa;
}

/** In micrometres, with the outlines of `cut` open already. */
function openedBy(
  each: LaidPiece,
  { kind, feature }: ContourStep,
  cut: ReadonlySet<number>,
): number {
  if (kind === 'outline') {
    const shared = sharesOf(each).filter(({ block }) => cut.has(block));
    return kerfUm(each.outlineKerfMm) - shared.reduce((sum, { um }) => sum + um, 0);
  }
  const opening = each.open.openings.find((o) => o.kind === kind && o.feature === feature);
  return kerfUm(opening?.kerfMm ?? 0);
}
