import { plainText } from '../../drawing/text.ts';
import { isEmptyLayout, type UnplacedWhy } from '../../model/layout.ts';
import type { Plan } from '../../model/plan.ts';
import {
  besideSentence,
  calmPieces,
  movingSentence,
  pieceName,
  sensitivitySentence,
} from '../care.ts';
import { lumberPurchases, lumberRules, PURCHASE_HEADS, purchaseRow } from '../lumber.ts';
import { missingLengths, missingText } from '../unplaced.ts';
import {
  assumptions,
  calmSentence,
  cautionsOf,
  explainSentence,
  lostSentences,
  packSentence,
  proofSentence,
  stopSentence,
} from '../wording.ts';
import { noteList, table } from './blocks.ts';
import { type Markup, markup, NOTHING } from './markup.ts';

/** What the job is, how far it is proved, and what must not be missed before the first cut. */
export function pageHead(plan: Plan, date: string | null): Markup {
  const { job, layouts } = plan;
  const proofs = layouts
    .filter((layout) => !isEmptyLayout(layout))
    .map((layout) => ({
      name: plainText(job.materials[layout.material]!.name),
      text: proofSentence(plan, layout),
    }));
  const alarms = [
    ...unplacedSentences(plan),
    ...lostSentences(plan),
    ...given(movingSentence(plan)),
  ];
  const words = [...given(stopSentence(plan)), ...holdingWords(plan)];
  return markup`<header class="hf-head">
<div><h1>${plainText(job.name)}</h1>
<p class="hf-under">${['Cutting plan', ...given(date)].join(' · ')}</p>
<ul class="hf-proofs">
${proofs.map(({ name, text }) => markup`<li><b>${name}</b>: ${text}.</li>\n`)}</ul></div>
<div>${words.map((text) => markup`<p>${text}</p>\n`)}${alarms.map((text) => markup`<p class="hf-alarm"><b class="hf-sign hf-alert-stop" aria-hidden="true">!</b> ${text}</p>\n`)}<p><b>${cautionsOf(job)[0]!}</b></p></div>
${aboutRun(plan)}
</header>
`;
}

/** What is the same for all sheets: warnings, the cautions, and what was assumed; folded up on the screen, open on paper. */
function aboutRun(plan: Plan): Markup {
  const assumed = plan.job.table.isGiven ? [] : given(sensitivitySentence(plan));
  return markup`<details class="hf-about">
<summary>All cautions, and what was taken for granted</summary>
${noteList('Look at first', plan.cutWarnings)}
${noteList('Cautions', cautionsOf(plan.job))}
${noteList('Taken for granted, because the parts file does not say', [...assumptions(plan.job), ...assumed])}
${noteList('More', [...given(packSentence(plan)), ...given(explainSentence(plan))])}
</details>`;
}

/** What lumber to buy; nothing where the job has none. */
export function lumberSection(plan: Plan): Markup {
  const purchases = lumberPurchases(plan);
  if (purchases.length === 0) return NOTHING;
  const rows = purchases.map((purchase) => purchaseRow(plan.job, purchase));
  return markup`<section class="hf-lumber" aria-labelledby="head-lumber">
<h2 id="head-lumber">Lumber</h2>
${table(PURCHASE_HEADS, rows, 'Lumber to buy')}${noteList('Notes', lumberRules(plan))}
</section>
`;
}

function holdingWords(plan: Plan): readonly string[] {
  const { calm, all } = calmPieces(plan);
  if (all === 0) return [];
  return [calmSentence(calm, all, ' by the reckoning'), besideSentence(plan) ?? []].flat();
}

function unplacedSentences(plan: Plan): readonly string[] {
  const why = (reason: UnplacedWhy, noun: string) =>
    reason === 'no-room' ? `fits no ${noun} of its material` : `the ${noun}s on hand are used up`;
  return plan.layouts.flatMap((layout) => [
    ...layout.unplaced.map((each) => `${pieceName(plan, each.piece)}: ${why(each.why, 'sheet')}.`),
    ...missingLengths(plan, layout).map(
      (missing) => `${missingText(missing)}: ${why(missing.why, 'board')}.`,
    ),
  ]);
}

function given(text: string | null): readonly string[] {
  return text === null ? [] : [text];
}
