import { describe, expect, it } from 'vitest';
import { type Random, seededRandom } from '../../src/packing/random.ts';
import { verifyLayout } from '../../src/verify/verify.ts';
import { packCounted, packUntil } from '../packing/counted-pack.ts';
import { jobOf, QUARTERS } from '../packing/jobs.ts';
import { faultsOf } from '../packing/legal.ts';

const IN_PACKS = Array.from({ length: 40 }, (_, k) => k + 201);

describe('pieces cut from sheets that are sold in packs', () => {
  it.each(IN_PACKS)('cost no more than those packs did (%i)', (seed) => {
    const { cost, layout } = planned(seed, { sheets: 4, cuts: 3, mostInPack: 4 });
    expect(layout.used).toBeLessThanOrEqual(cost);
    expect(layout.bound.atLeast).toBeLessThanOrEqual(layout.used);
  });
});

interface Size {
  readonly width: number;
  readonly height: number;
}

const SMALL = Array.from({ length: 40 }, (_, k) => k + 1);
const LARGE = Array.from({ length: 8 }, (_, k) => k + 101);

describe('pieces cut from sheets of several sizes and prices', () => {
  it.each(SMALL)('cost no more than those sheets did (%i)', (seed) => {
    const { cost, layout } = planned(seed, { sheets: 3, cuts: 3 });
    expect(layout.used).toBeLessThanOrEqual(cost);
    expect(layout.bound.atLeast).toBeLessThanOrEqual(cost);
  });

  it.each(LARGE)('cost hardly more where there are many (%i)', (seed) => {
    const { cost, layout } = planned(seed, { sheets: 14, cuts: 6 });
    expect(layout.bound.atLeast).toBeLessThanOrEqual(cost);
    expect(layout.used).toBeGreaterThanOrEqual(layout.bound.atLeast);
    expect(layout.used).toBeLessThanOrEqual(1.1 * cost);
  });
});

interface Plant {
  readonly sheets: number;
  readonly cuts: number;
  /** Missing where all sheets are sold singly. */
  readonly mostInPack?: number;
}

function planned(seed: number, size: Plant) {
  const random = seededRandom(seed);
  const whole = (least: number, most: number) => least + Math.floor(random() * (most - least + 1));
  const stocks = Array.from({ length: whole(2, 4) }, () => {
    const [length, width] = [whole(900, 2800), whole(600, 2000)];
    // So much a square metre, and something for each sheet.
    const priceCents = Math.round((length * width * whole(18, 30)) / 10_000) + whole(0, 800);
    if (size.mostInPack === undefined)
      return { length, width, priceCents, pack: 1, onHand: random() < 0.3 ? size.sheets : null };
    return { length, width, priceCents, pack: whole(1, size.mostInPack), onHand: null };
  });
  const taken = Array.from({ length: whole(1, size.sheets) }, () => whole(0, stocks.length - 1));
  const pieces = taken.flatMap((stock) => {
    const { length, width } = stocks[stock]!;
    return cutUp({ width: length, height: width }, whole(1, size.cuts), random);
  });
  const job = jobOf(
    stocks,
    pieces.map((piece) => ({ ...piece, turns: random() < 0.5 ? QUARTERS : [0] })),
  );
  const prices = stocks.map(({ pack, priceCents }, stock) => {
    const count = taken.filter((each) => each === stock).length;
    return Math.ceil(count / pack) * pack * priceCents;
  });
  const cost = prices.reduce((sum, price) => sum + price, 0);
  const layout =
    size.mostInPack === undefined
      ? packCounted(job)
      : packUntil(job, ({ used }) => used !== null && used <= cost);
  expect(layout.objective).toBe('cost');
  expect([...verifyLayout(job, layout).faults, ...faultsOf(job, layout)]).toEqual([]);
  expect(layout.unplaced).toEqual([]);
  return { layout, cost };
}

/** From edge to edge, so many times, the largest piece each time. */
function cutUp(sheet: Size, cuts: number, random: Random): Size[] {
  const pieces = [sheet];
  for (let n = 0; n < cuts; n++) {
    pieces.sort((a, b) => a.width * a.height - b.width * b.height);
    const { width, height } = pieces.pop()!;
    const share = 0.25 + 0.5 * random();
    const first = Math.floor(share * Math.max(width, height));
    if (width > height) pieces.push({ width: first, height }, { width: width - first, height });
    else pieces.push({ width, height: first }, { width, height: height - first });
  }
  return pieces;
}
