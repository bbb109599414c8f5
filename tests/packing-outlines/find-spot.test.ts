import { describe, expect, it } from 'vitest';
import { spotFinder } from '../../src/packing/outlines/find-spot.ts';
import type { Fixed, Setup } from '../../src/packing/outlines/setup.ts';
import { type Random, seededRandom } from '../../src/packing/random.ts';
import { WorkBudget } from '../../src/packing/work.ts';
import { randomBox, randomParts } from './random-parts.ts';
import { isFree, smallSetup } from './small-setup.ts';

const WIDTH = 36;
const HEIGHT = 26;

const MAKERS = [
  { what: 'boxes', make: (random: Random) => randomBox(random, 11) },
  { what: 'slanted outlines', make: (random: Random) => randomParts(random, 11) },
];

describe('the leftmost free place', () => {
  it.each(MAKERS)('is the one that trying every place gives, among $what', ({ make }) => {
    const random = seededRandom(5);
    let found = 0;
    for (let trial = 0; trial < 60; trial++) {
      const setup = smallSetup([make(random), make(random), make(random)], WIDTH, HEIGHT);
      const fixed = Array.from({ length: 6 + Math.floor(random() * 10) }, () => ({
        form: Math.floor(random() * 3),
        x: Math.floor(random() * (WIDTH - 11)),
        y: Math.floor(random() * (HEIGHT - 11)),
      }));
      const spot = spotIn(setup, fixed);
      expect(spot).toEqual(spotByTrying(setup, fixed));
      if (spot !== null) found++;
    }
    expect(found).toBeGreaterThan(40);
  });

  it('lies in the asked stretch only', () => {
    const setup = smallSetup([randomBox(() => 0.3, 10)], WIDTH, HEIGHT);
    const findSpot = spotFinder(setup, new WorkBudget(1));
    const ground = { stock: 0, fixed: [] };
    expect(findSpot(ground, 0, { fromX: 7, toX: 9, isCoarse: false })).toEqual({
      form: 0,
      x: 7,
      y: 0,
    });
    expect(findSpot(ground, 0, { fromX: WIDTH, toX: 2 * WIDTH, isCoarse: false })).toBeNull();
  });
});

function spotIn(setup: Setup, fixed: readonly Fixed[]): Fixed | null {
  const findSpot = spotFinder(setup, new WorkBudget(1));
  return findSpot({ stock: 0, fixed }, 0, { fromX: 0, toX: WIDTH, isCoarse: false });
}

function spotByTrying(setup: Setup, fixed: readonly Fixed[]): Fixed | null {
  const { width = 0, height = 0 } = setup.forms[0] ?? {};
  for (let x = 0; x <= WIDTH - width; x++) {
    for (let y = 0; y <= HEIGHT - height; y++) {
      const place = { form: 0, x, y };
      if (isFree(setup, place, fixed)) return place;
    }
  }
  return null;
}
