import { describe, expect, it } from 'vitest';
import { packingTask } from '../../src/packing/bodies.ts';
import { areaBound } from '../../src/packing/bounds/area.ts';
import { newCovering } from '../../src/packing/bounds/covering.ts';
import { dualFeasibleBound } from '../../src/packing/bounds/dual-feasible.ts';
import { newSheetTest } from '../../src/packing/bounds/one-sheet.ts';
import { proveFurther } from '../../src/packing/bounds/prove-further.ts';
import { richerSheet } from '../../src/packing/bounds/richest-sheet.ts';
import { WHOLE } from '../../src/packing/bounds/sheet-relaxation.ts';
import { type Random, seededRandom } from '../../src/packing/random.ts';
import { WorkBudget } from '../../src/packing/work.ts';
import { classInstance } from './class-instances.ts';
import { jobOf, type PartSketch, QUARTERS, type StockSketch } from './jobs.ts';
import { scatteredSheets } from './scattered-sheets.ts';

const WORK = 3e6;

interface Size {
  readonly width: number;
  readonly height: number;
}

describe('newSheetTest', () => {
  const SEEDS = Array.from({ length: 40 }, (_, k) => k + 1);

  /** Boxes grown in width only change their area by turning. */
  it.each([
    [false, 0],
    [true, 0],
    [true, 2],
  ])('agrees with trying every place, turned: %s, grown by %i', (mayTurn, growth) => {
    const answers = { yes: 0, no: 0 };
    for (const seed of SEEDS) {
      const random = seededRandom(seed);
      for (let k = 0; k < 20; k++) {
        const sheet = grown({ width: 5 + draw(random, 3), height: 5 + draw(random, 3) }, growth);
        const kinds = Array.from({ length: 3 + draw(random, 2) }, () => ({
          width: 1 + draw(random, 5),
          height: 1 + draw(random, 4),
        }));
        const choices = kinds.map((size) => ({
          boxes: (mayTurn ? bothWays(size) : [size]).map((box) => grown(box, growth)),
        }));
        // Some kinds twice, so that twins are met.
        const chosen = [...kinds.keys(), ...(random() < 0.5 ? [0] : [kinds.length - 1])];
        const known = fitsAnywhere(
          chosen.map((kind) => choices[kind]!.boxes),
          sheet,
        );
        expect(newSheetTest(choices, sheet).fits(chosen, 1e6), `${seed} ${k}`).toBe(known);
        answers[known ? 'yes' : 'no']++;
      }
    }
    expect(Math.min(answers.yes, answers.no)).toBeGreaterThan(100);
  });

  it('finds a sheet that was cut up without waste, and no room for one piece more', () => {
    for (const seed of SEEDS) {
      const sheet = { width: 97, height: 61 };
      const pieces = cutUp(sheet, seededRandom(seed), 3).slice(0, 9);
      const choices = [...pieces, { width: 1, height: 1 }].map((size) => ({ boxes: [size] }));
      const test = newSheetTest(choices, sheet);
      const all = [...pieces.keys()];
      expect(test.fits(all, 1e6)).toBe(true);
      expect(test.fits([...all, all.length], 1e6)).toBe(false);
    }
  });

  it('says that it does not know when the steps run out', () => {
    const choices = [{ boxes: [{ width: 34, height: 33 }] }];
    const test = newSheetTest(choices, { width: 100, height: 100 });
    expect(test.fits([0, 0, 0, 0, 0, 0, 0], 3)).toBe(null);
    expect(test.fits([0, 0, 0, 0, 0, 0, 0], 1e5)).toBe(false);
  });
});

describe('newCovering', () => {
  it('finds the worths of the best fractional cover', () => {
    const covering = newCovering([1, 1, 1]);
    for (const pair of [
      [0, 1],
      [1, 2],
      [0, 2],
    ])
      covering.add(pair);
    expect(covering.solve(() => true)).toBe(true);
    for (const worth of covering.worths) expect(worth).toBeCloseTo(0.5, 5);
  });
});

describe('richerSheet', () => {
  it('counts what weighs nothing, however little that is worth', () => {
    const heavy = { worth: 4 * WHOLE, weight: WHOLE / 2 };
    const relaxation = {
      counts: Int32Array.of(3, 1),
      weights: [Float64Array.of(heavy.weight, 0)],
      conflicts: new Uint8Array(4),
      mayFit: () => true,
      stillMayFit: () => true,
    };
    const richest = (most: number) =>
      richerSheet(relaxation, Float64Array.of(heavy.worth, 1), most, new WorkBudget(WORK));
    expect(richest(2 * heavy.worth)?.length).toBe(3);
    expect(richest(2 * heavy.worth + 1)).toBe(null);
  });
});

interface Case {
  readonly name: string;
  readonly stock: StockSketch;
  readonly second?: StockSketch;
  readonly parts: readonly PartSketch[];
  readonly spacing?: number;
  readonly atLeast: number;
  readonly further: number;
}

const STILL = { turns: [0] };

const CASES: readonly Case[] = [
  {
    name: 'three that go together in pairs only',
    stock: { length: 100, width: 100 },
    parts: [
      { width: 70, height: 30, count: 3, ...STILL },
      { width: 30, height: 70, count: 2, ...STILL },
      { width: 45, height: 45, ...STILL },
    ],
    atLeast: 1,
    further: 2,
  },
  {
    name: 'two sheets at once',
    stock: { length: 100, width: 100 },
    parts: [{ width: 51, height: 51, count: 3 }],
    atLeast: 1,
    further: 3,
  },
  {
    name: 'several stocks: left as it was',
    stock: { length: 100, width: 100 },
    second: { length: 100, width: 90 },
    parts: [{ width: 51, height: 51, count: 3 }],
    atLeast: 1,
    further: 1,
  },
  {
    name: 'nothing that can be shown: they fit',
    stock: { length: 100, width: 100 },
    parts: [{ width: 50, height: 50, count: 4 }],
    atLeast: 1,
    further: 1,
  },
  {
    name: 'two pieces that clear one another only cornerwise',
    stock: { length: 100, width: 100 },
    parts: [{ width: 46, height: 46, count: 2, ...STILL }],
    spacing: 11,
    atLeast: 1,
    further: 1,
  },
  {
    name: 'strips with spacing that fill three sheets, some of them turned',
    stock: { length: 60, width: 60 },
    parts: [
      { width: 20, height: 60, ...STILL },
      { width: 20, height: 60 },
      { width: 10, height: 60 },
      { width: 60, height: 30, ...STILL },
      { width: 60, height: 10, turns: [90] },
      { width: 30, height: 60, ...STILL },
    ],
    spacing: 20,
    atLeast: 1,
    further: 3,
  },
];

describe('proveFurther', () => {
  it.each(CASES)('$name', ({ stock, second, parts, spacing, atLeast, further }) => {
    const stocks = second ? [stock, second] : [stock];
    const task = packingTask(jobOf(stocks, parts, spacing), 0);
    expect(proveFurther(task, 10_000, atLeast, new WorkBudget(WORK))).toBe(further);
    expect(proveFurther(task, atLeast, atLeast, new WorkBudget(WORK))).toBe(atLeast);
  });

  /** Instances where layouts of as many sheets are known, so that these are proved. */
  it.each([
    [1, 40, 3, false, 17],
    [3, 20, 3, false, 6],
    [3, 20, 6, false, 7],
    [5, 20, 2, false, 5],
    [8, 20, 7, false, 5],
    [8, 20, 1, true, 6],
  ] as const)(
    'class %i, %i pieces, number %i, turned %s: %i',
    (group, size, number, mayTurn, sheets) => {
      const { side, pieces } = classInstance(group, size, number);
      for (const by of [1, 3]) {
        const parts = pieces.map(({ width, height }) => ({
          width: by * width,
          height: by * height,
          turns: mayTurn ? QUARTERS : [0],
        }));
        const task = packingTask(jobOf([{ length: by * side, width: by * side }], parts), 0);
        const atLeast = Math.max(areaBound(task), dualFeasibleBound(task));
        expect(atLeast).toBe(sheets - 1);
        expect(proveFurther(task, sheets + 1, atLeast, new WorkBudget(4 * WORK))).toBe(sheets);
        expect(proveFurther(task, sheets + 1, atLeast, new WorkBudget(100))).toBe(atLeast);
      }
    },
  );

  it('never passes what is known to do', () => {
    const wrong = Array.from({ length: 60 }, (_, k) => k + 1).filter((seed) => {
      const { stock, spacing, sheets, parts } = scatteredSheets(seed);
      const task = packingTask(jobOf([stock], parts, spacing), 0);
      return proveFurther(task, sheets + 1, 1, new WorkBudget(WORK)) > sheets;
    });
    expect(wrong).toEqual([]);
  });

  it.each([false, true])('never passes sheets cut up without waste, turned: %s', (mayTurn) => {
    for (let seed = 1; seed <= 30; seed++) {
      const random = seededRandom(seed);
      const sheet = { width: 90 + draw(random, 40), height: 90 };
      const sheets = 1 + draw(random, 3);
      const pieces = Array.from({ length: sheets }, () => cutUp(sheet, random, 2)).flat();
      const parts = pieces.map((size) => ({ ...size, turns: mayTurn ? QUARTERS : [0] }));
      const task = packingTask(jobOf([{ length: sheet.width, width: sheet.height }], parts), 0);
      expect(proveFurther(task, sheets + 1, 1, new WorkBudget(WORK))).toBeLessThanOrEqual(sheets);
    }
  });
});

function draw(random: Random, below: number): number {
  return Math.floor(below * random());
}

function bothWays({ width, height }: Size): Size[] {
  const turned = { width: height, height: width };
  return width === height ? [turned] : [{ width, height }, turned];
}

function grown({ width, height }: Size, growth: number): Size {
  return { width: width + growth, height };
}

/** Every box at every whole place. */
function fitsAnywhere(
  boxes: readonly (readonly Size[])[],
  sheet: Size,
  placed: readonly (Size & { x: number; y: number })[] = [],
): boolean {
  const [first, ...rest] = boxes;
  if (first === undefined) return true;
  return first.some(({ width, height }) => {
    for (let x = 0; x + width <= sheet.width; x++) {
      for (let y = 0; y + height <= sheet.height; y++) {
        const free = placed.every(
          (other) =>
            x >= other.x + other.width ||
            other.x >= x + width ||
            y >= other.y + other.height ||
            other.y >= y + height,
        );
        if (free && fitsAnywhere(rest, sheet, [...placed, { x, y, width, height }])) return true;
      }
    }
    return false;
  });
}

/** Cut in two across the longer side, `depth` times over. */
function cutUp(size: Size, random: Random, depth: number): Size[] {
  if (depth === 0) return [size];
  const side = size.width >= size.height ? 'width' : 'height';
  const first = 1 + Math.floor((size[side] - 1) * (0.25 + 0.5 * random()));
  return [first, size[side] - first].flatMap((part) =>
    cutUp({ ...size, [side]: part }, random, depth - 1),
  );
}
