import type { Objective } from '../model/layout.ts';
import { type Material, type SheetStock, soldBy } from '../model/stock.ts';
import type { PackingTask } from './task.ts';

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

/** How a stock counts towards the objective: what one sheet does, and how many are counted together. */
export interface Price {
  readonly cost: number;
  /** Always 1 where sheets are counted, as packs change nothing of the fewest sheets. */
  readonly pack: number;
}

export function priceOf(objective: Objective, stock: SheetStock): Price {
  return { cost: countOf(objective, stock), pack: objective === 'cost' ? soldBy(stock) : 1 };
}

/** Of each stock of the task. */
export function pricesOf({ objective, stocks }: PackingTask): readonly Price[] {
  return stocks.map((stock) => priceOf(objective, stock));
}

/** What sheets count towards the objective, of each stock in whole packs. */
export function costOf(
  prices: readonly Price[],
  sheets: readonly { readonly stock: number }[],
): number {
  const taken = new Array<number>(prices.length).fill(0);
  for (const { stock } of sheets) taken[stock]!++;
  return prices.reduce(
    (sum, { cost, pack }, stock) => sum + cost * pack * Math.ceil(taken[stock]! / pack),
    0,
  );
}

/** Whether some stock counts in packs, so that what a sheet costs depends on how many there are. */
export function hasPacks(prices: readonly Price[]): boolean {
  return prices.some(({ pack }) => pack > 1);
}
