import { commonDivisor } from '../common-divisor.ts';
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
  const unit = task.boards.reduce((all, { cost }) => commonDivisor(all, cost), 0);
  const sums = attainableSums(task.boards.map(({ cost }) => cost / Math.max(1, unit)));
  const rounded = (cost: number) => (unit === 0 ? 0 : unit * sums(Math.ceil(cost / unit)));
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

/** Up to this sum it is looked up whether boards can cost just that. */
const MOST_SUM = 1e6;

/** The least sum of costs, each taken any number of times, from a number on. */
function attainableSums(costs: readonly number[]): (from: number) => number {
  if (costs.includes(1)) return (from) => from;
  let can = new Uint8Array([1]);
  return (from) => {
    if (from >= can.length && from < MOST_SUM) {
      can = new Uint8Array(Math.min(MOST_SUM, 2 * from + Math.max(...costs) + 1));
      can[0] = 1;
      for (let sum = 1; sum < can.length; sum++)
        can[sum] = Number(costs.some((cost) => cost > 0 && can[sum - cost] === 1));
    }
    for (let sum = Math.max(0, from); sum < can.length; sum++) if (can[sum] === 1) return sum;
    return from;
  };
}

function measureOf(task: BoardTask, { runs, left }: BoardPlan) {
  return {
    left: left.reduce((sum, count) => sum + count, 0),
    cost: costOf(task, runs),
    boards: runs.reduce((sum, { times }) => sum + times, 0),
  };
}
