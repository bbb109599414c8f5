import type { Job } from '../model/job.ts';
import type { Layout } from '../model/layout.ts';
import { soldBy } from '../model/stock.ts';
import type { Fault, FaultCode } from './fault.ts';

/** What the layout says about itself agrees with its sheets: what it uses, that no bound is above that, and how the search ended. */
export function checkClaims(job: Job, layout: Layout): Fault[] {
  const { used, bound, status } = layout;
  const unplaced = leftOut(layout);
  const faults: Fault[] = [];
  const counted = countUsed(job, layout);
  if (used !== counted)
    faults.push(fault('used', `the layout says that it uses ${used}; it uses ${counted}`));
  const complete = unplaced === 0;
  // A layout that leaves pieces out may well use less than all pieces together need.
  if (
    !Number.isSafeInteger(bound.atLeast) ||
    bound.atLeast < 0 ||
    (complete && bound.atLeast > used)
  )
    faults.push(
      fault('bound', `a bound of ${bound.atLeast} contradicts a layout that uses ${used}`),
    );
  const reached = complete && used === bound.atLeast;
  if ((status === 'proved') !== reached || (status === 'impossible' && complete))
    faults.push(
      fault(
        'status',
        `'${status}' with ${used} used, a bound of ${bound.atLeast} and ${unplaced} unplaced`,
      ),
    );
  return faults;
}

/** Pieces, of sheets and of boards, that the layout says it does without. */
function leftOut({ unplaced, unplacedLengths }: Layout): number {
  return unplacedLengths.reduce((sum, { count }) => sum + count, unplaced.length);
}

/** Sheets and boards that are bought, or the sum of their prices, sheets in whole packs; not a number where one without a price is to be priced. */
function countUsed(job: Job, { material, objective, sheets, boards }: Layout): number {
  const own = job.materials[material];
  const bought = sheets.filter(({ stock }) => (own?.sheets[stock]?.rack ?? null) === null);
  if (objective === 'sheets') return bought.length + boards.length;
  const sheetPrices = [...new Set(sheets.map(({ stock }) => stock))].map((index) => {
    const stock = own?.sheets[index];
    if (stock === undefined || stock.priceCents === null) return Number.NaN;
    const taken = sheets.filter((sheet) => sheet.stock === index).length;
    return Math.ceil(taken / soldBy(stock)) * soldBy(stock) * stock.priceCents;
  });
  const boardPrices = boards.map(({ stock }) => own?.boards[stock]?.priceCents ?? Number.NaN);
  return [...sheetPrices, ...boardPrices].reduce((all, price) => all + price, 0);
}

function fault(code: FaultCode, message: string): Fault {
  return { code, sheet: null, piece: null, other: null, message };
}
