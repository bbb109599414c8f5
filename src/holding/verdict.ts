import type { Verdict } from '../model/holding.ts';

/** Margins that a thing needs to stay, with the numbers as they are and at the cautious end of their bands. */
export const STAYS = { margin: 2, marginLow: 1.2 } as const;

/** Under this nominal margin a thing moves. */
export const MOVES = 1;

export function verdictOf(margin: number, marginLow: number): Verdict {
  if (margin < MOVES) return 'moves';
  return margin >= STAYS.margin && marginLow >= STAYS.marginLow ? 'stays' : 'marginal';
}
