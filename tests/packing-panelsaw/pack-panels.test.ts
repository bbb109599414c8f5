import { describe, expect, it } from 'vitest';
import { type Random, seededRandom } from '../../src/packing/random.ts';
import { verifyLayout } from '../../src/verify/verify.ts';
import { classInstance } from '../packing/class-instances.ts';
import { packCounted, packUntilProved } from '../packing/counted-pack.ts';
import { jobOf, type PartSketch, QUARTERS, type StockSketch } from '../packing/jobs.ts';
import { faultsOf } from '../packing/legal.ts';
import { paretoBoxes, type Size } from './pareto-boxes.ts';
import { type SawnJob, sawnJob } from './saws.ts';

const SEEDS = Array.from({ length: 60 }, (_, k) => k + 1);

/** Among them stages that are counted beside a keep-out, and the last four a sheet that is longer than the saw rips. */
const JOB_SEEDS = [...Array.from({ length: 300 }, (_, k) => k + 1000), 5210, 5482, 5713, 5753];

describe('random jobs for a saw', () => {
  it.each(JOB_SEEDS)('are laid out so that the saw parts them (%i)', (seed) => {
    const job = randomJob(seededRandom(seed));
    const layout = packCounted(job, 3);
    expect(verifyLayout(job, layout).faults).toEqual([]);
    expect(faultsOf(job, layout)).toEqual([]);
    expect(packCounted(job, 3)).toEqual(layout);
  });
});

describe('random jobs of many copies', () => {
  it.each(SEEDS)('are laid out so that the saw parts them (%i)', (seed) => {
    const job = randomJob(seededRandom(seed), 15);
    const layout = packCounted(job, 40);
    expect(verifyLayout(job, layout).faults).toEqual([]);
    expect(faultsOf(job, layout)).toEqual([]);
  });
});

describe('many copies of one small piece', () => {
  it('fill the sheets on hand, and take no more sheets than a grid of them', () => {
    const parts = [{ width: 100, height: 60, count: 800 }];
    const sheet = { length: 2440, width: 1220 };
    const few = sawnJob([{ ...sheet, onHand: 2 }], parts, { kerf: 4, stages: 3 });
    const layout = packCounted(few, 30);
    expect(layout.unplaced).toEqual([]);
    expect(faultsOf(few, layout)).toEqual([]);
    const many = sawnJob([sheet], [{ ...parts[0]!, count: 2500 }]);
    // 24 x 20 of them go on a sheet.
    expect(packCounted(many, 30).sheets).toHaveLength(6);
  });
});

describe('a handful of pieces', () => {
  it.each(SEEDS)('fit one sheet where trying everything says so (%i)', (seed) => {
    const random = seededRandom(seed);
    const count = 3 + Math.floor(random() * 3);
    const sizes = Array.from({ length: count }, () => drawnSize(random));
    const stages = ([2, 3, null] as const)[seed % 3]!;
    const firstCut = ([null, 'along', 'across'] as const)[Math.floor(random() * 3)]!;
    const mayTurn = random() < 0.5;
    const lies = sizes.map(({ w, h }) =>
      mayTurn
        ? [
            { w, h },
            { w: h, h: w },
          ]
        : [{ w, h }],
    );
    const isRow = firstCut === null ? null : firstCut === 'across';
    const tight = paretoBoxes(lies, stages ?? 9, isRow);
    const { w, h } = tight[Math.floor(random() * tight.length)]!;
    const turns = mayTurn ? QUARTERS : [0];
    const parts = sizes.map((each) => ({ width: each.w, height: each.h, turns }));
    const sheets = (width: number) => {
      const job = sawnJob([{ length: width, width: h }], parts, { stages, firstCut });
      const layout = packCounted(job, 12);
      expect(verifyLayout(job, layout).faults).toEqual([]);
      return layout.unplaced.length === 0 ? layout.sheets.length : null;
    };
    expect(sheets(w)).toBe(1);
    expect(sheets(w - 1)).not.toBe(1);
  });
});

/** Hardly any waste is left on these sheets, and no layout has fewer, by the bound. Source of the instances: class-instances.ts. */
const DENSE = [
  { group: 4, size: 60, number: 4, turns: QUARTERS, sheets: 2 },
  { group: 4, size: 80, number: 7, turns: [0], sheets: 3 },
  { group: 6, size: 100, number: 2, turns: QUARTERS, sheets: 3 },
  { group: 7, size: 60, number: 1, turns: [0], sheets: 17 },
];

describe('published instances that are nearly full', () => {
  it.each(DENSE)('class $group, $size pieces, number $number', (given) => {
    const { side, pieces } = classInstance(given.group, given.size, given.number);
    const parts = pieces.map((piece) => ({ ...piece, turns: given.turns }));
    const job = sawnJob([{ length: side, width: side }], parts);
    const layout = packUntilProved(job);
    expect(verifyLayout(job, layout).faults).toEqual([]);
    expect(layout.sheets).toHaveLength(given.sheets);
    expect(layout.bound.atLeast).toBe(given.sheets);
  });
});

describe('a published instance in few stages', () => {
  it.each([2, 3] as const)('is laid out so that the saw parts it in %i', (stages) => {
    const { side, pieces } = classInstance(7, 60, 1);
    const parts = pieces.map((piece) => ({ ...piece, turns: QUARTERS }));
    const job = sawnJob([{ length: side, width: side }], parts, { stages });
    const layout = packUntilProved(job);
    expect(verifyLayout(job, layout).faults).toEqual([]);
    expect(layout.unplaced).toEqual([]);
  });
});

describe('what a saw cannot do', () => {
  it('is five pieces round a middle one, which a router lays on one sheet', () => {
    const parts = [
      { width: 60, height: 40 },
      { width: 40, height: 60 },
      { width: 60, height: 40 },
      { width: 40, height: 60 },
      { width: 20, height: 20 },
    ];
    const job = sawnJob([{ length: 100, width: 100 }], parts);
    expect(packUntilProved(job).sheets).toHaveLength(2);
    const routed = { ...job, machine: jobOf([], []).machine };
    expect(packUntilProved(routed).sheets).toHaveLength(1);
  });

  it('is to cut longer than it reaches', () => {
    const parts = [{ width: 90, height: 40, count: 4, turns: [0] }];
    const sheets = (changes: Parameters<typeof sawnJob>[2]) => {
      const job = sawnJob([{ length: 200, width: 100 }], parts, changes);
      const layout = packUntilProved(job);
      expect(verifyLayout(job, layout).faults).toEqual([]);
      return layout.unplaced.length > 0 ? 'none' : layout.sheets.length;
    };
    expect(sheets({})).toBe(1);
    // Strips across the sheet are short enough to be cut along it.
    expect(sheets({ longestRip: 100 })).toBe(1);
    expect(sheets({ longestRip: 100, firstCut: 'along' })).toBe('none');
    expect(sheets({ longestRip: 89, longestCrosscut: 100 })).toBe('none');
    expect(sheets({ longestCrosscut: 99 })).toBe(1);
    expect(sheets({ longestRip: 199, longestCrosscut: 99 })).toBe('none');
  });

  it('is to cross a keep-out where another cut does', () => {
    const box = { minX: 90, minY: 40, maxX: 110, maxY: 60 };
    const stock = { length: 200, width: 100, keepOuts: [{ box, why: 'screw' }] };
    const job = sawnJob([stock], [{ width: 88, height: 98, count: 2 }], { kerf: 2 });
    const layout = packUntilProved(job);
    expect(verifyLayout(job, layout).faults).toEqual([]);
    expect(layout.sheets).toHaveLength(1);
    for (const { axis, at } of layout.sheets[0]!.cuts)
      expect(axis === 'x' ? at + 2 <= 40 || at >= 60 : at + 2 <= 90 || at >= 110).toBe(true);
  });
});

describe('a strip with a keep-out on it', () => {
  const box = { minX: 0, minY: 0, maxX: 20, maxY: 20 };
  const stock = { length: 200, width: 100, keepOuts: [{ box, why: 'crushed corner' }] };
  const parts = [
    { width: 180, height: 20, turns: [0] },
    { width: 200, height: 80, turns: [0] },
  ];

  it.each([
    { stages: 2, firstCut: 'along', isRoom: true },
    // The strip across that is clear of it is too short for the larger piece.
    { stages: 2, firstCut: 'across', isRoom: false },
    { stages: null, firstCut: null, isRoom: true },
  ] as const)('is used beside it: $stages stages, $firstCut', ({ stages, firstCut, isRoom }) => {
    const job = sawnJob([{ ...stock, onHand: 1 }], parts, { stages, firstCut });
    const layout = packCounted(job, 12);
    expect(verifyLayout(job, layout).faults).toEqual([]);
    expect(layout.unplaced.length === 0).toBe(isRoom);
  });
});

describe('a longer search', () => {
  it('gives the same as a shorter one stopped early, or better', () => {
    const job = randomJob(seededRandom(7));
    const [early, late] = [1, 40].map((asks) => packCounted(job, asks));
    expect(late!.used).toBeLessThanOrEqual(early!.used);
    expect(late!.bound).toEqual(early!.bound);
  });
});

/** Some with a kerf, trims, keep-outs, stages, limits on cuts, grain and matched sets. */
function randomJob(random: Random, times = 1): SawnJob {
  const whole = (least: number, most: number) => least + Math.floor(random() * (most - least + 1));
  const stocks = Array.from({ length: whole(1, 2) }, (): StockSketch => {
    const [length, width] = [whole(300, 500), whole(200, 320)];
    const trim = random() < 0.5 ? whole(0, 12) : 0;
    const at = { minX: whole(0, length - 40), minY: whole(0, width - 40) };
    const box = { ...at, maxX: at.minX + whole(5, 40), maxY: at.minY + whole(5, 40) };
    return {
      length,
      width,
      trim: { left: trim, right: trim, bottom: trim, top: trim },
      grainAxis: random() < 0.5 ? 'x' : null,
      keepOuts: random() < 0.4 ? [{ box, why: 'knot' }] : [],
    };
  });
  const parts = Array.from({ length: whole(3, 10) }, (): PartSketch => {
    const isSet = random() < 0.2;
    return {
      width: whole(20, isSet ? 60 : 160),
      height: whole(20, isSet ? 60 : 120),
      count: whole(1, 4) * (isSet ? 1 : times),
      turns: random() < 0.5 ? QUARTERS : [0],
      grain: random() < 0.3 ? 'along' : 'any',
      ...(isSet ? { matched: random() < 0.5 ? ('x' as const) : ('y' as const) } : {}),
    };
  });
  return sawnJob(stocks, parts, {
    kerf: whole(0, 4),
    stages: ([2, 3, 4, null] as const)[whole(0, 3)]!,
    firstCut: ([null, 'along', 'across'] as const)[whole(0, 2)]!,
    longestRip: random() < 0.2 ? whole(200, 500) : null,
    longestCrosscut: random() < 0.2 ? whole(200, 320) : null,
    leastFeed: { width: 40, length: 80 },
  });
}

function drawnSize(random: Random): Size {
  return { w: 20 + Math.floor(random() * 41), h: 20 + Math.floor(random() * 41) };
}
