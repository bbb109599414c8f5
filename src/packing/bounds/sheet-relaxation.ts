// What is sure about the contents of one sheet: sums of weights they cannot pass, pairs that never go together, and a test whether some boxes fit.
// Idea: every rule only excludes what no sheet can hold, so that all real contents keep all rules; then what holds for all contents that keep them holds for all layouts.
// Source: weights as in dual-feasible.ts. Spacing: boxes and sheet grow as there, and contents must pass the test with each growth.
// Cost: the screening of the scales, which is not counted, and the square of the kinds.
// Degenerate cases: kinds that fit no sheet are left out; null where there are none, where there are more than MOST_KINDS, and for several stocks.

import type { PackingTask } from '../task.ts';
import type { WorkBudget } from '../work.ts';
import {
  type Growth,
  growthsOf,
  rectangularKinds,
  scalesFor,
  symmetricView,
  viewOf,
} from './dual-feasible.ts';
import { newSheetTest, type SheetTest } from './one-sheet.ts';
import { screenPairs, sharesOf, type View } from './weighing.ts';

/** All of a sheet, in whole-number weights. */
export const WHOLE = 2 ** 30;

export interface SheetRelaxation {
  /** How many pieces there are of each kind. */
  readonly counts: Int32Array;
  /** Weights of the kinds, rounded down, of which no sheet holds more than `WHOLE`; the first is area. */
  readonly weights: readonly Float64Array[];
  /** Row by row, 1 for two kinds that no sheet holds both of. */
  readonly conflicts: Uint8Array;
  /** False only where no sheet holds these kinds together. */
  readonly mayFit: (kinds: readonly number[], budget: WorkBudget) => boolean;
  /** Whether that was left open and stays so with many more steps. */
  readonly stillMayFit: (kinds: readonly number[], steps: number, budget: WorkBudget) => boolean;
}

const MOST_KINDS = 300;
const STEPS = 300;
const UNITS_PER_STEP = 10;
const UNITS_PER_PAIR = 10;
const MOST_KNOWN = 300_000;
const WEIGHTS_PER_GROWTH = 4;
const TURNS = [0, 1] as const;

export function sheetRelaxation(task: PackingTask, budget: WorkBudget): SheetRelaxation | null {
  const [stock] = task.stocks;
  if (stock === undefined || task.stocks.length > 1) return null;
  const all = rectangularKinds(task);
  if (all.length > MOST_KINDS) return null;
  const plain = viewOf(task, all, stock, 0, { p: 0, q: 0 });
  const kinds = all.filter((_, k) => plain.x[0][k]! >= 0);
  if (kinds.length === 0) return null;
  const growths = growthsOf(task);
  const views = growths.map((growth) => viewOf(task, kinds, stock, 0, growth));
  const weights = growths.flatMap((growth: Growth, g) => {
    const twin = symmetricView(task, kinds, growth);
    return heaviestWeights(twin ?? views[g]!);
  });
  const counts = Int32Array.from(kinds, ({ count }) => count);
  return {
    counts,
    weights: [areaWeights(views[0]!), ...weights],
    conflicts: conflictsOf(counts, views, budget),
    ...rememberedTest(views.map(testOf)),
  };
}

/** Area of each kind, of its smaller box. */
function areaWeights(view: View): Float64Array {
  const sheet = BigInt(view.axisX.capacity) * BigInt(view.axisY.capacity);
  return Float64Array.from(view.counts, (_, kind) => {
    const areas = TURNS.map((turn) => {
      const width = view.axisX.lengths[view.x[turn][kind]!]!;
      const height = view.axisY.lengths[view.y[turn][kind]!]!;
      return (BigInt(width) * BigInt(height) * BigInt(WHOLE)) / sheet;
    });
    return Math.min(...areas.map(Number));
  });
}

/** The last few pairs of scales that each weighed more than all before. */
function heaviestWeights(view: View): Float64Array[] {
  const pairs: Float64Array[] = [];
  const [scalesX, scalesY] = scalesFor(view);
  screenPairs(view, scalesX, scalesY, (scaleX, scaleY) => {
    pairs.push(sharesOf({ view, scaleX, scaleY }, WHOLE));
  });
  return pairs.slice(-WEIGHTS_PER_GROWTH).reverse();
}

function testOf(view: View): SheetTest {
  const choices = Array.from(view.counts, (_, kind) => {
    const boxes = TURNS.map((turn) => ({
      width: view.axisX.lengths[view.x[turn][kind]!]!,
      height: view.axisY.lengths[view.y[turn][kind]!]!,
    }));
    const [first, second] = boxes;
    const once = first!.width === second!.width && first!.height === second!.height;
    return { boxes: once ? [first!] : boxes };
  });
  return newSheetTest(choices, { width: view.axisX.capacity, height: view.axisY.capacity });
}

function conflictsOf(counts: Int32Array, views: readonly View[], budget: WorkBudget): Uint8Array {
  const size = counts.length;
  const conflicts = new Uint8Array(size * size);
  for (let a = 0; a < size; a++) {
    // What is not looked at is no conflict, which only weakens the relaxation.
    if (!budget.spend(UNITS_PER_PAIR * (size - a) * views.length)) break;
    for (let b = a; b < size; b++) {
      if (a === b && counts[a] === 1) continue;
      if (!views.every((view) => pairFits(view, a, b)))
        conflicts[a * size + b] = conflicts[b * size + a] = 1;
    }
  }
  return conflicts;
}

/** Whether boxes of two kinds fit together: they do only side by side or one above the other. */
function pairFits({ x, y, axisX, axisY }: View, a: number, b: number): boolean {
  return TURNS.some((first) =>
    TURNS.some(
      (second) =>
        axisX.lengths[x[first][a]!]! + axisX.lengths[x[second][b]!]! <= axisX.capacity ||
        axisY.lengths[y[first][a]!]! + axisY.lengths[y[second][b]!]! <= axisY.capacity,
    ),
  );
}

/** Answers are kept, for the same contents come up again and again. */
function rememberedTest(
  tests: readonly SheetTest[],
): Pick<SheetRelaxation, 'mayFit' | 'stillMayFit'> {
  const known = new Map<string, boolean | null>();
  const ask = (kinds: readonly number[], steps: number, budget: WorkBudget) => {
    let answer: boolean | null = true;
    for (const test of tests) {
      const before = test.steps();
      const fits = test.fits(kinds, steps);
      budget.spend(UNITS_PER_STEP * (10 * kinds.length + test.steps() - before));
      if (fits === false) return false;
      if (fits === null) answer = null;
    }
    return answer;
  };
  return {
    mayFit: (kinds, budget) => {
      const key = keyOf(kinds);
      let answer = known.get(key);
      if (answer === undefined) {
        answer = ask(kinds, STEPS, budget);
        if (known.size >= MOST_KNOWN) known.clear();
        known.set(key, answer);
      }
      return answer !== false;
    },
    stillMayFit: (kinds, steps, budget) => {
      const key = keyOf(kinds);
      const answer = known.get(key) ?? ask(kinds, steps, budget);
      known.set(key, answer);
      return answer !== false;
    },
  };
}

function keyOf(kinds: readonly number[]): string {
  return [...kinds].sort((a, b) => a - b).join();
}
