import type { Costs } from '../model/costs.ts';
import {
  counted,
  formatMoney,
  formatRun,
  formatShare,
  stockTitle,
  UNHELD_WORDS,
} from '../model/format.ts';
import type { Advice, SheetHolding } from '../model/holding.ts';
import type { FileUnit, Job } from '../model/job.ts';
import { isEmptyLayout, type Layout, unplacedCount } from '../model/layout.ts';
import { numberedSheets, type Plan, type StopCause } from '../model/plan.ts';
import { formatVacuum } from '../model/readings.ts';
import type { BoardStock } from '../model/stock.ts';
import { hasRack, rackTaken } from './rack-taken.ts';
import { BOARD_SAW_CAUTIONS, SAW_CAUTIONS } from './saw-wording.ts';

/** How many sheets or how much money a material takes, and whether less is possible: said only as far as it is proved. */
export function proofSentence(plan: Plan, layout: Layout): string {
  const racked = hasRack(plan, layout);
  const [one, many] = stockWords([layout]).map((word) => (racked ? `new ${word}` : word));
  const amount = (number: number) =>
    layout.objective === 'cost'
      ? formatMoney(number, plan.job.currency)
      : `${number} ${number === 1 ? one : many}`;
  // Bounds know nothing of how the pieces are parted, so they hold at a saw as well.
  const isSawn = plan.job.machine.kind !== 'router' && layout.sheets.length > 0;
  const used = usedText(plan, layout, amount(layout.used));
  switch (layout.status) {
    case 'impossible':
      return `too little stock: ${counted(unplacedCount(layout), 'piece')} left over, ${used} used`;
    case 'proved':
      return layout.objective === 'cost'
        ? `${used}; no choice of ${many}${isSawn ? ', sawn or routed,' : ''} costs less (proved)`
        : `${used}; no layout${isSawn ? `, sawn or routed, ${racked ? 'buys' : 'uses'}` : racked ? ' can do with' : ' can use'} fewer (proved)`;
    case 'limit':
      return `${used}; at least ${amount(layout.bound.atLeast)} by proof${isSawn ? ', however it is cut' : ''}, so less may be possible; ${more(plan)}`;
  }
}

/** What packs bring beyond need; null where nothing is sold in packs, or they come out even. */
export function packSentence({ job, costs }: Plan): string | null {
  const spare = costs.surplus.map(({ material, stock, count, priceCents }) => {
    const { name, sheets } = job.materials[material]!;
    const price = priceCents === null ? '' : ` (${formatMoney(priceCents, job.currency)})`;
    return `${counted(count, 'sheet')} of ${name}, ${stockTitle(sheets[stock]!.name, job.unit)}${price}`;
  });
  return spare.length === 0
    ? null
    : `Bought and not cut, as packs are not sold in part: ${spare.join('; ')}.`;
}

/** What is bought, and what comes off the rack besides. */
function usedText(plan: Plan, layout: Layout, amount: string): string {
  const ids = rackTaken(plan, layout);
  const taken = stockTaken([layout]);
  if (layout.objective === 'cost')
    return `${taken}${ids.length === 0 ? '' : ` (off the rack ${ids.join(', ')})`}, ${amount}`;
  return `${amount}${ids.length === 0 ? '' : ` and ${counted(ids.length, 'offcut')} (${ids.join(', ')})`}`;
}

/** What a material, or all of them, is taken from: "sheets", "boards", "sheets and boards". */
export function stockNoun(layouts: readonly Layout[]): string {
  const hasBoards = layouts.some(
    ({ boards, unplacedLengths }) => boards.length + unplacedLengths.length > 0,
  );
  const hasSheets = layouts.some(({ sheets, unplaced }) => sheets.length + unplaced.length > 0);
  if (!hasBoards) return 'sheets';
  return hasSheets ? 'sheets and boards' : 'boards';
}

/** All that is bought: as `stockNoun`, with the lumber. */
export function boughtNoun({ job, layouts }: Plan): string {
  if (job.lumber.length === 0) return stockNoun(layouts);
  if (layouts.every(isEmptyLayout)) return 'lumber';
  return `${stockNoun(layouts).replace(' and ', ', ')} and lumber`;
}

/** Why a price is not known, before "none" or "no price". */
export function priceless(plan: Plan): string {
  return boughtNoun(plan) === 'sheets' ? 'a sheet has' : 'some of the stock has';
}

/** How to come by true lengths from the cutting list of boards. */
export function stopRule(patterns: readonly { readonly stock: BoardStock }[]): string {
  const isTrimmed = patterns.every(({ stock }) => stock.endTrim > 0);
  const first = isTrimmed
    ? 'Cut the end square first, then set the stop'
    : 'Cut the end square first where the list has a trim for it; without one the end counts as square, and squaring it would make the last piece of a full board short. Set the stop';
  return `${first} to the length of the piece itself, each piece by the stop: never measure along the board from piece to piece, which adds up errors and kerfs.`;
}

/** One of it, and several: "sheet" and "sheets", "sheet or board" and "sheets and boards". */
export function stockWords(layouts: readonly Layout[]): readonly [string, string] {
  const many = stockNoun(layouts);
  return [many.replaceAll(/s\b/g, '').replace(' and ', ' or '), many];
}

/** "3 sheets", "4 boards", "3 sheets and 4 boards". */
export function stockTaken(layouts: readonly Layout[]): string {
  const count = (of: (layout: Layout) => number) =>
    layouts.reduce((total, layout) => total + of(layout), 0);
  const sheets = counted(
    count((layout) => layout.sheets.length),
    'sheet',
  );
  const boards = counted(
    count((layout) => layout.boards.length),
    'board',
  );
  const noun = stockNoun(layouts);
  if (noun === 'sheets') return sheets;
  return noun === 'boards' ? boards : `${sheets} and ${boards}`;
}

/** How much of what is bought ends up in pieces: by area of sheets, by length of boards; null where there is only lumber. */
export function yieldText(plan: Plan): string | null {
  const { costs, layouts } = plan;
  if (boughtNoun(plan) === 'lumber') return null;
  const { yieldShare, boardYieldShare } = costs;
  if (boardYieldShare === null) return formatShare(yieldShare);
  const ofBoards = `${formatShare(boardYieldShare)} of the boards' length`;
  const hasSheets = layouts.some(({ sheets }) => sheets.length > 0);
  return hasSheets ? `${formatShare(yieldShare)} of the sheets and ${ofBoards}` : ofBoards;
}

/** What the file left out and the plan rests on; of boards that is the width of the cut only. */
export function assumptions({ machine, table, pieces, lengthParts }: Job): readonly string[] {
  if (pieces.length > 0)
    return machine.kind === 'router' ? [...machine.assumed, ...table.assumed] : machine.assumed;
  if (lengthParts.length === 0) return [];
  return machine.assumed.filter((text) => /^kerf /.test(text));
}

const STOPS: Readonly<Record<StopCause, { readonly short: string; readonly long: string }>> = {
  time: {
    short: 'the search was stopped by time',
    long: 'The search was stopped by time; another run may end elsewhere.',
  },
  interrupt: {
    short: 'the search was stopped by hand',
    long: 'The search was stopped by hand; this is the best layout it had found by then.',
  },
};

/** That the search did not come to its own end; null where it did. */
export function stopSentence({ stopped }: Plan): string | null {
  return stopped === null ? null : STOPS[stopped].long;
}

/** How long the cutter runs, and what tabs and clamps take besides; null where no feed is known. */
export function timeText({ cutTimeS, handTimeS }: Costs): string | null {
  if (cutTimeS === null) return null;
  const atFeed = `about ${minutesOf(cutTimeS)} min at the feed`;
  const byHand = `tabs and clamps about ${minutesOf(handTimeS)} min by hand`;
  return handTimeS === 0 ? atFeed : `${atFeed}, ${byHand}`;
}

function minutesOf(seconds: number): number {
  return Math.max(1, Math.round(seconds / 60));
}

/** What a person does about a piece or a bit of waste. */
export function adviceSentence(advice: Advice): string {
  switch (advice) {
    case 'none':
      return 'Nothing needed: the vacuum holds it.';
    case 'earlier':
      return 'Cut it earlier, while less of the sheet is open and the vacuum is higher.';
    case 'skin':
      return 'Leave a thin skin over the whole cut and take it off in a light pass after all other cuts; this needs a flat spoilboard and a measured sheet.';
    case 'tabs':
      return 'Leave tabs where they are marked, and cut them by hand after the run.';
    case 'clamp':
      return 'Clamp or screw it down, clear of the cutter, before its last cut.';
    case 'leave':
      return 'Do not cut it free in this run: leave it in a larger piece and cut that up afterwards, or hold it another way.';
    case 'try':
      return 'Try it in waste first; else leave it in a larger piece and cut that up afterwards.';
    case 'pocket':
      return 'Clear it to dust as a pocket, or plan again with more spacing.';
  }
}

/** The same in a word or three, as tables have it. */
export const ADVICE_WORDS: Readonly<Record<Advice, string>> = {
  none: 'none',
  earlier: 'earlier',
  skin: 'skin',
  tabs: 'tabs',
  clamp: 'clamp',
  ...UNHELD_WORDS,
};

/** What the cutting order of a sheet is worth against that of the parts file; null where there is nothing to order. */
export function orderSentence(
  { loose, order, fileOrder }: SheetHolding,
  unit: FileUnit,
): string | null {
  const pieces = loose.filter(({ kind }) => kind === 'piece');
  if (pieces.length < 2 || order.leastMargin === null || fileOrder.leastMargin === null)
    return null;
  const [least, listed] = [order.leastMargin.toFixed(2), fileOrder.leastMargin.toFixed(2)];
  const margin =
    least === listed
      ? `the smallest margin is ${least} in both`
      : `the smallest margin is ${least} against ${listed}`;
  return `In this order the cutter goes ${formatRun(order.travelMm, unit)} straight from centre to centre of the pieces, in the order of the parts file ${formatRun(fileOrder.travelMm, unit)}, and ${margin}.`;
}

/** Where to look for a setting with which pieces stay that no remedy is sure to hold; null where there are none. */
export function explainSentence({ holding }: Plan): string | null {
  const isUnsure = holding.some(({ loose }) =>
    loose.some(({ kind, verdictAfter }) => kind === 'piece' && verdictAfter !== 'stays'),
  );
  return isUnsure
    ? 'For a piece that does not surely stay, holdfast explain with the file and its part says what another setting would do.'
    : null;
}

/** How the vacuum falls while a sheet is cut; null where nothing is. */
export function vacuumSentence(
  { vacuumStartKpa, vacuumAlongKpa, lostAfter }: SheetHolding,
  unit: FileUnit,
): string | null {
  const last = vacuumAlongKpa.at(-1);
  if (last === undefined) return null;
  const falls = `The vacuum falls from ${formatVacuum(vacuumStartKpa, unit)} before the first cut to ${formatVacuum(last, unit)} after the last`;
  if (lostAfter === null) return `${falls}.`;
  return `${falls}; ${lostAfter === 0 ? 'the table holds nothing from the start' : `after cut ${lostAfter} the table no longer holds`}.`;
}

/** That the vacuum breaks down, a sentence for each sheet on which it does. */
export function lostSentences({ holding, job, layouts }: Plan): readonly string[] {
  const { seal } = job.table;
  const usual =
    seal?.kind === 'gasket' && seal.around === 'sheet'
      ? 'Each cut opens the grooves inside the cord: lay a cord round each piece, or take a pump that moves more air.'
      : 'Let in less air beside the sheet and through open cuts, or take a pump that moves more.';
  const sheets = numberedSheets(layouts);
  return holding.flatMap(({ sheet, lostAfter, vacuumStartKpa, vacuumAlongKpa }) => {
    if (lostAfter === null) return [];
    const { material, sheet: laid } = sheets[sheet - 1]!;
    const isLifted = job.materials[material]!.sheets[laid.stock]!.lifted.length > 0;
    const cure = isLifted
      ? `Press the edges down that stand up, or screw them down. ${usual}`
      : usual;
    const start = formatVacuum(vacuumStartKpa, job.unit);
    if (lostAfter === 0) return [`Sheet ${sheet}: there is no vacuum, ${start}. ${cure}`];
    const left = formatVacuum(vacuumAlongKpa[lostAfter - 1]!, job.unit);
    return [
      `Sheet ${sheet}: the vacuum breaks down, from ${start} to ${left} after cut ${lostAfter}; from there on the table holds next to nothing: stop there. ${cure}`,
    ];
  });
}

/** What an output says of safety: without pieces from sheets nothing of vacuum and large sheets. */
export function cautionsOf({ pieces, lengthParts, machine }: Job): readonly string[] {
  if (pieces.length > 0) return machine.kind === 'router' ? CAUTIONS : SAW_CAUTIONS;
  if (machine.kind !== 'router' && lengthParts.length > 0) return BOARD_SAW_CAUTIONS;
  return [CAUTIONS[4]!, CAUTIONS[6]!];
}

/** What every output that speaks of holding says; the first is the shortest that may stand alone. */
export const CAUTIONS: readonly string[] = [
  'The holding figures are an estimate, about 40 % either way on the cutting force: no guarantee, and no substitute for a test cut.',
  'Make a test cut in waste of the same sheet before the run.',
  'Check the vacuum gauge before the start, and stop the machine if it falls below 80 % of the planned level.',
  'Never reach in while the machine runs. A part that comes loose can jam or be thrown, and small parts near other cuts can be struck by it.',
  'Wear eye and hearing protection, keep the dust extraction on, and treat wood and board dust as harmful to breathe.',
  'Sheets are heavy: lift large ones with two people or a lifter.',
  'Local rules, the makers’ instructions for machine and cutter, and trained people come before anything written here.',
];

function more({ stopped, options }: Plan): string {
  if (stopped !== null) return STOPS[stopped].short;
  return options.effort === 'long' ? 'the search ended unproved' : 'more effort may help';
}

/** How many pieces need no remedy: "3 of 4 pieces stay put by the reckoning and need nothing." */
export function calmSentence(calm: number, all: number, how: string): string {
  const said = calm === 1 ? `stays put${how} and needs` : `stay put${how} and need`;
  return `${calm} of ${counted(all, 'piece')} ${said} nothing.`;
}
