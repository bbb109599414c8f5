/** How a box in an order may lie: its first box, its second, or whichever the rule prefers. */
export const EITHER = 2;

/** Orders hold codes: a kind and how its box may lie. */
export function codeOf(kind: number, lie: number): number {
  return 4 * kind + lie;
}

export function kindOf(code: number): number {
  return code >> 2;
}
