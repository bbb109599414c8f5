/**
 * Bounded least squares for a handful of unknowns.
 *
 * Each step solves the linearised problem with a damping on the diagonal; a step that does not lessen the sum of
 * squares is taken back and tried again with ten times the damping. Unknowns stay within their bounds by being cut off
 * there; one that stands at a bound and would go beyond has no part in the step, or the others would stop short of their
 * best. Derivatives are differences to both sides.
 * Source: Marquardt 1963, "An algorithm for least-squares estimation of nonlinear parameters", J. SIAM 11(2).
 * Cost: at most a hundred steps of 2 n + 1 evaluations or fewer; meant for one to three unknowns and some dozens of readings.
 * Degenerate: an unknown that no residual depends on keeps its start and has an endless spread.
 */

export interface Unknown {
  readonly start: number;
  readonly min: number;
  readonly max: number;
}

export interface Fit {
  readonly values: readonly number[];
  readonly residuals: readonly number[];
  /** By how much each value is off, as a standard deviation, where all residuals are off by 1; endless where they do not tell. */
  readonly spreads: readonly number[];
}

type Residuals = (values: readonly number[]) => readonly number[];

export function fitLeastSquares(unknowns: readonly Unknown[], residualsAt: Residuals): Fit {
  let values: readonly number[] = unknowns.map(({ start }) => start);
  let residuals = residualsAt(values);
  let jacobian = jacobianAt(values, residualsAt);
  let damping = 1e-3;
  for (let step = 0; step < STEPS && damping < WORST_DAMPING; step++) {
    const next = stepFrom(unknowns, values, residuals, jacobian, damping);
    const after = residualsAt(next);
    if (sumOfSquares(after) < sumOfSquares(residuals)) {
      [values, residuals] = [next, after];
      jacobian = jacobianAt(values, residualsAt);
      damping /= 10;
    } else damping *= 10;
  }
  return { values, residuals, spreads: spreadsOf(jacobian) };
}

export function sumOfSquares(numbers: readonly number[]): number {
  return numbers.reduce((sum, number) => sum + number * number, 0);
}

const STEPS = 100;

/** Steps so short that they change the values no more. */
const WORST_DAMPING = 1e9;

const NUDGE = 1e-4;

/** Below this share of its diagonal a pivot is taken for nothing. */
const FLAT = 1e-9;

/** A row for each unknown: how all residuals change with it. */
function jacobianAt(values: readonly number[], residualsAt: Residuals): readonly number[][] {
  return values.map((_, i) => {
    const nudged = (by: number) =>
      residualsAt(values.map((value, j) => (i === j ? value + by : value)));
    const [above, below] = [nudged(NUDGE), nudged(-NUDGE)];
    return above.map((residual, k) => (residual - below[k]!) / (2 * NUDGE));
  });
}

function stepFrom(
  unknowns: readonly Unknown[],
  values: readonly number[],
  residuals: readonly number[],
  jacobian: readonly number[][],
  damping: number,
): readonly number[] {
  const normal = normalOf(jacobian);
  const slope = jacobian.map((row) => -dot(row, residuals));
  const damped = normal.map((row, i) =>
    row.map((entry, j) => (i === j ? entry * (1 + damping) + TINY : entry)),
  );
  const isStuck = (i: number, by: number) => {
    const { min, max } = unknowns[i]!;
    return (by < 0 && values[i]! <= min) || (by > 0 && values[i]! >= max);
  };
  const free = values.map((_, i) => i);
  for (;;) {
    const found = solve(
      free.map((i) => free.map((j) => damped[i]![j]!)),
      free.map((i) => slope[i]!),
    );
    const step = free.map((i, k) => ({ i, by: found?.[k] ?? 0 }));
    const stuck = step.findIndex(({ i, by }) => isStuck(i, by));
    if (stuck < 0) return stepped(unknowns, values, step);
    free.splice(stuck, 1);
  }
}

function stepped(
  unknowns: readonly Unknown[],
  values: readonly number[],
  step: readonly { readonly i: number; readonly by: number }[],
): readonly number[] {
  const next = [...values];
  for (const { i, by } of step) {
    const { min, max } = unknowns[i]!;
    next[i] = Math.min(max, Math.max(min, values[i]! + by));
  }
  return next;
}

const TINY = 1e-12;

function spreadsOf(jacobian: readonly number[][]): readonly number[] {
  const normal = normalOf(jacobian);
  return normal.map((_, i) => {
    const unit = normal.map((_, j) => (i === j ? 1 : 0));
    const column = solve(normal, unit);
    return column === null ? Number.POSITIVE_INFINITY : Math.sqrt(Math.max(0, column[i]!));
  });
}

function normalOf(jacobian: readonly number[][]): number[][] {
  return jacobian.map((a) => jacobian.map((b) => dot(a, b)));
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, each, i) => sum + each * b[i]!, 0);
}

/** Elimination without exchanges, which a matrix of products of rows needs none of; null where it is singular. */
function solve(matrix: readonly number[][], right: readonly number[]): number[] | null {
  const rows = matrix.map((row, i) => [...row, right[i]!]);
  const size = rows.length;
  for (let i = 0; i < size; i++) {
    const pivotRow = rows[i]!;
    if (pivotRow[i]! <= FLAT * matrix[i]![i]!) return null;
    for (let j = i + 1; j < size; j++) {
      const share = rows[j]![i]! / pivotRow[i]!;
      for (let k = i; k <= size; k++) rows[j]![k]! -= share * pivotRow[k]!;
    }
  }
  const solution = new Array<number>(size).fill(0);
  for (let i = size - 1; i >= 0; i--) {
    const row = rows[i]!;
    const known = solution.reduce((sum, each, k) => (k > i ? sum + row[k]! * each : sum), 0);
    solution[i] = (row[size]! - known) / row[i]!;
  }
  return solution;
}
