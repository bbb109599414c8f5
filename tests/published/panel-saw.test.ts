import { describe, expect, it } from 'vitest';
import { verifyLayout } from '../../src/verify/verify.ts';
import { packCounted } from '../packing/counted-pack.ts';
import { sawnJob } from '../packing-panelsaw/saws.ts';

interface Plate {
  readonly length: number;
  readonly width: number;
}

/** Length, width, most of it, value. */
type Item = readonly [length: number, width: number, most: number, value: number];

/** How many of each item; whether one plate takes them all, cut from edge to edge and without turning any. */
function fits(plate: Plate, items: readonly Item[], counts: readonly number[]): boolean {
  const parts = items.flatMap(([width, height], i) =>
    counts[i] === 0 ? [] : [{ width, height, count: counts[i]!, turns: [0] }],
  );
  const job = sawnJob([plate], parts);
  const layout = packCounted(job, 12);
  expect(verifyLayout(job, layout).faults).toEqual([]);
  return layout.sheets.length === 1 && layout.unplaced.length === 0;
}

function choices(items: readonly Item[]): readonly (readonly number[])[] {
  return items.reduce<readonly (readonly number[])[]>(
    (all, [, , most]) =>
      all.flatMap((counts) => Array.from({ length: most + 1 }, (_, n) => [...counts, n])),
    [[]],
  );
}

const sum = (values: readonly number[]) => values.reduce((all, value) => all + value, 0);

describe('values of one plate', () => {
  it('are those of the first instance of Christofides and Whitlock: 244 at most', () => {
    // Christofides & Whitlock 1977, "An algorithm for two-dimensional cutting problems", Operations Research 25, 30-44: optimum with limits 244, without turning.
    // Optimum from a public list; the items from memory, with both optima (244, and 249 without limits) reproduced by trying everything.
    const items: readonly Item[] = [
      [8, 4, 2, 66],
      [3, 7, 1, 35],
      [8, 2, 3, 24],
      [3, 4, 5, 17],
      [3, 3, 2, 11],
      [3, 2, 2, 8],
      [2, 1, 1, 2],
    ];
    const plate = { length: 15, width: 10 };
    const worthOf = (counts: readonly number[]) => sum(counts.map((n, i) => n * items[i]![3]));
    const areaOf = (counts: readonly number[]) =>
      sum(counts.map((n, i) => n * items[i]![0] * items[i]![1]));
    const likely = choices(items).filter((counts) => areaOf(counts) <= 150);
    const best = likely.filter((counts) => worthOf(counts) === 244);
    const better = likely.filter((counts) => worthOf(counts) > 244);
    expect([best.length, better.length]).toEqual([7, 89]);
    expect(best.some((counts) => fits(plate, items, counts))).toBe(true);
    expect(better.filter((counts) => fits(plate, items, counts))).toEqual([]);
  });

  it.each([
    { plate: { length: 127, width: 98 }, counts: [3, 0, 6, 10, 1], area: 12_348 },
    { plate: { length: 98, width: 127 }, counts: [0, 4, 10, 2, 5], area: 11_946 },
  ])("are those of Herz's example: $area", ({ plate, counts, area }) => {
    // Herz 1972, "A recursive computing procedure for two-dimensional stock cutting", IBM Journal of Research and Development 16, 462-469: 12348 of 127 x 98.
    // Optimum from a public list; the items from memory; the counts are those of the dynamic programme over all cuts, which gives the same optimum.
    const items: readonly Item[] = [
      [18, 65, 9, 1170],
      [24, 27, 9, 648],
      [21, 13, 10, 273],
      [36, 17, 10, 612],
      [54, 20, 9, 1080],
    ];
    expect(sum(counts.map((n, i) => n * items[i]![3]))).toBe(area);
    expect(fits(plate, items, counts)).toBe(true);
    // Turned by a quarter the plate takes another choice.
    expect(fits({ length: plate.width, width: plate.length }, items, counts)).toBe(false);
  });
});
