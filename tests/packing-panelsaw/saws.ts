import type { Job } from '../../src/model/job.ts';
import type { PanelSaw } from '../../src/model/machine.ts';
import { jobOf, type PartSketch, type StockSketch } from '../packing/jobs.ts';

/** Without limits and without a kerf. */
export const PLAIN_SAW: PanelSaw = {
  kind: 'panel-saw',
  kerf: 0,
  spacing: 0,
  stages: null,
  firstCut: null,
  longestRip: null,
  longestCrosscut: null,
  stackHeight: null,
  leastFeed: { width: 0, length: 0 },
  assumed: [],
};

export function sawOf(changes: Partial<Omit<PanelSaw, 'spacing'>>): PanelSaw {
  return { ...PLAIN_SAW, ...changes, spacing: changes.kerf ?? 0 };
}

export interface SawnJob extends Job {
  readonly machine: PanelSaw;
}

/** A job of one material for a saw. */
export function sawnJob(
  stocks: readonly StockSketch[],
  sketches: readonly PartSketch[],
  changes: Partial<Omit<PanelSaw, 'spacing'>> = {},
): SawnJob {
  return { ...jobOf(stocks, sketches), machine: sawOf(changes) };
}
