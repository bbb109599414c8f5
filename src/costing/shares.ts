// Shares out a whole amount in proportion to weights, so that the shares are whole and add up to it.
// Idea: each share is first rounded down. What is left over goes, one by one, to those who lost most by that; of equal losses the earlier one wins.
// Source: the method of largest remainders, Hamilton 1792; Balinski and Young 1982, "Fair Representation", chapter 3.
// Where we differ: nothing; its paradoxes are of no account, as nobody compares two quotes share by share.
// Cost: a sort; in whole numbers of any size, so nothing is lost in a division.
// Degenerate cases: without any weight all share alike; nobody gets nothing.
import { assert } from '../geometry/assert.ts';

/** One share for each weight; no share is more than one away from its exact value. Amount and weights are whole and not negative. */
export function shareOut(amount: number, weights: readonly number[]): readonly number[] {
  const given = weights.some((weight) => weight > 0) ? weights : weights.map(() => 1);
  const parts = given.map(BigInt);
  const whole = parts.reduce((total, weight) => total + weight, 0n);
  assert(whole > 0n || amount === 0, 'an amount is shared among somebody');
  const exact = parts.map((weight) => BigInt(amount) * weight);
  const shares = exact.map((top) => Number(top / whole));
  const left = amount - shares.reduce((total, share) => total + share, 0);
  const losses = exact.map((top, index) => ({ index, lost: top % whole }));
  losses.sort((a, b) => (a.lost === b.lost ? a.index - b.index : a.lost < b.lost ? 1 : -1));
  for (const { index } of losses.slice(0, left)) shares[index]! += 1;
  return shares;
}
