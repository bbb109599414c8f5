import type { BoardLayout, BoardPiece } from '../model/layout.ts';
import type { BoardStock, Material } from '../model/stock.ts';
import { fromMm, toMm } from '../model/units.ts';
import { differences } from './differences.ts';
import { boardFacts } from './facts.ts';
import { NO_STOCK } from './rebuild-sheets.ts';
import { gridFaults, mentionFault, nameOf, type Rebuilding } from './rebuilding.ts';
import type { BoardRecord, MaterialRecord, PlanFile } from './schema.ts';

/** The boards of a material, in the order of the record. */
export function rebuildBoards(
  material: Material,
  { boards }: MaterialRecord,
  path: string,
  rebuilding: Rebuilding,
  { costs }: PlanFile,
): readonly BoardLayout[] {
  const taken = material.boards.map(() => 0);
  const prices = new Map(costs?.boards.map(({ number, priceMinor }) => [number, priceMinor]));
  return boards.map((board, i) => {
    const place = `${path}.boards[${i}]`;
    const pieces = rebuildPieces(board, place, rebuilding);
    const stock = stockOf(material, board, taken, prices.get(board.number));
    if (stock === null) {
      const message = `${material.id} has no board ${board.stock} of ${board.length} mm`;
      rebuilding.faults.push({ code: 'unknown-stock', path: `${place}.stock`, message });
      return { stock: NO_STOCK, pieces };
    }
    taken[stock.index]!++;
    return { stock: stock.index, pieces };
  });
}

/** By its name and length; of several such the one that is most like what the record says. */
function stockOf(
  { boards }: Material,
  record: BoardRecord,
  taken: readonly number[],
  price: number | null | undefined,
): BoardStock | null {
  const named = boards.filter(
    ({ name, length }) => name === record.stock && toMm(length) === record.length,
  );
  const unlike = (stock: BoardStock) =>
    [
      ...differences(boardFacts(stock), record, '', ''),
      ...(price === undefined || price === stock.priceCents ? [] : ['price']),
      ...(stock.onHand === null || taken[stock.index]! < stock.onHand ? [] : ['on hand']),
    ].length;
  return named.toSorted((a, b) => unlike(a) - unlike(b))[0] ?? null;
}

function rebuildPieces(
  { pieces }: BoardRecord,
  path: string,
  { names, faults, seen }: Rebuilding,
): readonly BoardPiece[] {
  return pieces.flatMap(({ part, piece, at }, i) => {
    const place = `${path}.pieces[${i}]`;
    const name = nameOf(part, piece);
    const index = names.lengths.get(name);
    const fault = mentionFault(name, index, seen, place);
    faults.push(...gridFaults(`${place}.at`, at));
    if (fault === null) return [{ part: index!, number: piece, at: fromMm(at) }];
    faults.push(fault);
    return [];
  });
}
