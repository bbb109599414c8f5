import { boardPatterns } from '../../drawing/board-patterns.ts';
import { boardSteps } from '../../drawing/board-steps.ts';
import {
  PATTERN_HEADS,
  patternRow,
  placeRule,
  STEP_HEADS,
  stepRows,
} from '../../drawing/board-texts.ts';
import { formatLength } from '../../model/format.ts';
import { boardKerf } from '../../model/machine.ts';
import type { Plan } from '../../model/plan.ts';
import { stopRule } from '../wording.ts';
import { type Block, column } from './blocks.ts';

const PATTERN_SHARES = [2.6, 5, 6.5, 8, 7, 3.8];
const STEP_SHARES = [3, 3, 3, 12];

/** The cutting list of the boards and the settings of the stop; none where there are no boards. */
export function boardBlocks(plan: Plan): readonly Block[] {
  const { job } = plan;
  const patterns = boardPatterns(plan);
  if (patterns.length === 0) return [];
  const rule = placeRule(patterns.flatMap((each) => boardSteps(each, boardKerf(job.machine))));
  const kerf = formatLength(boardKerf(job.machine), job.unit);
  return [
    { kind: 'heading', text: 'The boards' },
    {
      kind: 'table',
      columns: PATTERN_HEADS.map((head, i) => column(head, PATTERN_SHARES[i]!, i === 5)),
      rows: patterns.map((pattern) => patternRow(job, pattern)),
    },
    { kind: 'heading', text: 'Settings of the stop' },
    {
      kind: 'paragraph',
      text: `${stopRule(patterns)}${rule === null ? '' : ` ${rule}`} The plan reckons with a kerf of ${kerf}.`,
    },
    {
      kind: 'table',
      columns: STEP_HEADS.map((head, i) => column(head, STEP_SHARES[i]!, i === 1 || i === 2)),
      rows: patterns.flatMap((pattern) => stepRows(job, pattern)),
    },
  ];
}
