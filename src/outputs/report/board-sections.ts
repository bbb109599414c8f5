import { boardPatterns } from '../../drawing/board-patterns.ts';
import { boardSteps } from '../../drawing/board-steps.ts';
import {
  PATTERN_HEADS,
  patternRow,
  placeRule,
  STEP_HEADS,
  stepRows,
} from '../../drawing/board-texts.ts';
import { formatLength, formatMoney } from '../../model/format.ts';
import { boardKerf } from '../../model/machine.ts';
import type { Plan } from '../../model/plan.ts';
import { missingLengths, missingText } from '../unplaced.ts';
import { boughtNoun, stopRule, yieldText } from '../wording.ts';
import { plain, table } from './markdown-text.ts';

/** The cutting list of the boards: alike ones in one row, then the settings of the stop for each; empty where there are none. */
export function boardSection(plan: Plan): string {
  const patterns = boardPatterns(plan);
  const missing = plan.layouts.flatMap((layout) => missingLengths(plan, layout));
  if (patterns.length + missing.length === 0) return '';
  const { job, costs } = plan;
  const rule = placeRule(patterns.flatMap((each) => boardSteps(each, boardKerf(job.machine))));
  const total =
    costs.totalCents === null ? 'not known' : formatMoney(costs.totalCents, job.currency);
  return [
    '## Boards',
    table(
      PATTERN_HEADS,
      patterns.map((pattern) => patternRow(job, pattern).map(plain)),
      'lllllr',
    ),
    ...missing.map(
      (each) => `Left over, as the boards do not suffice: ${plain(missingText(each))}.`,
    ),
    `Reckoned with a kerf of ${formatLength(boardKerf(job.machine), job.unit)}. Yield on what is bought: ${yieldText(plan)}. Price of the ${boughtNoun(plan)}: ${total}.`,
    '### Settings of the stop',
    [stopRule(patterns), ...(rule === null ? [] : [rule])].join(' '),
    table(
      STEP_HEADS,
      patterns.flatMap((pattern) => stepRows(job, pattern).map((row) => row.map(plain))),
      'lrrl',
    ),
  ].join('\n\n');
}

/** The parts that are cut to length; empty where there are none. */
export function boardPartSection({ job }: Plan): string {
  if (job.lengthParts.length === 0) return '';
  const rows = job.lengthParts.map((part) => [
    plain(part.name),
    plain(job.materials[part.material]!.name),
    String(part.count),
    formatLength(part.length, job.unit),
    plain(part.note ?? ''),
  ]);
  return `## Parts cut to length\n\n${table(['Part', 'Material', 'Count', 'Length', 'Note'], rows, 'llrrl')}`;
}
