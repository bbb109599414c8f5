import { formatRun } from '../model/format.ts';
import type { Plan } from '../model/plan.ts';

/** "At the saw: 29 cuts with trims, 41.5 m in all; 3 stages, not counting trims and cuts that free only leftovers; 5 cuts need care." */
export function sawSentence(
  { job }: Plan,
  totals: {
    readonly cuts: number;
    readonly runMm: number;
    readonly stages: number;
    readonly marked: number;
  },
): string {
  const { cuts, runMm, stages, marked } = totals;
  const what = `${cuts === 1 ? '1 cut' : `${cuts} cuts`} with trims, ${formatRun(runMm, job.unit)} in all`;
  const count = stages === 1 ? '1 stage' : `${stages} stages`;
  const turns =
    stages === 0 ? '' : `; ${count}, not counting trims and cuts that free only leftovers`;
  const care =
    marked === 0
      ? ''
      : `; ${marked === 1 ? '1 cut needs' : `${marked} cuts need`} care (small parts, or narrow or short at the fence)`;
  return `At the saw: ${what}${turns}${care}.`;
}

/** What every output says of safety at a saw. Common practice, no source; the first two may stand alone. */
export const SAW_CAUTIONS: readonly string[] = [
  'Guard and riving knife in place; push stick for anything narrower than 150 mm (6 in); never reach over the running blade.',
  'The settings are an estimate, reckoned with the kerf of the file: measure the first strip before cutting on.',
  'Leave nothing loose between blade and fence, and stand aside of the line of the cut: a piece that binds is thrown back.',
  'Wear eye and hearing protection, keep the dust extraction on, and treat wood and board dust as harmful to breathe.',
  'Handle and cut whole sheets with two people, or with supports beside and behind the saw.',
  'Unplug the saw, or lock it out, before the blade is changed or a jam is cleared.',
  'Local rules, the makers’ instructions for saw and blade, and trained people come before anything written here.',
];

/** The same for a job that has boards only. */
export const BOARD_SAW_CAUTIONS: readonly string[] = [
  'Guard in place; push stick or hold-down for anything short; never reach over or behind the running blade.',
  'A stop block at the fence ends well before the blade, so that the piece is clear of it when it comes off and cannot bind between block and blade.',
  'The settings are an estimate, reckoned with the kerf of the file: measure the first piece before cutting on.',
  SAW_CAUTIONS[3]!,
  SAW_CAUTIONS[5]!,
  SAW_CAUTIONS[6]!,
];

/** After a list of offcuts, which are measured as they can be used. */
export const RAW_EDGE =
  'Offcuts are panels that fall off at the saw, measured inside the trimmed edges: one from the rim of a sheet is larger by the raw edge that is still on it.';
