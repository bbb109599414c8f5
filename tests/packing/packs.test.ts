import { describe, expect, it } from 'vitest';
import { packSurplus } from '../../src/costing/packs.ts';
import type { Job } from '../../src/model/job.ts';
import type { Layout } from '../../src/model/layout.ts';
import { type Random, seededRandom } from '../../src/packing/random.ts';
import { verifyLayout } from '../../src/verify/verify.ts';
import { sawnJob } from '../packing-panelsaw/saws.ts';
import { packUntil, packUntilProved } from './counted-pack.ts';
import { jobOf, type PartSketch, type StockSketch } from './jobs.ts';
import { faultsOf } from './legal.ts';

/** A sheet for one strip, and one for three of them. */
const one = { length: 100, width: 50 };
const three = { length: 100, width: 150 };
const strips = (count: number): PartSketch => ({ ...sized(100, 50), count });

const CASES: readonly {
  readonly what: string;
  readonly stocks: readonly StockSketch[];
  readonly parts: readonly PartSketch[];
  readonly taken: readonly number[];
  readonly used: number;
}[] = [
  {
    // Singly three for 30 would cost 90, but five cost 150.
    what: 'a large sheet in place of three out of a pack',
    stocks: [
      { ...one, priceCents: 30, pack: 5 },
      { ...three, priceCents: 100 },
    ],
    parts: [strips(3)],
    taken: [0, 1],
    used: 100,
  },
  {
    // Two large sheets cost 200.
    what: 'a pack that comes out even',
    stocks: [
      { ...one, priceCents: 30, pack: 5 },
      { ...three, priceCents: 100 },
    ],
    parts: [strips(5)],
    taken: [5, 0],
    used: 150,
  },
  {
    // Of seven strips two packs hold ten for 300, three large sheets nine for 300, and both mixed eight for 250.
    what: 'a pack and one sheet of another size',
    stocks: [
      { ...one, priceCents: 30, pack: 5 },
      { ...three, priceCents: 100 },
    ],
    parts: [strips(7)],
    taken: [5, 1],
    used: 250,
  },
  {
    // The wide piece needs a large sheet, so a pack of them for 360 is bought whatever becomes of the strips, and the rest of it takes those. Singly 90 and nine times 25 make 315.
    what: 'the rest of a pack that has to be opened',
    stocks: [
      { ...one, priceCents: 25 },
      { ...three, priceCents: 90, pack: 4 },
    ],
    parts: [sized(100, 150), strips(9)],
    taken: [0, 4],
    used: 360,
  },
  {
    // Singly three large sheets and a small one cost 135; a pack of the large ones 160, two of the small ones 150.
    what: 'packs of both sizes',
    stocks: [
      { ...one, priceCents: 15, pack: 5 },
      { ...three, priceCents: 40, pack: 4 },
    ],
    parts: [strips(10)],
    taken: [10, 0],
    used: 150,
  },
  {
    // What is on hand counts singly: two of it cost 60, and a large sheet 100.
    what: 'stock on hand, which is not bought in packs',
    stocks: [
      { ...one, priceCents: 30, pack: 5, onHand: 7 },
      { ...three, priceCents: 100 },
    ],
    parts: [strips(2)],
    taken: [2, 0],
    used: 60,
  },
  {
    what: 'fewest sheets of a single size',
    stocks: [{ ...one, priceCents: 30, pack: 5 }],
    parts: [strips(7)],
    taken: [7],
    used: 7,
  },
  {
    // Without a price of each size nothing but sheets can count.
    what: 'fewest sheets without prices',
    stocks: [
      { ...one, priceCents: 30 },
      { ...three, pack: 5 },
    ],
    parts: [strips(9)],
    taken: [0, 3],
    used: 3,
  },
];

describe('sheets sold in packs', () => {
  it.each(CASES)('$what', ({ stocks, parts, taken, used }) => {
    const job = jobOf(stocks, parts);
    const layout = checked(job, packUntilProved(job));
    expect(stocks.map((_, stock) => countOf(layout, stock))).toEqual(taken);
    expect([layout.used, layout.bound.atLeast, layout.status]).toEqual([used, used, 'proved']);
  });

  it('counts at a saw as well', () => {
    const stocks = [
      { ...one, priceCents: 30, pack: 5 },
      { ...three, priceCents: 100 },
    ];
    const job = sawnJob(stocks, [strips(7)]);
    const layout = packUntilProved(job);
    expect(verifyLayout(job, layout).faults).toEqual([]);
    expect([layout.used, layout.status]).toEqual([250, 'proved']);
  });

  it.each(Array.from({ length: 60 }, (_, k) => k + 1))(
    'costs what the cheapest of all mixes does (%i)',
    (seed) => {
      const { stocks, lengths } = randomStrips(seededRandom(seed));
      const job = jobOf(
        stocks,
        lengths.map((length) => ({ ...sized(length, 50), turns: [0] })),
      );
      const least = cheapest(stocks, lengths);
      const layout = checked(
        job,
        packUntil(job, ({ used }) => used === least),
      );
      expect(layout.bound.atLeast).toBeLessThanOrEqual(least);
      expect(layout.used).toBe(least);
    },
  );
});

function sized(width: number, height: number): PartSketch {
  return { width, height };
}

/** Without faults, and counted as the costs count it. */
function checked(job: Job, layout: Layout): Layout {
  expect([...verifyLayout(job, layout).faults, ...faultsOf(job, layout)]).toEqual([]);
  expect(layout.unplaced).toEqual([]);
  const { sheets } = job.materials[0]!;
  const prices = [
    ...layout.sheets.map(({ stock }) => sheets[stock]!.priceCents ?? 0),
    ...packSurplus(job, [layout]).map(({ priceCents }) => priceCents ?? 0),
  ];
  if (layout.objective === 'cost') expect(layout.used).toBe(prices.reduce((a, b) => a + b, 0));
  return layout;
}

function countOf({ sheets }: Layout, index: number): number {
  return sheets.filter(({ stock }) => stock === index).length;
}

interface Strips {
  readonly stocks: readonly { length: number; width: number; priceCents: number; pack: number }[];
  readonly lengths: readonly number[];
}

/** Strips of one width on sheets of that width: what fits is a matter of lengths alone. */
function randomStrips(random: Random): Strips {
  const whole = (least: number, most: number) => least + Math.floor(random() * (most - least + 1));
  const stocks = Array.from({ length: whole(2, 3) }, () => {
    const length = whole(60, 200);
    return { length, width: 50, priceCents: length + whole(0, 60), pack: whole(1, 4) };
  });
  const longest = Math.max(...stocks.map(({ length }) => length));
  const lengths = Array.from({ length: whole(1, 8) }, () => whole(15, longest));
  return { stocks, lengths };
}

/** The least price of a mix of packs onto which all lengths go, by trying the mixes in the order of their prices, and in each every place of every length. */
function cheapest(stocks: Strips['stocks'], lengths: readonly number[]): number {
  const packs = stocks.map(({ pack }) => Math.ceil(lengths.length / pack));
  const mixes = packs.reduce<readonly (readonly number[])[]>(
    (all, most) =>
      all.flatMap((mix) => Array.from({ length: most + 1 }, (_, count) => [...mix, count])),
    [[]],
  );
  const priceOf = (mix: readonly number[]) =>
    mix.reduce((sum, count, k) => sum + count * stocks[k]!.pack * stocks[k]!.priceCents, 0);
  const longestFirst = [...lengths].sort((a, b) => b - a);
  const found = [...mixes]
    .sort((a, b) => priceOf(a) - priceOf(b))
    .find((mix) => {
      const rooms = mix.flatMap((count, k) =>
        new Array<number>(count * stocks[k]!.pack).fill(stocks[k]!.length),
      );
      return fits(longestFirst, rooms);
    });
  return priceOf(found!);
}

function fits([first, ...others]: readonly number[], rooms: readonly number[]): boolean {
  if (first === undefined) return true;
  return [...new Set(rooms)].some((room) => {
    if (room < first) return false;
    const i = rooms.indexOf(room);
    return fits(others, rooms.with(i, room - first));
  });
}
