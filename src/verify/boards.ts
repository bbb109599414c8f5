import { stockTitle } from '../model/format.ts';
import type { Job } from '../model/job.ts';
import type { BoardLayout, Layout } from '../model/layout.ts';
import { boardKerf } from '../model/machine.ts';
import type { BoardStock } from '../model/stock.ts';
import type { Fault, FaultCode } from './fault.ts';

/** Every board is one that the material has, carries something, and no more are used than there are on hand; its pieces lie as a saw can cut them. */
export function checkBoards(job: Job, layout: Layout): Fault[] {
  const stocks = job.materials[layout.material]?.boards ?? [];
  const taken = stocks.map(() => 0);
  return layout.boards.flatMap((board, index) => {
    const name = `board ${index + 1}`;
    const stock = stocks[board.stock];
    if (!stock)
      return [fault('unknown-stock', `${name} is of stock ${board.stock}, which there is not`)];
    const count = (taken[board.stock] ?? 0) + 1;
    taken[board.stock] = count;
    const faults = checkPlaces(job, stock, board, name);
    if (board.pieces.length === 0) faults.push(fault('empty-board', `${name} carries no piece`));
    if (stock.onHand !== null && count > stock.onHand)
      faults.push(
        fault(
          'over-stock',
          `${name} is number ${count} of ${stockTitle(stock.name, job.unit)}; ${stock.onHand} on hand`,
        ),
      );
    return faults;
  });
}

/** From left to right: inside the trimmed ends, clear of every defect, and a kerf apart. Touching is legal. */
function checkPlaces(job: Job, stock: BoardStock, board: BoardLayout, name: string): Fault[] {
  const kerf = boardKerf(job.machine);
  const faults: Fault[] = [];
  let before: number | null = null;
  for (const { part, number, at } of board.pieces) {
    const own = job.lengthParts[part];
    if (!own) continue;
    const piece = `${own.name} ${number}`;
    if (!Number.isSafeInteger(at)) {
      faults.push(fault('not-whole', `${piece} lies at ${at}, which is not whole`));
      continue;
    }
    const end = at + own.length;
    if (at < stock.endTrim || end > stock.length - stock.endTrim)
      faults.push(fault('outside', `${piece} reaches over the trimmed end of ${name}`));
    for (const { from, to, why } of stock.defects) {
      if (at < to && from < end)
        faults.push(fault('defect', `${piece} has some of a defect (${why}) of ${name}`));
    }
    if (before !== null && at < before)
      faults.push(fault('overlap', `${piece} overlaps the piece before it on ${name}`));
    else if (before !== null && at < before + kerf)
      faults.push(
        fault('kerf', `${piece} is less than a kerf from the piece before it on ${name}`),
      );
    before = end;
  }
  return faults;
}

function fault(code: FaultCode, message: string): Fault {
  return { code, sheet: null, piece: null, other: null, message };
}
