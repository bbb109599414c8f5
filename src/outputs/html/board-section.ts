import { type BoardPattern, boardPatterns } from '../../drawing/board-patterns.ts';
import { boardSteps } from '../../drawing/board-steps.ts';
import {
  boardCount,
  boardNumbers,
  leftoversText,
  placeRule,
  stepRows,
} from '../../drawing/board-texts.ts';
import { plainText } from '../../drawing/text.ts';
import { formatLength } from '../../model/format.ts';
import { boardKerf } from '../../model/machine.ts';
import type { Plan } from '../../model/plan.ts';
import { stopRule } from '../wording.ts';
import { drawingFrame, noteList } from './blocks.ts';
import { type Markup, markup, NOTHING } from './markup.ts';

/** The boards: their drawings, and the settings of the stop with a box to tick for each. */
export function boardSection(plan: Plan, svgs: readonly string[]): Markup {
  const patterns = boardPatterns(plan);
  if (patterns.length === 0) return NOTHING;
  const { job } = plan;
  const kerf = boardKerf(job.machine);
  const rule = placeRule(patterns.flatMap((pattern) => boardSteps(pattern, kerf)));
  const notes = [
    stopRule(patterns),
    ...(rule === null ? [] : [rule]),
    `The plan reckons with a kerf of ${formatLength(kerf, job.unit)}.`,
  ];
  return markup`<section class="hf-part" id="part-boards" data-sheet="boards" aria-labelledby="head-boards">
<h2 id="head-boards" tabindex="-1">Boards</h2>
<div class="hf-pair">
<div class="hf-pages">${svgs.map((svg, i) => drawingFrame(`Drawing of the boards, page ${i + 1} of ${svgs.length}`, svg))}</div>
<div class="hf-side">
${patterns.map((pattern, i) => patternSteps(plan, pattern, i))}${noteList('Notes', notes)}
</div>
</div>
</section>
`;
}

/** Boards that are cut alike, step by step. */
function patternSteps({ job }: Plan, pattern: BoardPattern, index: number): Markup {
  const numbers = boardNumbers(pattern);
  const many = pattern.numbers.length === 1 ? 'Board' : 'Boards';
  const steps = boardSteps(pattern, boardKerf(job.machine));
  const rows = stepRows(job, pattern);
  return markup`<h3>${many} ${numbers}: ${boardCount(pattern, job.unit)}</h3>
<p class="hf-under">${plainText(pattern.material.name)} · each leaves over: ${leftoversText(pattern.leftovers, job.unit)}</p>
<ol class="hf-list">
${steps.map((step, i) => {
  const [, stop = '', times = '', what = ''] = rows[i]!;
  const pieces = step.kind === 'stop' ? step.stop.timesPerBoard * pattern.numbers.length : 0;
  // A whole label is the target: at the saw nobody aims at a small box.
  const name =
    step.kind === 'stop'
      ? `Stop at ${stop}, ${times === '1' ? 'once' : `${times} times`} a board`
      : what;
  const detail = step.kind === 'stop' ? what : '';
  return markup`<li class="hf-row"><label class="hf-tick hf-whole"><input type="checkbox" data-tick="b${index}-${i}" data-weight="${pieces}"><span class="hf-step"><span class="hf-what">${name}</span> <span class="hf-size">${detail}</span></span></label></li>
`;
})}</ol>
`;
}
