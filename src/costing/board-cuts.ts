// Counts the cuts of boards.
// Idea: pieces and what is kept of a board are cut off at both ends. Where the next one starts a kerf behind, one cut does for both; at an end of the board
//   that is left as it is there is none.
// Source: none needed.
// Cost: linear in pieces and leftovers.
// Degenerate cases: a board that is one piece as it comes is not cut at all; what is no longer of use is not cut off by itself.
import type { BoardCosts } from '../model/costs.ts';
import type { Job } from '../model/job.ts';
import type { Layout } from '../model/layout.ts';
import { boardKerf } from '../model/machine.ts';
import { numberedBoards } from '../model/plan.ts';
import type { Stretch } from '../model/stock.ts';
import { stretchesOf } from './board-costs.ts';
import { sum } from './money.ts';

/** `boards`: what is left over of each board, in the order of their numbers. */
export function boardCutCount(
  job: Job,
  layouts: readonly Layout[],
  boards: readonly BoardCosts[],
): number {
  const kerf = boardKerf(job.machine);
  const counts = numberedBoards(layouts).map(({ number, material, board }) => {
    const { length, endTrim } = job.materials[material]!.boards[board.stock]!;
    const kept = boards[number - 1]!.leftovers.filter(({ isKept }) => isKept);
    const wanted = [...stretchesOf(job, board), ...kept].toSorted((a, b) => a.from - b.from);
    // The far end is kept with its raw edge.
    const end = kept.some(({ to }) => to === length - endTrim) ? length - endTrim : length;
    return cutsBetween(wanted, kerf, end);
  });
  return sum(counts);
}

function cutsBetween(wanted: readonly Stretch[], kerf: number, end: number): number {
  let cuts = 0;
  let clear = 0;
  for (const { from, to } of wanted) {
    if (from > clear) cuts++;
    if (to < end) cuts++;
    clear = to + kerf;
  }
  return cuts;
}
