import { alertOf } from '../../drawing/marks.ts';
import { offcutSize, rawSize } from '../../drawing/offcut-texts.ts';
import { groupTitle } from '../../drawing/saw-texts.ts';
import { doneText, sheetNotes } from '../../drawing/sheet-table.ts';
import {
  type LaidPiece,
  type LaidWaste,
  type SheetView,
  thingsInOrder,
} from '../../drawing/sheet-view.ts';
import { SIGNS } from '../../drawing/styles.ts';
import { plainText } from '../../drawing/text.ts';
import { counted, formatShare, formatSize, formatWeight } from '../../model/format.ts';
import type { Holding } from '../../model/holding.ts';
import type { Plan } from '../../model/plan.ts';
import { orderSentence, vacuumSentence } from '../wording.ts';
import { drawingFrame, noteList } from './blocks.ts';
import { type Markup, markup, NOTHING } from './markup.ts';
import { sizeText } from './piece-facts.ts';
import { sawSteps } from './saw-steps.ts';

/** One sheet: its drawing, and the list of what comes off it with a box to tick for each piece. */
export function sheetSection(plan: Plan, view: SheetView, svg: string): Markup {
  const { number, of } = view;
  const title = `Sheet ${number} of ${of}`;
  return markup`<section class="hf-part" id="part-${number}" data-sheet="${number}" aria-labelledby="head-${number}">
<div class="hf-title"><h2 id="head-${number}" tabindex="-1">${title}</h2>
<p class="hf-under">${sheetFacts(view)}</p></div>
<div class="hf-pair">
${drawingFrame(`Drawing of sheet ${number}`, svg)}
<div class="hf-side">
<h3>${view.sawing === null ? 'Pieces in cutting order' : 'Pieces as they come off'}</h3>
<ol class="hf-list">
${thingsInOrder(view).map((thing) => row(view, thing))}</ol>
${noteList('Notes', sheetSentences(plan, view))}
</div>
</div>
${view.sawing === null ? NOTHING : sawSteps(view.job, view.sawing, number)}
</section>
`;
}

function row(view: SheetView, thing: LaidPiece | LaidWaste): Markup {
  return 'piece' in thing ? pieceRow(view, thing) : wasteRow(view, thing);
}

function pieceRow(view: SheetView, laid: LaidPiece): Markup {
  const { piece, name, count, holding, doneBy } = laid;
  const order = `${holding?.cutOrder ?? doneBy ?? '–'}`;
  const which = count === '1/1' ? '' : ` ${count}`;
  return markup`<li class="hf-row" data-piece="${piece.index}">
<label class="hf-tick"><input type="checkbox" data-tick="p${piece.index}" data-weight="1"><span class="hf-unseen">${name} ${count} is cut</span></label>
<button type="button" class="hf-open"><span class="hf-order">${order}</span> <span class="hf-what">${name}${which}</span> <span class="hf-size">${sizeText(laid, view.job.unit)}</span>${doText(view, holding)}</button>
</li>
`;
}

/** Waste is not ticked: it comes free with what is cut around it. */
function wasteRow(view: SheetView, { holding, name }: LaidWaste): Markup {
  return markup`<li class="hf-row hf-loose"><span class="hf-tick"></span><span class="hf-open"><span class="hf-order">${holding.cutOrder}</span> <span class="hf-what">${name}</span> <span class="hf-size">loose waste</span>${doText(view, holding)}</span></li>
`;
}

/** The remedy with its letter, as on the drawing, and whether it may move even so; nothing where nothing is needed. */
function doText({ job }: SheetView, holding: Holding | null): Markup {
  if (holding === null) return NOTHING;
  const { action } = holding;
  const alert = alertOf(holding);
  if (action === 'none' && alert === null) return NOTHING;
  const text = doneText(job.unit, holding);
  const moves = alert === 'stop' ? 'moves' : 'may still move';
  if (action === 'none')
    return markup` <span class="hf-do">${sign(`alert-${alert}`, '!')} ${moves}: ${text}</span>`;
  const done = job.unit === 'mm' && /\d/.test(text) ? `${text} mm` : text;
  const warning =
    alert === null
      ? NOTHING
      : markup` ${sign(`alert-${alert}`, '!')} ${moves}${alert === 'test' ? ': test first' : ''}`;
  return markup` <span class="hf-do">${sign(action, SIGNS[action].letter)} ${done}${warning}</span>`;
}

function sign(kind: string, letter: string): Markup {
  return markup`<b class="hf-sign hf-${kind}" aria-hidden="true">${letter}</b>`;
}

function sheetFacts({ job, material, stock, pieces, costs }: SheetView): string {
  const { unit } = job;
  return [
    `${plainText(material.name)}${stock.rack === null ? '' : `, offcut ${stock.rack}`}`,
    formatSize(stock.length, stock.width, unit),
    counted(pieces.length, 'piece'),
    ...(costs === null
      ? []
      : [`yield ${formatShare(costs.yieldShare)}`, formatWeight(costs.weightKg, unit)]),
  ].join(' · ');
}

function sheetSentences(plan: Plan, view: SheetView): readonly string[] {
  const { job, costs, number, sawing } = view;
  const held = plan.holding.find(({ sheet }) => sheet === number);
  const offcuts = (costs?.offcuts ?? []).map((offcut) => {
    const raw = rawSize(job, offcut);
    return `${offcutSize(job, offcut)}${raw === null ? '' : ` (${raw} with its raw edges)`}`;
  });
  const sentences =
    held === undefined ? [] : [vacuumSentence(held, job.unit), orderSentence(held, job.unit)];
  return [
    ...(sawing !== null && sawing.steps.length === 0
      ? [`${groupTitle(sawing)}: nothing to cut.`]
      : []),
    ...sheetNotes(view),
    ...(offcuts.length === 0 ? [] : [`Keep: ${offcuts.join(', ')}`]),
    ...sentences.filter((sentence) => sentence !== null),
  ];
}
