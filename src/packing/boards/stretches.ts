import type { Stretch } from '../../model/stock.ts';

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
