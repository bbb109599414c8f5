import { stockTitle } from '../model/format.ts';
import type { Job } from '../model/job.ts';
import type { Layout } from '../model/layout.ts';
import type { Fault } from './fault.ts';

/** Every sheet is one that the material has, carries something, and no more are used than there are on hand. */
export function checkStock(job: Job, layout: Layout): Fault[] {
  const stocks = job.materials[layout.material]?.sheets ?? [];
  const faults: Fault[] = [];
  const taken = stocks.map(() => 0);
  layout.sheets.forEach((sheet, index) => {
    const stock = stocks[sheet.stock];
    if (!stock) {
      const message = `sheet ${index + 1} is of stock ${sheet.stock}, which the material has not`;
      faults.push(fault('unknown-stock', index, message));
      return;
    }
    const count = (taken[sheet.stock] ?? 0) + 1;
    taken[sheet.stock] = count;
    if (stock.onHand !== null && count > stock.onHand) {
      const message = `sheet ${index + 1} is number ${count} of ${stockTitle(stock.name, job.unit)}; ${stock.onHand} on hand`;
      faults.push(fault('over-stock', index, message));
    }
    if (sheet.placements.length === 0)
      faults.push(fault('empty-sheet', index, `sheet ${index + 1} carries no piece`));
  });
  return faults;
}

function fault(code: Fault['code'], sheet: number, message: string): Fault {
  return { code, sheet, piece: null, other: null, message };
}
