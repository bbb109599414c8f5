// Multiplies money exactly.
// Idea: an amount in whole minor units times a ratio of whole numbers, in whole numbers of any size, rounded once: halves go up.
// Source: none needed.
// Cost: a product and a division.
// Degenerate cases: money is never negative here.
import { assert } from '../geometry/assert.ts';

/** Shares are taken to a billionth. */
const SHARE_STEPS = 1e9;

/** `cents` times `by` over `over`, all whole and not negative. */
export function timesOver(cents: number, by: number, over: number): number {
  assert(cents >= 0 && by >= 0 && over > 0, 'money and ratios are not negative');
  const [top, bottom] = [BigInt(cents) * BigInt(by), BigInt(over)];
  return Number((2n * top + bottom) / (2n * bottom));
}

/** So much of an amount of money, or of anything that is counted in whole numbers. */
export function shareOf(cents: number, share: number): number {
  return timesOver(cents, Math.round(share * SHARE_STEPS), SHARE_STEPS);
}

/** What has to be added so that the added is `share` of the sum. */
export function shareOfSum(cents: number, share: number): number {
  const steps = Math.round(share * SHARE_STEPS);
  return timesOver(cents, steps, SHARE_STEPS - steps);
}

/** Null where one of them is not known. */
export function sumOrNull(values: readonly (number | null)[]): number | null {
  return values.reduce<number | null>(
    (total, value) => (total === null || value === null ? null : total + value),
    0,
  );
}

export function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
