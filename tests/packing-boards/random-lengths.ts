import { seededRandom } from '../../src/packing/random.ts';
import type { BoardInput, BoardJobInput } from '../helpers/board-jobs.ts';

export interface LengthsInput {
  readonly kinds: number;
  readonly pieces: number;
  readonly boards: readonly BoardInput[];
  readonly seed: number;
}

const SHORTEST = 200;
const LONGEST = 2500;
const KERF = 3.2;

/** So many pieces of so many distinct lengths, each a whole number of millimetres from 200 to 2,500, every kind at least once. */
export function randomLengths({ kinds, pieces, boards, seed }: LengthsInput): BoardJobInput {
  const random = seededRandom(seed);
  const lengths = new Set<number>();
  while (lengths.size < kinds)
    lengths.add(SHORTEST + Math.floor(random() * (LONGEST - SHORTEST + 1)));
  const counts = Array.from({ length: kinds }, () => 1);
  for (let k = kinds; k < pieces; k++) counts[Math.floor(random() * kinds)]!++;
  return {
    kerf: KERF,
    boards,
    lengths: [...lengths].map((length, k) => [length, counts[k]!] as const),
  };
}
