import type { Material } from '../model/stock.ts';

/** Whether money is what counts: there is a choice between stocks, and every one has a price. */
export function isPriced({ sheets, boards }: Material): boolean {
  const stocks = [...sheets, ...boards];
  return stocks.length >= 2 && stocks.every(({ priceCents }) => priceCents !== null);
}
