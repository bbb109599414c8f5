import type { Objective } from '../model/layout.ts';
import type { Material, SheetStock } from '../model/stock.ts';

/** Whether money is what counts: there is a choice between stocks, and every one has a price. An offcut that costs nothing is no choice of what to buy. */
export function isPriced({ sheets, boards }: Material): boolean {
  const offered = sheets.filter(({ rack, priceCents }) => rack === null || priceCents !== 0);
  const stocks = [...offered, ...boards];
  return stocks.length >= 2 && stocks.every(({ priceCents }) => priceCents !== null);
}

/** What one sheet of a stock counts towards the objective: its price, or a sheet that is bought; an offcut from the rack is bought no more. */
export function countOf(objective: Objective, { priceCents, rack }: SheetStock): number {
  if (objective === 'cost') return priceCents ?? 0;
  return rack === null ? 1 : 0;
}
