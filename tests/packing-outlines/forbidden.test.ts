import { describe, expect, it } from 'vitest';
import {
  type Convex,
  chainCeil,
  chainFloor,
  convexContains,
} from '../../src/packing/outlines/chains.ts';
import { forbiddenTable } from '../../src/packing/outlines/forbidden.ts';
import { seededRandom } from '../../src/packing/random.ts';
import { randomBox, randomParts } from './random-parts.ts';
import { isFree, smallSetup } from './small-setup.ts';

const SPAN = 9;
const MAKERS = [
  { what: 'boxes', make: randomBox },
  { what: 'slanted outlines', make: randomParts },
];

describe('forbidden places', () => {
  it.each(MAKERS)('are just those where two forms overlap, for $what', ({ make }) => {
    const random = seededRandom(11);
    for (let trial = 0; trial < 20; trial++) {
      const setup = smallSetup([make(random, SPAN), make(random, SPAN)], 50, 50);
      const still = { form: 1, x: 0, y: 0 };
      for (let x = -SPAN - 1; x <= SPAN + 1; x++)
        for (let y = -SPAN - 1; y <= SPAN + 1; y++) {
          const isForbidden = setup.forbidden(0, 1).some((sum) => liesInside(sum, x, y));
          expect(isForbidden).toBe(!isFree(setup, { form: 0, x, y }, [still]));
        }
    }
  });

  it('hold no sum that lies in another one', () => {
    const random = seededRandom(12);
    let pairs = 0;
    for (let trial = 0; trial < 40; trial++) {
      const setup = smallSetup([randomParts(random, SPAN), randomParts(random, SPAN)], 50, 50);
      const sums = setup.forbidden(0, 1);
      for (const a of sums)
        for (const b of sums) {
          if (a === b) continue;
          pairs++;
          expect(convexContains(a, b)).toBe(false);
        }
    }
    expect(pairs).toBeGreaterThan(50);
  });

  it('are made once for each ordered pair, and charged by the number of sums', () => {
    const random = seededRandom(13);
    const [one = [], other = []] = [randomBox(random, SPAN), randomBox(random, SPAN)];
    const { forms } = smallSetup([one, [...one, ...other]], 50, 50);
    const charges: number[] = [];
    const forbidden = forbiddenTable({
      forms,
      edges: { bare: [], from: forms.length },
      ringsOf: ({ parts }) => parts,
      room: Number.POSITIVE_INFINITY,
      spend: (work) => charges.push(work),
    });
    const first = forbidden(0, 0);
    expect(forbidden(0, 0)).toBe(first);
    expect(charges.length).toBe(1);
    forbidden(1, 1);
    forbidden(0, 1);
    const [single = 0, double = 0, mixed = 0] = charges;
    expect(double).toBeGreaterThan(3 * single);
    expect(mixed).toBeGreaterThan(single);
    expect(mixed).toBeLessThan(double);
  });
});

function liesInside(sum: Convex, x: number, y: number): boolean {
  if (x <= sum.minX || x >= sum.maxX) return false;
  return chainFloor(sum.lower, x) < y && y < chainCeil(sum.upper, x);
}
