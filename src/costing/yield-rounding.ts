// Rounds amounts to whole numbers that add up, so that a printed row of shares makes 100.0 %.
// Idea: every amount gets the whole part of its exact share, and what is then missing goes, one each, to those with the largest remainders.
//   So nobody is further off than one, and nothing stays nothing.
// Source: Hamilton's method; Balinski & Young 1982, "Fair Representation", chapter 2.
// Where we differ: the first amount, the yield, is rounded by itself, since the same figure stands alone elsewhere. The others still get no less than
//   the whole part of their share and at most one more: were the first rounded up, one less is missing, were it rounded down, none of it was theirs.
// Cost: a sort of a handful of amounts.
// Degenerate cases: amounts that are all zero stay so; of equal remainders the first one is served.

/** Whole numbers in the proportions of the amounts, which are not negative; they add up to `whole`. */
export function roundedShares(amounts: readonly number[], whole: number): readonly number[] {
  const total = amounts.reduce((sum, amount) => sum + amount, 0);
  if (total === 0) return amounts.map(() => 0);
  const exact = amounts.map((amount) => (amount / total) * whole);
  const rounded = exact.map((share, i) => (i === 0 ? Math.round(share) : Math.floor(share)));
  const missing = whole - rounded.reduce((sum, share) => sum + share, 0);
  const byRemainder = exact
    .map((share, i) => ({ i, remainder: share - Math.floor(share) }))
    .slice(1)
    .sort((a, b) => b.remainder - a.remainder || a.i - b.i);
  for (const { i } of byRemainder.slice(0, missing)) rounded[i]! += 1;
  return rounded;
}
