import { leftoverValue } from './leftover.ts';
import { costOf, pricesOf } from './priced.ts';
import type { Candidate, PackedSheet, PackingTask } from './task.ts';

/** Sheets that are bought, or minor units of the currency, that a packing uses. */
export function usedBy(task: PackingTask, sheets: readonly PackedSheet[]): number {
  return costOf(pricesOf(task), sheets);
}

/** Keeps the best of the candidates it is shown: fewest pieces left out, then least used, then fewest sheets for the same money, then the most useful leftover. */
export function bestKeeper(task: PackingTask): {
  readonly offer: (candidate: Candidate) => boolean;
  readonly best: () => Candidate;
} {
  let best: Candidate = { sheets: [], unplaced: task.bodies.map(({ index }) => index) };
  let leftOut = piecesOf(task, best.unplaced);
  let used = 0;
  // Reckoned only when another candidate is as good in all else.
  let leftover: number | null = null;
  const offer = (candidate: Candidate): boolean => {
    const newUsed = usedBy(task, candidate.sheets);
    const newLeftOut = piecesOf(task, candidate.unplaced);
    const fewer =
      leftOut - newLeftOut || used - newUsed || best.sheets.length - candidate.sheets.length;
    if (fewer < 0) return false;
    let newLeftover: number | null = null;
    if (fewer === 0) {
      leftover ??= largestLeftover(task, best);
      newLeftover = largestLeftover(task, candidate);
      if (newLeftover <= leftover) return false;
    }
    best = candidate;
    leftOut = newLeftOut;
    used = newUsed;
    leftover = newLeftover;
    return true;
  };
  return { offer, best: () => best };
}

function piecesOf({ bodies }: PackingTask, indices: readonly number[]): number {
  return indices.reduce((sum, body) => sum + (bodies[body]?.pieces.length ?? 0), 0);
}

function largestLeftover(task: PackingTask, { sheets }: Candidate): number {
  return sheets.reduce((most, sheet) => Math.max(most, leftoverValue(task, sheet)), 0);
}
