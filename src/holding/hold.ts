import type { Influence, SheetHolding } from '../model/holding.ts';
import type { RouterJob } from '../model/job.ts';
import type { Layout } from '../model/layout.ts';
import { numberedSheets } from '../model/plan.ts';
import { type HeldSheet, holdSheet } from './hold-sheet.ts';
import { type Sensed, sensitivityOf } from './sensitivity.ts';

/** The holding plan of a job, and which inputs move its margins. */
export function holdJob(
  job: RouterJob,
  layouts: readonly Layout[],
): {
  readonly holding: readonly SheetHolding[];
  readonly sensitivity: readonly Influence[];
} {
  const pieces: Sensed[] = [];
  const holding = numberedSheets(layouts).map((numbered) => {
    const held = holdSheet(job, numbered);
    const stock = job.materials[numbered.material]!.sheets[numbered.sheet.stock]!;
    pieces.push(...piecesOf(held).map((thing) => ({ setting: held.setting, stock, thing })));
    return held.plan;
  });
  return { holding, sensitivity: sensitivityOf(job, pieces) };
}

/**
 * What comes loose on each sheet, whether it stays, what to do about it, and in which order to cut.
 * One a sheet, in the order of `numberedSheets`. Vacuum to 0.01 kPa, forces to 0.1 N, margins to
 * 0.01.
 */
export function holdSheets(job: RouterJob, layouts: readonly Layout[]): readonly SheetHolding[] {
  return holdJob(job, layouts).holding;
}

/** The materials of which some piece does not stay by itself. */
export function weakMaterials(
  layouts: readonly Layout[],
  holding: readonly SheetHolding[],
): ReadonlySet<number> {
  const weak = holding.filter(({ loose }) =>
    loose.some(({ kind, verdict }) => kind === 'piece' && verdict !== 'stays'),
  );
  const sheets = new Set(weak.map(({ sheet }) => sheet));
  const numbered = numberedSheets(layouts).filter(({ number }) => sheets.has(number));
  return new Set(numbered.map(({ material }) => material));
}

function piecesOf({ things }: HeldSheet): HeldSheet['things'] {
  return things.filter(({ holding }) => holding.kind === 'piece');
}
