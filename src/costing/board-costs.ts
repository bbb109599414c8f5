// Reckons where the length of each board goes, and what is left over.
// Idea: a leftover is what of a clear stretch lies between the pieces, less a kerf beside each of them. At an end of the stretch there is no kerf: it is
//   trimmed, or the kerf lies in the defect.
// Source: none needed, sums.
// Cost: linear in pieces and defects.
// Degenerate cases: a board without pieces is left over whole; a gap of a kerf or less is no leftover.
import type { BoardCosts, BoardLeftover } from '../model/costs.ts';
import type { Job } from '../model/job.ts';
import type { BoardLayout, Layout } from '../model/layout.ts';
import { boardKerf } from '../model/machine.ts';
import { numberedBoards } from '../model/plan.ts';
import { type BoardStock, clearStretches, type Stretch } from '../model/stock.ts';

export function costBoards(job: Job, layouts: readonly Layout[]): readonly BoardCosts[] {
  const kerf = boardKerf(job.machine);
  return numberedBoards(layouts).map(({ number, material, board }) => {
    const { boards, leastLeftover } = job.materials[material]!;
    const stock = boards[board.stock]!;
    const pieces = stretchesOf(job, board);
    const pieceLength = pieces.reduce((sum, { from, to }) => sum + to - from, 0);
    const leftovers = leftoversOf(stock, pieces, kerf).map(
      (stretch): BoardLeftover => ({
        ...stretch,
        isKept: leastLeftover <= stretch.to - stretch.from,
      }),
    );
    return {
      board: number,
      length: stock.length,
      pieceLength,
      leftovers,
      yieldShare: pieceLength / stock.length,
      priceCents: stock.priceCents,
    };
  });
}

/** The pieces of a board, from left to right. */
export function stretchesOf({ lengthParts }: Job, { pieces }: BoardLayout): readonly Stretch[] {
  return pieces
    .map(({ part, at }) => ({ from: at, to: at + lengthParts[part]!.length }))
    .toSorted((a, b) => a.from - b.from);
}

function leftoversOf(
  stock: BoardStock,
  pieces: readonly Stretch[],
  kerf: number,
): readonly Stretch[] {
  return clearStretches(stock)
    .flatMap(({ from, to }) => {
      const inside = pieces.filter((piece) => from <= piece.from && piece.to <= to);
      const starts = [from, ...inside.map((piece) => piece.to + kerf)];
      const ends = [...inside.map((piece) => piece.from - kerf), to];
      return starts.map((start, i) => ({ from: start, to: ends[i]! }));
    })
    .filter(({ from, to }) => from < to);
}
