import type { BoardTask } from './board-task.ts';

/** Whole worths of the kinds, and for each board of the task a whole number that no filling of it exceeds. */
export interface Weighing {
  readonly worths: Float64Array;
  readonly richest: readonly number[];
}

/**
 * What the pieces cost at least, by worths for which no board is known to hold too much: a bound in whole numbers.
 *
 * If no board of cost c holds pieces worth more than c t, all pieces together cost their worth over t. A board of which there are only h may hold more than
 * c t, but then no more than h times the excess is saved by it. Over t the bound is largest at one of the boards' own ratios, so each of them is tried, in BigInt:
 * the worths may come from anywhere, floating point included.
 *
 * Source: Farley 1990, "A note on bounding a class of linear programming problems, including cutting stock problems", Operations Research 38, 922-923. We add the
 * counts on hand. Cost: the square of the kinds of boards. Worths of zero, or a board for nothing, give 0.
 */
export function safeBound(task: BoardTask, { worths, richest }: Weighing): number {
  const all = task.kinds.reduce(
    (sum, { count }, k) => sum + BigInt(count) * BigInt(worths[k] ?? 0),
    0n,
  );
  const boards = task.boards.map(({ cost, onHand }, i) => ({
    cost: BigInt(cost),
    most: BigInt(richest[i] ?? 0),
    onHand: Number.isFinite(onHand) ? BigInt(onHand) : null,
  }));
  let best = 0n;
  for (const ratio of boards) {
    // One over t is `ratio.cost / ratio.most`; everything is multiplied by `ratio.most`.
    if (ratio.most === 0n) continue;
    const excess = boards.map(({ cost, most, onHand }) => {
      const over = most * ratio.cost - cost * ratio.most;
      if (over <= 0n) return 0n;
      return onHand === null ? null : onHand * over;
    });
    if (excess.includes(null)) continue;
    const saved = excess.reduce<bigint>((sum, part) => sum + (part ?? 0n), 0n);
    const value = all * ratio.cost - saved;
    if (value <= 0n) continue;
    const bound = (value + ratio.most - 1n) / ratio.most;
    if (bound > best) best = bound;
  }
  return Number(best);
}
