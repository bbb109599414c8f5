/** The words for allowed turns. */
export type TurnWord = 'none' | 'half' | 'quarter' | 'any';

const QUARTERS = [0, 90, 180, 270] as const;
const STEP_DEG = 15;

/** Turns in degrees, ascending, from the position in which the grain is right. Left out, the grain alone decides among the quarter turns. */
export function turnsOf(word: TurnWord | null): readonly number[] {
  if (word === null || word === 'quarter') return QUARTERS;
  if (word === 'any') return Array.from({ length: 360 / STEP_DEG }, (_, i) => i * STEP_DEG);
  return word === 'none' ? [0] : [0, 180];
}
