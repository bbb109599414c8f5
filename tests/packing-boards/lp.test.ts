import { beforeAll, describe, expect, it } from 'vitest';
import { loadSolver, type Solver } from '../../src/packing/boards/lp.ts';

let solver: Solver;

beforeAll(async () => {
  solver = (await loadSolver())!;
});

/** Two rows to fill; a column for each of three patterns. */
const ROWS = [
  { lower: 5, upper: Number.POSITIVE_INFINITY },
  { lower: 4, upper: Number.POSITIVE_INFINITY },
];
const COLUMNS = [
  { cost: 1, rows: [0], values: [2] },
  { cost: 1, rows: [1], values: [3] },
  { cost: 1, rows: [0, 1], values: [1, 1] },
];

describe('a linear programme', () => {
  it('has its least value, with worths that add up to it', () => {
    const programme = solver.programme(ROWS);
    programme.add(COLUMNS.slice(0, 2));
    // 5 / 2 and 4 / 3 by hand; a row is worth what one more of it costs.
    const apart = programme.minimise()!;
    expect(apart.value).toBeCloseTo(5 / 2 + 4 / 3, 9);
    expect([...apart.columns].map((each) => each.toFixed(6))).toEqual(['2.500000', '1.333333']);
    expect([...apart.duals].map((each) => each.toFixed(6))).toEqual(['0.500000', '0.333333']);
    // The third gives 5 / 6 for 1: no gain, and none with a row less.
    programme.add(COLUMNS.slice(2));
    expect(programme.minimise()!.value).toBeCloseTo(5 / 2 + 4 / 3, 9);
    programme.setRow(1, { lower: 0, upper: Number.POSITIVE_INFINITY });
    expect(programme.minimise()!.value).toBeCloseTo(5 / 2, 9);
    programme.close();
  });

  it('is null where nothing fulfils it', () => {
    const programme = solver.programme(ROWS);
    programme.add(COLUMNS.slice(0, 1));
    expect(programme.minimise()).toBe(null);
    programme.close();
  });

  it('has its best whole numbers', () => {
    const question = { rows: ROWS, columns: COLUMNS, below: 5, mostNodes: 1000 };
    // Not below the least value of 23 / 6, so four.
    const whole = solver.wholeNumbers(question)!;
    const filled = ROWS.map((_, row) =>
      COLUMNS.reduce(
        (sum, { rows, values }, k) => sum + whole[k]! * (values[rows.indexOf(row)] ?? 0),
        0,
      ),
    );
    expect(whole.reduce((sum, each) => sum + each, 0)).toBe(4);
    expect(filled.map((amount, row) => amount >= ROWS[row]!.lower)).toEqual([true, true]);
  });
});
