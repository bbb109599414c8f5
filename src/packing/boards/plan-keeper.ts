import { attainableSums } from '../attainable-sums.ts';
import type { BoardTask } from './board-task.ts';
import { type BoardPlan, costOf } from './pattern.ts';

/** Keeps the best plan and the best bound. */
export interface PlanKeeper {
  /** Better are fewer pieces left, then less cost, then fewer boards. */
  readonly offer: (plan: BoardPlan) => void;
  readonly best: () => BoardPlan;
  readonly raise: (bound: number) => void;
  readonly bound: () => number;
  /** Whether the bound is reached. */
  readonly done: () => boolean;
  /** Whether a plan that costs at least so much can be no better than the best one. */
  readonly isHopeless: (cost: number) => boolean;
  /** The least that boards may add up to where the linear programme has this value. */
  readonly needed: (value: number) => number;
}

/** What rounding may add to a value of the linear programme. */
const TOLERANCE = 1e-6;

export function planKeeper(task: BoardTask): PlanKeeper {
  const rounded = attainableSums(task.boards.map(({ cost }) => cost));
  const needed = (value: number) => rounded(value - TOLERANCE * Math.max(1, value));
  let best: BoardPlan = { runs: [], left: task.kinds.map(({ count }) => count) };
  let measure = measureOf(task, best);
  let bound = 0;
  return {
    offer: (plan) => {
      const own = measureOf(task, plan);
      const better =
        measure.left - own.left || measure.cost - own.cost || measure.boards - own.boards;
      if (better <= 0) return;
      best = plan;
      measure = own;
    },
    best: () => best,
    raise: (value) => {
      bound = Math.max(bound, rounded(value));
    },
    bound: () => bound,
    done: () => measure.left === 0 && measure.cost <= bound,
    isHopeless: (cost) => measure.left === 0 && needed(cost) >= measure.cost,
    needed,
  };
}

function measureOf(task: BoardTask, { runs, left }: BoardPlan) {
  return {
    left: left.reduce((sum, count) => sum + count, 0),
    cost: costOf(task, runs),
    boards: runs.reduce((sum, { times }) => sum + times, 0),
  };
}
