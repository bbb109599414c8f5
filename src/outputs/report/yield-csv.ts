import { stockTitle } from '../../model/format.ts';
import { numberedBoards, numberedSheets, type Plan } from '../../model/plan.ts';
import { YIELD_USES, type Yield } from '../../model/yield.ts';
import { csvText } from '../csv.ts';

type Cell = string | number | null;

/** Names and order of the columns are a contract: columns may be added at the end. Per cents of a row add up to 100.0. */
const HEADS = [
  'of',
  'number',
  'material',
  'stock',
  'measure',
  'bought',
  ...YIELD_USES,
  ...YIELD_USES.map((use) => `${use} %`),
  'yield on purchase %',
  'yield on used %',
] as const;

/** Where everything that is bought goes, a row for each sheet and board, each material, and the job; areas in mm2, lengths in mm. */
export function yieldCsv(plan: Plan): string {
  const { job, layouts, costs } = plan;
  const { yields } = costs;
  const sheets = numberedSheets(layouts).map(({ number, material, sheet }) => {
    const { id, sheets: stocks } = job.materials[material]!;
    const lead = ['sheet', number, id, stockTitle(stocks[sheet.stock]!.name, job.unit), 'mm2'];
    return row(lead, yields.sheets[number - 1]!);
  });
  const boards = numberedBoards(layouts).map(({ number, material, board }) => {
    const { id, boards: stocks } = job.materials[material]!;
    const lead = ['board', number, id, stockTitle(stocks[board.stock]!.name, job.unit), 'mm'];
    return row(lead, yields.boards[number - 1]!);
  });
  const sums = [
    ...job.materials.map(({ id, index }) => ({
      of: 'material',
      id,
      pair: yields.materials[index]!,
    })),
    { of: 'job', id: null, pair: yields.job },
  ].flatMap(({ of, id, pair }) => [
    ...(pair.sheets === null ? [] : [row([`${of} sheets`, null, id, null, 'mm2'], pair.sheets)]),
    ...(pair.boards === null ? [] : [row([`${of} boards`, null, id, null, 'mm'], pair.boards)]),
  ]);
  return csvText([HEADS, ...sheets, ...boards, ...sums]);
}

function row(
  lead: readonly Cell[],
  { bought, amounts, tenths, onPurchase, onUsed }: Yield,
): Cell[] {
  return [
    ...lead,
    hundredths(bought),
    ...YIELD_USES.map((use) => hundredths(amounts[use])),
    ...YIELD_USES.map((use) => tenths[use] / 10),
    Math.round(onPurchase * 1000) / 10,
    Math.round(onUsed * 1000) / 10,
  ];
}

function hundredths(amount: number): number {
  return Math.round(amount * 100) / 100;
}
