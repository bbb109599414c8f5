import type { BoardStock } from '../../model/stock.ts';

/** A usable stretch of a board, in base lengths from its left end. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/**
 * The stretches of a board that a piece may lie in: what is inside its trimmed ends, without its defects and without what is shorter than the shortest piece.
 * A kerf may lie in a defect, so a piece may end just where a defect begins.
 */
export function stretchesOf(
  { length, endTrim, defects }: BoardStock,
  shortest: number,
): readonly Stretch[] {
  const end = length - endTrim;
  const found: Stretch[] = [];
  let from = endTrim;
  for (const defect of [...defects].sort((a, b) => a.from - b.from)) {
    const to = Math.min(defect.from, end);
    if (to - from >= shortest) found.push({ from, to });
    from = Math.max(from, defect.to);
  }
  if (end - from >= shortest) found.push({ from, to: end });
  return found;
}

/**
 * Ways to use the stretches so that pieces in two of them are a kerf apart whatever lies in them.
 * Where the gap between two stretches is narrower than the kerf, one of the two has to give way. The k-th way leaves stretch k whole, so that every piece
 * that fits a stretch has a way; ways in which the lengths given up are shared are left out.
 */
export function waysToUse(stretches: readonly Stretch[], kerf: number): readonly Stretch[][] {
  const lacks = stretches.map(({ to }, i) =>
    Math.max(0, kerf - ((stretches[i + 1]?.from ?? Infinity) - to)),
  );
  if (lacks.every((lack) => lack === 0)) return [[...stretches]];
  return stretches.map((_, whole) =>
    stretches.map(({ from, to }, i) => ({
      from: i > whole ? from + (lacks[i - 1] ?? 0) : from,
      to: i < whole ? to - (lacks[i] ?? 0) : to,
    })),
  );
}
