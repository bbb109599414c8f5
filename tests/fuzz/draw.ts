import { seededRandom } from '../../src/packing/random.ts';

/** What is drawn at random; the same seed draws the same. */
export interface Draw {
  /** A whole number from 0, less than `limit`. */
  readonly below: (limit: number) => number;
  readonly between: (least: number, most: number) => number;
  readonly chance: (share: number) => boolean;
  readonly pick: <T>(of: readonly T[]) => T;
  /** Of pairs of a weight and a value. */
  readonly weighed: <T>(of: readonly (readonly [number, T])[]) => T;
  readonly list: <T>(least: number, most: number, make: (index: number) => T) => T[];
}

export function drawOf(seed: number): Draw {
  const random = seededRandom(seed);
  const below = (limit: number) => Math.floor(random() * limit);
  const between = (least: number, most: number) => least + below(most - least + 1);
  return {
    below,
    between,
    chance: (share) => random() < share,
    pick: (of) => of[below(of.length)]!,
    weighed: (of) => {
      let left = random() * of.reduce((sum, [weight]) => sum + weight, 0);
      for (const [weight, value] of of) {
        left -= weight;
        if (left < 0) return value;
      }
      return of.at(-1)![1];
    },
    list: (least, most, make) => Array.from({ length: between(least, most) }, (_, i) => make(i)),
  };
}
