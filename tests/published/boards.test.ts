import { describe, expect, it } from 'vitest';
import { boardJob } from '../helpers/board-jobs.ts';
import { cut } from '../packing-boards/cut.ts';

interface Published {
  readonly name: string;
  readonly source: string;
  readonly length: number;
  /** Length and count. */
  readonly pieces: readonly (readonly [number, number])[];
  /** Value of the linear programme over all patterns; its next whole number is the bound. */
  readonly relaxed: number;
  readonly boards: number;
  /** Where published: the share of the boards that is waste, in per cent to the third decimal. */
  readonly wastePercent?: number;
}

const EXAMPLES: readonly Published[] = [
  {
    name: 'rolls of a paper machine',
    source:
      'A teaching example in use for decades; data read in a public encyclopedia under "cutting stock problem", the optimum and the waste from memory, reproduced with a solver for whole numbers',
    length: 5600,
    pieces: [
      [1380, 22],
      [1520, 25],
      [1560, 12],
      [1710, 14],
      [1820, 18],
      [1880, 18],
      [1930, 20],
      [2000, 10],
      [2050, 12],
      [2100, 14],
      [2140, 16],
      [2150, 18],
      [2200, 20],
    ],
    relaxed: 72.9167,
    boards: 73,
    wastePercent: 0.401,
  },
  {
    name: 'rolls of 100 inches',
    source: 'Chvátal 1983, "Linear Programming", chapter 13; optimum reproduced with a solver',
    length: 100,
    pieces: [
      [45, 97],
      [36, 610],
      [31, 395],
      [14, 211],
    ],
    relaxed: 452.25,
    boards: 453,
  },
  {
    name: 'four widths',
    source:
      'A lecture example, read in a public document: the linear programme gives 600.375; optimum reproduced with a solver',
    length: 20,
    pieces: [
      [9, 511],
      [8, 301],
      [7, 263],
      [6, 383],
    ],
    relaxed: 600.375,
    boards: 601,
  },
  {
    name: 'an exercise on rolls of cellulose',
    source:
      'An exercise, read in a public document: the linear programme gives 76.25; optimum reproduced with a solver',
    length: 100,
    pieces: [
      [60, 30],
      [48, 50],
      [36, 25],
      [24, 90],
    ],
    relaxed: 76.25,
    boards: 77,
  },
];

describe('published cutting of lengths', () => {
  it.each(EXAMPLES)('$name: $boards', async ({ length, pieces, relaxed, boards, wastePercent }) => {
    const job = boardJob({ boards: [{ length }], lengths: pieces });
    const layout = await cut(job);
    expect(layout.used).toBe(boards);
    expect(layout.status).toBe('proved');
    expect(layout.bound).toEqual({
      atLeast: Math.ceil(relaxed),
      provedBy: 'linear programme',
    });
    if (wastePercent === undefined) return;
    const used = pieces.reduce((sum, [size, count]) => sum + size * count, 0);
    expect(100 * (1 - used / (boards * length))).toBeCloseTo(wastePercent, 3);
  });
});
