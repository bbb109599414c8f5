import type { SheetHolding } from '../model/holding.ts';
import type { Job } from '../model/job.ts';
import type { Layout } from '../model/layout.ts';
import { numberedSheets } from '../model/plan.ts';
import { holdSheet } from './hold-sheet.ts';

/**
 * What comes loose on each sheet, whether it stays, what to do about it, and in which order to cut.
 * One a sheet, in the order of `numberedSheets`. Vacuum to 0.01 kPa, forces to 0.1 N, margins to
 * 0.01.
 */
export function holdSheets(job: Job, layouts: readonly Layout[]): readonly SheetHolding[] {
  return numberedSheets(layouts).map((numbered) => holdSheet(job, numbered).plan);
}
