// Raises the bound on the sheets of one stock by a linear programme over the contents of a sheet.
// Idea: give each kind a worth so that no contents of one sheet are worth more than one; then all pieces together are worth no more than the sheets. The best worths are the dual of covering
//   the pieces with contents, found by adding contents that are worth too much one after another. Contents are those of a relaxation: they keep a few weights and pairs, and were not shown not to fit.
// Source: Gilmore & Gomory 1961, Operations Research 9; Farley 1990, "A note on bounding a class of linear programming problems, including cutting stock problems", Operations Research 38 (a bound
//   from any worths); Pisinger & Sigurd 2007, INFORMS J. on Computing 19 (two dimensions); Wentges 1997, "Weighted Dantzig-Wolfe decomposition", Int. Trans. in OR 4 (mixed worths).
// Where we differ: only the next whole number is claimed at a time, so contents need to be looked for only above total / sheets, and the run ends as soon as the programme cannot pass it. Fit is
//   settled in few steps first, and in many for the contents that stand in the way at the end.
// Exact: worths are rounded down to whole numbers, and that no contents are worth more is shown for those, by whole sums.
// Cost: counted in the budget; it pays from a tenth of a second on for 20 to 100 pieces of which about three to eight fill a sheet, and gives nothing where many small pieces do.
// Degenerate cases: several stocks, prices, more than 300 kinds, and work that runs out leave the bound as it was; bodies that are not straight boxes are worth nothing.

import type { PackingTask } from '../task.ts';
import type { WorkBudget } from '../work.ts';
import { type Covering, newCovering } from './covering.ts';
import { richerSheet } from './richest-sheet.ts';
import { type SheetRelaxation, sheetRelaxation, WHOLE } from './sheet-relaxation.ts';

/** One sheet, in worths. */
const UNIT = 2 ** 26;
/** How much of the mixed worths is kept at each turn. */
const KEPT = 0.5;
const MORE_STEPS = [1200, 5000, 20_000, 80_000];

/**
 * A bound that is at least `atLeast` and, where it can be shown, larger, up to `used`: the sheets that a layout with all pieces is known to do with.
 * To be called when a search has left a gap; it ends early where nothing can be shown.
 */
export function proveFurther(
  task: PackingTask,
  used: number,
  atLeast: number,
  budget: WorkBudget,
): number {
  if (atLeast >= used || task.objective !== 'sheets') return atLeast;
  const relaxation = sheetRelaxation(task, budget);
  if (relaxation === null) return atLeast;
  const state: State = {
    relaxation,
    budget,
    covering: newCovering(relaxation.counts),
    found: [],
    mixed: Float64Array.from(relaxation.weights[1] ?? relaxation.weights[0]!),
  };
  for (let k = 0; k < state.mixed.length; k++) state.mixed[k]! *= UNIT / WHOLE;
  let sheets = atLeast;
  while (sheets < used && needsMore(state, sheets)) sheets++;
  return sheets;
}

interface State {
  readonly relaxation: SheetRelaxation;
  readonly budget: WorkBudget;
  covering: Covering;
  /** Contents found so far, as in the covering. */
  found: (readonly number[])[];
  /** Worths that are looked at: the covering's, mixed with those before, which swing less. */
  readonly mixed: Float64Array;
}

/** Whether more sheets than these are sure to be needed. */
function needsMore(state: State, sheets: number): boolean {
  const { relaxation, budget, mixed } = state;
  const spend = (units: number) => budget.spend(units);
  for (;;) {
    if (!state.covering.solve(spend)) return false;
    const { worths } = state.covering;
    if (total(relaxation, worths) <= sheets * (1 + 1e-6)) {
      if (!dropUnfit(state)) return false;
      continue;
    }
    for (let k = 0; k < mixed.length; k++)
      mixed[k] = KEPT * mixed[k]! + (1 - KEPT) * UNIT * Math.max(0, worths[k]!);
    if (total(relaxation, mixed) <= sheets * UNIT * (1 + 1e-5))
      mixed.set(worths.map((worth) => UNIT * Math.max(0, worth)));
    const whole = mixed.map(Math.floor);
    const richer = richerSheet(relaxation, whole, mostWorth(relaxation, whole, sheets), budget);
    if (richer === 'stopped') return false;
    if (richer === null) return true;
    state.found.push(richer);
    state.covering.add(richer);
  }
}

function total({ counts }: SheetRelaxation, worths: Float64Array): number {
  return worths.reduce((sum, worth, k) => sum + counts[k]! * worth, 0);
}

/** If no contents are worth more than this, `sheets` sheets do not hold all pieces: the largest whole number that `sheets` times is below the total. */
function mostWorth(relaxation: SheetRelaxation, whole: Float64Array, sheets: number): number {
  const all = BigInt(total(relaxation, whole));
  return sheets === 0 ? Number(all) : Number((all - 1n) / BigInt(sheets));
}

/** Looks harder at contents that were taken in unsettled, until some prove not to fit; false where none do. */
function dropUnfit(state: State): boolean {
  const { relaxation, budget } = state;
  for (const steps of MORE_STEPS) {
    const kept = state.found.filter((kinds) => relaxation.stillMayFit(kinds, steps, budget));
    if (budget.exhausted) return false;
    if (kept.length === state.found.length) continue;
    state.found = kept;
    state.covering = newCovering(relaxation.counts);
    for (const kinds of kept) state.covering.add(kinds);
    return true;
  }
  return false;
}
