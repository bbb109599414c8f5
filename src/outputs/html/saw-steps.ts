import type { SawGroup } from '../../drawing/saw-groups.ts';
import type { SawStep } from '../../drawing/saw-steps.ts';
import {
  careSentences,
  groupTitle,
  sequenceHeads,
  sequenceRows,
  sequenceRules,
} from '../../drawing/saw-texts.ts';
import type { Job } from '../../model/job.ts';
import { noteList } from './blocks.ts';
import { type Markup, markup, NOTHING } from './markup.ts';

/** The cuts of a sheet in their order, with a box to tick for each book of alike sheets; they stand with the first of these. */
export function sawSteps(job: Job, group: SawGroup, number: number): Markup {
  const { steps, numbers } = group;
  if (steps.length === 0) return NOTHING;
  const first = numbers[0]!;
  if (number !== first)
    return markup`<p class="hf-like">Cut like sheet ${first}: <button type="button" class="hf-plain" data-go="${first}">the sequence is with sheet ${first}</button></p>`;
  const heads = sequenceHeads(job.unit);
  const rows = sequenceRows(job, steps);
  const label = `Sequence at the saw, sheet ${first}`;
  return markup`<h3>${numbers.length === 1 ? 'Sequence at the saw' : `Sequence at the saw, ${small(groupTitle(group))}`}</h3>
<div class="hf-wide" tabindex="0" role="region" aria-label="${label}"><table class="hf-steps" role="table">
<caption class="hf-unseen">${label}</caption>
<thead role="rowgroup"><tr role="row"><th role="columnheader" scope="col">Done</th>${heads.map((head) => markup`<th role="columnheader" scope="col">${head}</th>`)}</tr></thead>
<tbody role="rowgroup">
${steps.map((step, i) => stepRow(group, step, rows[i]!, heads))}</tbody>
</table></div>
<div class="${first === 1 ? '' : 'hf-again'}">${noteList('How to read it', sequenceRules(job))}</div>
${noteList('Mind', careSentences(steps))}
`;
}

function small(text: string): string {
  return `${text[0]!.toLowerCase()}${text.slice(1)}`;
}

/** With roles and heads of its own, since a narrow screen shows each row as a card. */
function stepRow(
  group: SawGroup,
  step: SawStep,
  [cut = '', ...rest]: readonly string[],
  [, ...heads]: readonly string[],
): Markup {
  const mind = step.care.length > 0 ? 'hf-mind' : '';
  const cells = rest.map(
    (cell, i) => markup`<td role="cell" data-head="${heads[i]!}">${cell}</td>`,
  );
  return markup`<tr role="row" class="${mind}"><td role="cell" class="hf-ticks">${bookTicks(group, step)}</td><th role="rowheader" scope="row">${cut}</th>${cells}</tr>
`;
}

/** One box a book, which ticks the pieces that the cut gives on the sheets of that book as well. */
function bookTicks({ books, numbers }: SawGroup, step: SawStep): readonly Markup[] {
  let from = 0;
  return books.map((sheets, book) => {
    const ids = finishedOn(step, from, from + sheets);
    from += sheets;
    const which =
      books.length === 1
        ? ''
        : sheets === 1
          ? `, sheet ${numbers[from - 1]}`
          : `, book ${book + 1}`;
    const shown = books.length === 1 ? '' : `${book + 1}`;
    return markup`<label class="hf-tick"><input type="checkbox" data-tick="s${numbers[0]!}-${step.number}-${book}" data-gives="${ids.map((id) => `p${id}`).join(' ')}"><span class="hf-unseen">Cut ${step.number} is done${which}</span><span aria-hidden="true">${shown}</span></label>`;
  });
}

/** The pieces of a step are one of each sheet, in the order of the sheets. */
function finishedOn({ guided, off }: SawStep, from: number, to: number): readonly number[] {
  return [guided, off].flatMap(({ thing }) =>
    thing.kind === 'piece' ? thing.pieces.slice(from, to) : [],
  );
}
