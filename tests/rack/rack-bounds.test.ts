import { describe, expect, it } from 'vitest';
import { packingTask } from '../../src/packing/bodies.ts';
import { areaBound } from '../../src/packing/bounds/area.ts';
import { dualFeasibleBound } from '../../src/packing/bounds/dual-feasible.ts';
import { type Random, seededRandom } from '../../src/packing/random.ts';
import { jobOf, type PartSketch, QUARTERS, type StockSketch } from '../packing/jobs.ts';

interface Size {
  readonly width: number;
  readonly height: number;
}

describe('the bounds with a rack', () => {
  it.each<[string, readonly Size[], readonly PartSketch[], number]>([
    [
      'one piece of four on each offcut',
      [size(60, 60), size(60, 60)],
      [{ ...size(50, 50), count: 10 }],
      2,
    ],
    [
      'nothing on what is too narrow',
      [size(49, 90), size(90, 49)],
      [{ ...size(50, 50), count: 5 }],
      2,
    ],
    [
      'all of it where pieces fill it',
      [size(60, 60)],
      [{ ...size(30, 30), count: 4 }, size(100, 100)],
      1,
    ],
  ])('count %s', (_, offcuts, parts, atLeast) => {
    const task = packingTask(jobOf([SHEET, ...offcuts.map(offcut)], parts), 0);
    expect(areaBound(task)).toBe(atLeast);
  });

  it.each([0, 3])('never pass a layout that is known, with a spacing of %i', (spacing) => {
    const random = seededRandom(17 + spacing);
    let reached = 0;
    for (let n = 0; n < 120; n++) {
      const bought = 1 + Math.floor(random() * 2);
      const offcuts = Array.from({ length: Math.floor(random() * 5) }, () =>
        size(20 + Math.floor(random() * 70), 20 + Math.floor(random() * 70)),
      );
      const sheets = [...Array.from({ length: bought }, () => size(100, 100)), ...offcuts];
      const turns = random() < 0.5 ? QUARTERS : [0];
      const parts = sheets
        .flatMap((sheet) => pieces(sheet, spacing, random))
        .map((part) => ({ ...part, turns }));
      const task = packingTask(jobOf([SHEET, ...offcuts.map(offcut)], parts, spacing), 0);
      const bound = Math.max(areaBound(task), dualFeasibleBound(task));
      expect(bound).toBeLessThanOrEqual(bought);
      if (bound === bought) reached++;
    }
    expect(reached).toBeGreaterThan(40);
  });
});

const SHEET: StockSketch = { length: 100, width: 100 };

function size(width: number, height: number): Size {
  return { width, height };
}

function offcut({ width, height }: Size, i: number): StockSketch {
  return { length: width, width: height, rack: `R${i + 1}`, onHand: 1, priceCents: 0 };
}

/** Cuts a sheet up from edge to edge, the spacing between the pieces. */
function pieces({ width, height }: Size, spacing: number, random: Random): readonly Size[] {
  const across = random() < width / (width + height);
  const length = across ? width : height;
  if (length < 30 + spacing || random() < 0.2) return [size(width, height)];
  const first = 10 + Math.floor(random() * (length - 20 - spacing));
  const second = length - spacing - first;
  const parts = across
    ? [size(first, height), size(second, height)]
    : [size(width, first), size(width, second)];
  return parts.flatMap((part) => pieces(part, spacing, random));
}
