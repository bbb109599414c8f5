import { describe, expect, it } from 'vitest';
import { packingTask } from '../../src/packing/bodies.ts';
import { COLUMN, type Direction, ROW } from '../../src/packing/panelsaw/direction.ts';
import { seededRandom } from '../../src/packing/random.ts';
import { type BoxTask, boxTask, NO_BOX } from '../../src/packing/rectangles/box-task.ts';
import { kindOf } from '../../src/packing/rectangles/code.ts';
import { FREE_CUTS } from '../../src/packing/rectangles/free-cuts.ts';
import { NONE_LEFT } from '../../src/packing/rectangles/rules.ts';
import { StripPatterns } from '../../src/packing/rectangles/strip-pattern.ts';
import { packCounted } from './counted-pack.ts';
import { jobOf, QUARTERS } from './jobs.ts';
import { faultsOf } from './legal.ts';

const SEEDS = Array.from({ length: 40 }, (_, k) => k + 1);
const MANY = 1000;

describe.each([
  ['one above the other', COLUMN],
  ['side by side', ROW],
] as const)('strips %s', (_, direction) => {
  it('are worth as much as the best of all strips of up to 40 boxes', () => {
    for (const seed of SEEDS) {
      const { task, worths } = randomTask(seed, MANY);
      const { worth } = new StripPatterns(task.stocks[0]!).richest(
        direction,
        worths,
        countsOf(task),
      );
      expect(worth).toBeCloseTo(richestByTrying(task, direction, worths), 9);
    }
  });

  it('take no more boxes than there are, and are worth what lies on them', () => {
    for (const seed of SEEDS) {
      const { task, worths } = randomTask(seed, 3);
      const counts = countsOf(task);
      const { codes, worth } = new StripPatterns(task.stocks[0]!).richest(
        direction,
        worths,
        counts,
      );
      for (const code of codes) counts[kindOf(code)]! -= 1;
      expect(Math.min(...counts)).toBeGreaterThanOrEqual(0);
      expect(codes.reduce((sum, code) => sum + worths[kindOf(code)]!, 0)).toBeCloseTo(worth, 9);
    }
  });

  it('are laid out again whole by their rule, also where sizes have no common measure', () => {
    for (const scale of [1, 997, 40_009]) {
      for (const seed of SEEDS) {
        const { task, worths } = randomTask(seed, 5, scale);
        const stock = task.stocks[0]!;
        const { codes } = new StripPatterns(stock).richest(direction, worths, countsOf(task));
        const { decoder } = FREE_CUTS.toolsFor(task);
        const rule = FREE_CUTS.stripRules[direction];
        const order = Int32Array.from(codes);
        expect(decoder.decode(stock, order, order.length, rule, NONE_LEFT)).toBe(true);
      }
    }
  });
});

describe('a job of many copies', () => {
  // Sheets cut up into strips without any waste: no layout can have fewer.
  it.each([1, 2, 3, 4, 5, 6])('number %i needs hardly more sheets than it was cut from', (seed) => {
    const { sheets, pieces } = plantedStrips(seed);
    const job = jobOf([{ length: 2440, width: 1220 }], pieces);
    const layout = packCounted(job);
    const { used, bound } = layout;
    expect(faultsOf(job, layout)).toEqual([]);
    expect(bound.atLeast).toBe(sheets);
    expect(used - sheets).toBeLessThanOrEqual(Math.ceil(0.02 * sheets));
  });
});

/** Up to four kinds on a sheet of a few units, some of which may be turned. Scaled up the last unit of a size is drawn anew. */
function randomTask(seed: number, count: number, scale = 1) {
  const random = seededRandom(seed);
  const whole = (least: number, most: number) => least + Math.floor(random() * (most - least + 1));
  const size = (least: number, most: number) =>
    Math.max(1, scale * whole(least, most) - (scale > 1 ? whole(0, scale - 1) : 0));
  const sheet = { length: size(8, 14), width: size(6, 12) };
  const parts = Array.from({ length: whole(1, 4) }, () => ({
    width: size(2, 8),
    height: size(2, 8),
    count,
    turns: random() < 0.5 ? QUARTERS : [0],
  }));
  const task = boxTask(packingTask(jobOf([sheet], parts), 0));
  return { task, worths: task.area.map((area) => (area / scale ** 2) * (0.5 + random())) };
}

function countsOf({ bodies }: BoxTask): Int32Array {
  return Int32Array.from(bodies, (own) => own.length);
}

/** The richest pattern of unlimited copies, by trying all strips and all piles of them. */
function richestByTrying(task: BoxTask, direction: Direction, worths: Float64Array): number {
  const stock = task.stocks[0]!;
  const isUpwards = direction === COLUMN;
  const boxes = [...stock.boxWidth.keys()]
    .filter((box) => stock.boxWidth[box] !== NO_BOX)
    .map((box) => {
      const sides = [stock.boxWidth[box]!, stock.boxHeight[box]!] as const;
      const [along, across] = isUpwards ? sides : [sides[1], sides[0]];
      return { along, across, worth: worths[box >> 1]! };
    });
  const strip = (length: number, height: number): number =>
    boxes
      .filter(({ along, across }) => along <= length && across <= height)
      .reduce((most, { along, worth }) => Math.max(most, worth + strip(length - along, height)), 0);
  const [length, width] = isUpwards ? [stock.width, stock.height] : [stock.height, stock.width];
  const strips = [...new Set(boxes.map(({ across }) => across))].map((height) => ({
    height,
    worth: strip(length, height),
  }));
  const pile = (height: number): number =>
    strips
      .filter((each) => each.height <= height)
      .reduce((most, each) => Math.max(most, each.worth + pile(height - each.height)), 0);
  return pile(width);
}

/** Three sheets of 2440 x 1220, each cut into strips and these into pieces, ten to thirty times each. */
function plantedStrips(seed: number) {
  const random = seededRandom(seed);
  const whole = (least: number, most: number) => least + Math.floor(random() * (most - least + 1));
  const parted = (side: number, least: number): number[] => {
    if (side < 2 * least) return [side];
    const first = whole(least, side - least);
    return [first, ...parted(side - first, least)];
  };
  const plans = Array.from({ length: 3 }, () => {
    const times = whole(10, 30);
    const pieces = parted(1220, 300).flatMap((height) =>
      parted(2440, 400).map((width) => ({ width, height, count: times })),
    );
    return { times, pieces };
  });
  return {
    sheets: plans.reduce((sum, { times }) => sum + times, 0),
    pieces: plans.flatMap(({ pieces }) => pieces),
  };
}
