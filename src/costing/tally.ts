// Measures boards in board feet by the rules of the trade.
// Idea: a board foot is a foot by a foot by an inch. Hardwood is measured by its surface: length in whole feet, what is over is given away, times the
//   actual width, rounded to whole square feet, times the thickness; the sum of a bundle is rounded once more. Softwood is measured by nominal sizes, to a
//   hundredth of a board foot.
// Source: United States Navy training manual Engineering Aid Basic, chapter 6, for the board foot and for stock under an inch, which counts as an inch;
//   the grading rules of American hardwood for surface measure.
// Where we differ: rule books let exact halves of surface measure go up and down by turns; the first of a bundle goes up here.
// Cost: linear in the boards.
// Degenerate cases: a hardwood board under a foot measures nothing.
import type { TallyRule } from '../model/lumber.ts';
import { UNITS_PER_INCH } from '../model/units.ts';

/** In base lengths. */
export interface SawnBoard {
  readonly thickness: number;
  readonly width: number;
  readonly length: number;
}

const INCHES_PER_FOOT = 12;
const UNITS_PER_FOOT = INCHES_PER_FOOT * UNITS_PER_INCH;

/** What the boards measure together. */
export function tallyBoardFeet(boards: readonly SawnBoard[], rule: TallyRule): number {
  if (rule === 'softwood') return sum(boards.map((board) => roundHundredth(boardFeet(board))));
  return Math.round(hardwoodBoardFeet(boards));
}

/** Thickness in inches times width in inches times length in feet over 12, exactly as measured; under an inch of thickness counts as an inch. */
export function boardFeet({ thickness, width, length }: SawnBoard): number {
  return paidInches(thickness) * (width / UNITS_PER_FOOT) * (length / UNITS_PER_FOOT);
}

/** Before the sum of the bundle is rounded. */
export function hardwoodBoardFeet(boards: readonly SawnBoard[]): number {
  const measures = surfaceMeasures(boards);
  return sum(boards.map(({ thickness }, i) => measures[i]! * paidInches(thickness)));
}

/** Surface of each board in whole square feet. */
export function surfaceMeasures(boards: readonly SawnBoard[]): readonly number[] {
  let halves = 0;
  return boards.map(({ width, length }) => {
    const twice = (2 * Math.floor(length / UNITS_PER_FOOT) * width) / UNITS_PER_FOOT;
    const isHalf = Number.isInteger(twice) && twice % 2 === 1;
    if (!isHalf) return Math.round(twice / 2);
    halves += 1;
    return halves % 2 === 1 ? (twice + 1) / 2 : (twice - 1) / 2;
  });
}

function paidInches(thickness: number): number {
  return Math.max(1, thickness / UNITS_PER_INCH);
}

function roundHundredth(feet: number): number {
  return Math.round(feet * 100) / 100;
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
