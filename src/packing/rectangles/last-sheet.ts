// Packs the emptiest sheet to one end, so that what is left over is one useful piece.
// Idea: first boxes are moved from that sheet to the others, by trying to do without it altogether; whenever fewer boxes than ever wait in the pool and they
//   fit one sheet, that is a better arrangement. Then the sheet is made shorter by the smallest length below its extent, and packed anew by many orders, its own with a few boxes moved among them,
//   again and again, once along its length and once along its width.
// Source: shrinking a sheet to improve a packing goes back to strip packing, e.g. Burke, Kendall & Whitwell 2009, INFORMS Journal on Computing 21.
// Cost: all the work it is given, half of it to empty the sheet. Meant for the end of a search.
// Degenerate cases: one sheet: nothing to empty, only to shorten; an empty arrangement stays as it is; a pool that empties saves the sheet.
import { kindOf } from './code.ts';
import { emptierWatch } from './emptier.ts';
import { type Engine, pick } from './engine.ts';
import { layAll, layAllByChance } from './lay-all.ts';
import { moveTo } from './moves.ts';
import { type Arrangement, copyArrangement, copySheet, type Sheet, stockAt } from './sheet.ts';

/** Tries to pack a shorter sheet before it counts as the shortest. */
const TRIES = 1000;
/** How often a try sorts all boxes anew. */
const NEW_ORDER_SHARE = 0.7;
/** Most boxes of an order that a try moves elsewhere in it. */
const MOST_MOVED = 3;

export function freeLastSheet(
  engine: Engine,
  start: Arrangement,
  work: number,
  found: (arrangement: Arrangement) => void,
): void {
  if (start.sheets.length === 0 || start.pool.length > 0) return;
  const emptier = start.sheets.length > 1 ? emptyOne(engine, start, work / 2, found) : start;
  shorten(engine, emptier, 'width', work / 4, found);
  shorten(engine, emptier, 'height', work / 4, found);
}

/** Moves boxes from the emptiest sheet to the others, or all of them: then the sheet is gone. Every step is told, because an emptier sheet need not have the larger rectangle left. */
function emptyOne(
  engine: Engine,
  start: Arrangement,
  work: number,
  found: (arrangement: Arrangement) => void,
): Arrangement {
  const last = emptiest(engine, start.sheets);
  const sheet = start.sheets[last]!;
  let best = start;
  const tried = copyArrangement(start);
  tried.sheets.splice(last, 1);
  tried.pool = [...sheet.codes.subarray(0, sheet.count)];
  const keepIfEmptier = emptierWatch(engine, sheet, (arrangement) => {
    best = arrangement;
    found(best);
  });
  if (!engine.fit(engine, tried, work, keepIfEmptier)) return best;
  found(tried);
  return tried;
}

/** The sheet with most room left. */
function emptiest({ stocks }: Engine, sheets: readonly Sheet[]): number {
  const room = (sheet: Sheet) => stockAt(stocks, sheet.stock).freeArea - sheet.area;
  return sheets.reduce((most, sheet, i) => (room(sheet) > room(sheets[most]!) ? i : most), 0);
}

/** Packs the emptiest sheet anew on ever less of one of its sides. */
function shorten(
  engine: Engine,
  { sheets }: Arrangement,
  side: 'width' | 'height',
  work: number,
  found: (arrangement: Arrangement) => void,
): void {
  const { budget } = engine;
  const stopAt = Math.max(0, budget.left - work);
  const last = emptiest(engine, sheets);
  const sheet = copySheet(sheets[last]!);
  const order = sheet.codes.slice(0, sheet.count);
  let within = extentOf(engine, sheet, side);
  for (let failures = 0; failures < TRIES && budget.left > stopAt && !budget.exhausted; ) {
    const width = side === 'width' ? within - 1 : sheet.width;
    const height = side === 'height' ? within - 1 : sheet.height;
    if (packAgain(engine, sheet, order, width, height)) {
      within = extentOf(engine, sheet, side);
      failures = 0;
    } else failures++;
    engine.settle();
  }
  found({ sheets: sheets.map((other, i) => (i === last ? sheet : other)), pool: [] });
}

/** Lays the boxes of a sheet on its lower-left part: in its own order with a few boxes moved, or in a new one; false where not all find room. */
function packAgain(
  engine: Engine,
  sheet: Sheet,
  order: Int32Array,
  width: number,
  height: number,
): boolean {
  const { random, task } = engine;
  const anew = random() < NEW_ORDER_SHARE;
  for (let i = 0; i < order.length; i++) {
    const code = sheet.codes[i]!;
    order[i] = anew || random() < 0.5 ? task.freeCode[kindOf(code)]! : code;
  }
  if (anew) return layAllByChance(engine, sheet, order, width, height);
  for (let moves = 1 + pick(random, MOST_MOVED); moves > 0; moves--)
    moveTo(order, pick(random, order.length), pick(random, order.length));
  return layAll(engine, sheet, order, { width, height, rule: sheet.rule });
}

function extentOf({ decoder, stocks }: Engine, sheet: Sheet, side: 'width' | 'height'): number {
  const stock = stockAt(stocks, sheet.stock);
  decoder.layAgain(stock, sheet);
  const { placed, placedX, placedY, placedCount } = decoder.result;
  let extent = 0;
  for (let k = 0; k < placedCount; k++) {
    const box = 2 * kindOf(placed[k]!) + (placed[k]! & 3);
    const end =
      side === 'width' ? placedX[k]! + stock.boxWidth[box]! : placedY[k]! + stock.boxHeight[box]!;
    if (end > extent) extent = end;
  }
  return extent;
}
