import type { Random } from '../random.ts';
import type { WorkBudget } from '../work.ts';
import type { BoardTask } from './board-task.ts';
import { firstFit } from './first-fit.ts';
import type { Master, Relaxation } from './master.ts';
import {
  allOf,
  costOf,
  type Pattern,
  type Rest,
  type Run,
  restAfter,
  runWithin,
} from './pattern.ts';
import type { PlanKeeper } from './plan-keeper.ts';

/** Amounts this close below a whole number count as whole. */
const NEARLY = 1e-6;

export interface Dive {
  readonly task: BoardTask;
  readonly master: Master;
  readonly keeper: PlanKeeper;
  readonly budget: WorkBudget;
  /** Blurs the choice of a pattern by up to this share. */
  readonly blur: number;
  readonly random: Random;
}

/**
 * Makes whole boards of the fractions of the linear programme.
 *
 * All whole parts of the amounts are taken, or else one board of the pattern with the largest fraction; the programme is solved again for what is still to be cut,
 * with new patterns for just that. After each step first fit decreasing finishes the rest, and the best of these plans is kept. The dive ends where
 * the programme tells that nothing better can come.
 *
 * Source: Vanderbeck 1999, "Computational study of a column generation algorithm for bin packing and cutting stock problems", Mathematical Programming 86, 565-594;
 * Sadykov et al. 2019, "Primal heuristics for branch and price: the assets of diving methods", INFORMS Journal on Computing 31, section 2.
 * In place of limited discrepancies the choice is blurred at random. Cost: about one programme a board that is not a whole amount.
 */
export async function dive(means: Dive): Promise<void> {
  const { task, master, keeper, budget, blur, random } = means;
  let rest = allOf(task);
  let runs: readonly Run[] = [];
  while (rest.wanted.some((count) => count > 0) && !budget.exhausted && !keeper.done()) {
    const cost = costOf(task, runs);
    const relaxation = await master.relax(rest, () => false);
    if (relaxation === null) return;
    if (relaxation.least && keeper.isHopeless(cost + relaxation.value)) return;
    const taken = takeBoards(
      task,
      master.patterns,
      relaxation,
      rest,
      (amount) => amount * (1 + blur * random()),
    );
    if (taken.length === 0) return;
    runs = [...runs, ...taken];
    rest = restAfter(task, rest, taken);
    const end = firstFit(task, rest);
    keeper.offer({ runs: [...runs, ...end.runs], left: end.left });
  }
}

/** The whole parts of all amounts or, where there are none, one board. */
function takeBoards(
  task: BoardTask,
  patterns: readonly Pattern[],
  { amounts }: Relaxation,
  rest: Rest,
  score: (amount: number) => number,
): readonly Run[] {
  const taken: Run[] = [];
  let now = rest;
  for (const [i, pattern] of patterns.entries()) {
    const whole = Math.floor((amounts[i] ?? 0) + NEARLY);
    if (whole < 1) continue;
    const run = runWithin(task, pattern, whole, now);
    if (run === null) continue;
    taken.push(run);
    now = restAfter(task, now, [run]);
  }
  if (taken.length > 0) return taken;
  let best: { run: Run; score: number } | null = null;
  for (const [i, pattern] of patterns.entries()) {
    const amount = amounts[i] ?? 0;
    if (amount < NEARLY) continue;
    const own = score(amount);
    if (best !== null && own <= best.score) continue;
    const run = runWithin(task, pattern, 1, rest);
    if (run !== null) best = { run, score: own };
  }
  return best === null ? [] : [best.run];
}
