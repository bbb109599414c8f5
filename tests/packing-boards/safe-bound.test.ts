import { describe, expect, it } from 'vitest';
import { boardTask } from '../../src/packing/boards/board-task.ts';
import { safeBound } from '../../src/packing/boards/safe-bound.ts';
import { boardJob } from '../helpers/board-jobs.ts';

/** Worths and what each board holds at most of them, beside the bound that follows. */
const CASES = [
  { what: 'a whole quotient is not raised', boards: [{}], worths: [3], richest: [6], bound: 5 },
  { what: 'a part of a board counts whole', boards: [{}], worths: [3], richest: [7], bound: 5 },
  {
    what: 'a board that holds more bounds less',
    boards: [{}],
    worths: [3],
    richest: [31],
    bound: 1,
  },
  { what: 'no worth', boards: [{}], worths: [0], richest: [0], bound: 0 },
  {
    what: 'the better ratio of two prices holds',
    boards: [{ priceCents: 500 }, { priceCents: 900 }],
    worths: [10],
    richest: [20, 30],
    bound: 2500,
  },
  {
    what: 'a board for nothing, as many as need be',
    boards: [{ priceCents: 0 }, { priceCents: 900 }],
    worths: [10],
    richest: [20, 30],
    bound: 0,
  },
  {
    what: 'two boards for nothing, and the rest at a price',
    boards: [{ priceCents: 0, onHand: 2 }, { priceCents: 900 }],
    worths: [10],
    richest: [20, 30],
    bound: 1800,
  },
  {
    what: 'worths too large for exact products of doubles',
    boards: [{}],
    worths: [2 ** 40 + 1],
    richest: [2 ** 41 + 1],
    bound: 6,
  },
];

describe('safeBound', () => {
  it.each(CASES)('$what', ({ boards, worths, richest, bound }) => {
    const made = boards.map((board) => ({ length: 100, ...board }));
    const task = boardTask(boardJob({ boards: made, lengths: [[10, 10]] }), 0);
    expect(safeBound(task, { worths: Float64Array.from(worths), richest })).toBe(bound);
  });
});
