import type { BoardLayout, BoardPiece } from '../model/layout.ts';
import type { Material } from '../model/stock.ts';
import { fromMm, toMm } from '../model/units.ts';
import { NO_STOCK } from './rebuild-sheets.ts';
import { gridFaults, mentionFault, nameOf, type Rebuilding } from './rebuilding.ts';
import type { BoardRecord, MaterialRecord } from './schema.ts';

/** The boards of a material, in the order of the record. */
export function rebuildBoards(
  material: Material,
  { boards }: MaterialRecord,
  path: string,
  rebuilding: Rebuilding,
): readonly BoardLayout[] {
  const taken = material.boards.map(() => 0);
  return boards.map((board, i) => {
    const place = `${path}.boards[${i}]`;
    const pieces = rebuildPieces(board, place, rebuilding);
    const named = material.boards.filter(
      ({ name, length }) => name === board.stock && toMm(length) === board.length,
    );
    const stock =
      named.find(({ index, onHand }) => onHand === null || taken[index]! < onHand) ?? named.at(-1);
    if (stock === undefined) {
      const message = `${material.id} has no board ${board.stock} of ${board.length} mm`;
      rebuilding.faults.push({ code: 'unknown-stock', path: `${place}.stock`, message });
      return { stock: NO_STOCK, pieces };
    }
    taken[stock.index]!++;
    return { stock: stock.index, pieces };
  });
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
