// Reckons where everything that is bought goes: of each sheet and board, of each material, and of the job.
// Idea: each sheet and board is a list of amounts that add up to it; lists are added, and their shares rounded so that they make 100.0 % as printed.
//   Two yields are told, since both are meant by the word: pieces over what was bought, and pieces over what is used up, the offcuts kept taken off.
// Source: sums; the rounding in `yield-rounding.ts`.
// Cost: linear in sheets, boards and defects.
// Degenerate cases: without sheets or boards there is none of theirs; where everything bought is kept, the yield on what is used up is 0.
import type { BoardCosts, SheetCosts } from '../model/costs.ts';
import type { Layout } from '../model/layout.ts';
import { numberedBoards, numberedSheets } from '../model/plan.ts';
import type { BoardStock, Material } from '../model/stock.ts';
import { toMm } from '../model/units.ts';
import {
  YIELD_USES,
  type Yield,
  type YieldAmounts,
  type YieldPair,
  type Yields,
} from '../model/yield.ts';
import { roundedShares } from './yield-rounding.ts';

/** Tenths of a per cent in all of it. */
const WHOLE = 1000;

export function yieldsOf(
  materials: readonly Material[],
  layouts: readonly Layout[],
  costs: { readonly sheets: readonly SheetCosts[]; readonly boards: readonly BoardCosts[] },
): Yields {
  const sheets = numberedSheets(layouts).map(({ number, material }) => ({
    material,
    amounts: sheetAmounts(costs.sheets[number - 1]!),
  }));
  const boards = numberedBoards(layouts).map(({ number, material, board }) => ({
    material,
    amounts: boardAmounts(materials[material]!.boards[board.stock]!, costs.boards[number - 1]!),
  }));
  const pairOf = (isIn: (each: { readonly material: number }) => boolean): YieldPair => ({
    sheets: yieldOfAll(sheets.filter(isIn)),
    boards: yieldOfAll(boards.filter(isIn)),
  });
  return {
    sheets: sheets.map(({ amounts }) => yieldOf(amounts)),
    boards: boards.map(({ amounts }) => yieldOf(amounts)),
    materials: materials.map(({ index }) => pairOf(({ material }) => material === index)),
    job: pairOf(() => true),
  };
}

function sheetAmounts(sheet: SheetCosts): YieldAmounts {
  return {
    pieces: sheet.pieceAreaMm2,
    offcuts: sheet.offcutAreaMm2,
    kerf: sheet.kerfAreaMm2,
    trim: sheet.trimAreaMm2,
    keepOuts: sheet.keepOutAreaMm2,
    skeleton: sheet.skeletonAreaMm2,
    loose: sheet.looseAreaMm2,
  };
}

/** Neither pieces nor leftovers, trim nor defects: that is kerf. */
function boardAmounts(
  stock: BoardStock,
  { length, pieceLength, leftovers }: BoardCosts,
): YieldAmounts {
  const left = (isKept: boolean) =>
    leftovers
      .filter((leftover) => leftover.isKept === isKept)
      .reduce((sum, { from, to }) => sum + to - from, 0);
  const [kept, loose, trim] = [left(true), left(false), 2 * stock.endTrim];
  const defects = defectLength(stock);
  return {
    pieces: toMm(pieceLength),
    offcuts: toMm(kept),
    kerf: toMm(Math.max(0, length - pieceLength - kept - loose - trim - defects)),
    trim: toMm(trim),
    keepOuts: toMm(defects),
    skeleton: 0,
    loose: toMm(loose),
  };
}

/** Between the trimmed ends; where defects overlap they count once. */
function defectLength({ length, endTrim, defects }: BoardStock): number {
  let sum = 0;
  let done = endTrim;
  for (const { from, to } of defects.toSorted((a, b) => a.from - b.from)) {
    const start = Math.max(from, done);
    const end = Math.min(to, length - endTrim);
    if (start < end) {
      sum += end - start;
      done = end;
    }
  }
  return sum;
}

function yieldOfAll(all: readonly { readonly amounts: YieldAmounts }[]): Yield | null {
  if (all.length === 0) return null;
  return yieldOf(byUse((use) => all.reduce((sum, { amounts }) => sum + amounts[use], 0)));
}

function yieldOf(amounts: YieldAmounts): Yield {
  const list = YIELD_USES.map((use) => Math.max(0, amounts[use]));
  const bought = list.reduce((sum, amount) => sum + amount, 0);
  const tenths = roundedShares(list, WHOLE);
  const used = bought - amounts.offcuts;
  return {
    bought,
    amounts,
    tenths: byUse((use) => tenths[YIELD_USES.indexOf(use)]!),
    onPurchase: bought === 0 ? 0 : amounts.pieces / bought,
    onUsed: used <= 0 ? 0 : amounts.pieces / used,
  };
}

function byUse(amount: (use: keyof YieldAmounts) => number): YieldAmounts {
  return Object.fromEntries(YIELD_USES.map((use) => [use, amount(use)])) as YieldAmounts;
}
