/** A seeded source of uniform numbers in [0, 1). */
export type Random = () => number;

/**
 * Uniform numbers from a seed, the same on every machine.
 * A 32-bit state walks by a fixed odd step and is scrambled by two multiply-and-shift rounds, so that every seed is good and no state is stuck.
 * Source: Steele, Lea & Flood 2014, "Fast splittable pseudorandom number generators", OOPSLA, section 5 (here with 32-bit mixing constants).
 */
export function seededRandom(seed: number): Random {
  let state = Math.imul(seed ^ 0x9e3779b9, 0x85ebca6b) >>> 0;
  return () => {
    state = (state + 0x9e3779b9) >>> 0;
    let z = state;
    z = Math.imul(z ^ (z >>> 16), 0x21f0aaad);
    z = Math.imul(z ^ (z >>> 15), 0x735a2d97);
    return ((z ^ (z >>> 15)) >>> 0) / 2 ** 32;
  };
}
