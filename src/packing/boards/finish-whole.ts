import type { BoardTask } from './board-task.ts';
import { firstFit } from './first-fit.ts';
import type { Master } from './master.ts';
import { allOf, costOf, type Run, restAfter, runWithin } from './pattern.ts';
import type { PlanKeeper } from './plan-keeper.ts';

/** The best whole numbers of the patterns that were found so far, as a plan; what they hold too much is cut back. */
export function finishWhole(
  task: BoardTask,
  master: Master,
  keeper: PlanKeeper,
  work: number,
): void {
  const amounts = master.wholeAmounts(costOf(task, keeper.best().runs), work);
  if (amounts === null) return;
  const runs: Run[] = [];
  let rest = allOf(task);
  for (const [i, pattern] of master.patterns.entries()) {
    for (let left = amounts[i] ?? 0; left > 0; ) {
      const run = runWithin(task, pattern, left, rest);
      if (run === null) break;
      runs.push(run);
      rest = restAfter(task, rest, [run]);
      left -= run.times;
    }
  }
  const end = firstFit(task, rest);
  keeper.offer({ runs: [...runs, ...end.runs], left: end.left });
}
