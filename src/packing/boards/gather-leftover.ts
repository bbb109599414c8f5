import type { WorkBudget } from '../work.ts';
import type { BoardTask } from './board-task.ts';
import { branchAndBound } from './fill-by-branching.ts';
import type { Take } from './filling.ts';
import { type Pattern, patternKey, type Run, takesOf } from './pattern.ts';

/** Nodes for one stretch; a board and the emptiest one hold few pieces between them. */
const MOST_NODES = 2000;
/** Units of work for a refill, beside its nodes. */
const REFILL_WORK = 100;

/**
 * Moves what is left over to one board, so that it is of use.
 *
 * The board with the longest rest gives pieces to the others: each other pattern in turn is filled anew, as full as possible, from its own pieces and those of
 * that board, and what then is left goes back. This goes round until no board can take more. The boards stay the same, only what lies on them changes.
 * A local search of our own; exact for two boards, not for all together. Cost: two small fillings for each pattern and round.
 */
export function gatherLeftover(
  task: BoardTask,
  runs: readonly Run[],
  budget: WorkBudget,
): readonly Run[] {
  let now = merged(runs);
  let giver = emptiest(task, now);
  if (giver === null) return now;
  let others = without(now, giver);
  for (let isBetter = true; isBetter; ) {
    isBetter = false;
    for (const { pattern } of others) {
      const traded = trade(task, pattern, giver, budget);
      if (budget.exhausted) break;
      if (traded === null) continue;
      const { taker, gives } = traded;
      others = [...without(others, pattern), { pattern: taker, times: 1 }];
      giver = gives;
      isBetter = true;
    }
    now = merged([...others, { pattern: giver, times: 1 }]);
    // Another board may have the longest rest by now, where boards differ.
    giver = emptiest(task, now) ?? giver;
    others = without(now, giver);
  }
  return now;
}

/** The longest rest of one stretch of a board, in base lengths. */
export function leftoverOf({ bins, kinds, step }: BoardTask, { bin, stretches }: Pattern): number {
  return (bins[bin]?.stretches ?? []).reduce((most, { from, to }, i) => {
    const load = (stretches[i] ?? []).reduce(
      (sum, { kind, times }) => sum + times * (kinds[kind]?.size ?? 0),
      0,
    );
    return Math.max(most, to - from - load * step);
  }, 0);
}

/** The board with the longest rest; the first of several. */
export function emptiest(task: BoardTask, runs: readonly Run[]): Pattern | null {
  let best: { pattern: Pattern; leftover: number } | null = null;
  for (const { pattern } of runs) {
    const leftover = leftoverOf(task, pattern);
    if (best === null || leftover > best.leftover) best = { pattern, leftover };
  }
  return best?.pattern ?? null;
}

/** The two boards after the exchange; null where it makes the giver's rest no longer. */
function trade(
  task: BoardTask,
  other: Pattern,
  giver: Pattern,
  budget: WorkBudget,
): { readonly taker: Pattern; readonly gives: Pattern } | null {
  const pool = new Map<number, number>();
  for (const { kind, times } of [...takesOf(other), ...takesOf(giver)])
    pool.set(kind, (pool.get(kind) ?? 0) + times);
  const taker = refilled(task, other.bin, pool, budget);
  const gives = refilled(task, giver.bin, pool, budget);
  const isWhole = [...pool.values()].every((count) => count === 0);
  return isWhole && leftoverOf(task, gives) > leftoverOf(task, giver) ? { taker, gives } : null;
}

/** A bin as full as can be from a pool, which then has that much less. */
function refilled(
  task: BoardTask,
  bin: number,
  pool: Map<number, number>,
  budget: WorkBudget,
): Pattern {
  const kinds = [...pool.keys()].sort((a, b) => a - b);
  const sizes = kinds.map((kind) => task.kinds[kind]?.size ?? 0);
  const supplies = sizes.map((size) => ({ size, count: 0 }));
  const stretches = (task.bins[bin]?.rooms ?? []).map((room): readonly Take[] => {
    budget.spend(REFILL_WORK);
    const counts = kinds.map((kind) => pool.get(kind) ?? 0);
    const question = { supplies, values: sizes, counts, room, mostNodes: MOST_NODES, budget };
    return branchAndBound(question).takes.map(({ kind: own, times }) => {
      const kind = kinds[own]!;
      pool.set(kind, counts[own]! - times);
      return { kind, times };
    });
  });
  return { bin, stretches };
}

/** One board of the pattern less. */
function without(runs: readonly Run[], pattern: Pattern): readonly Run[] {
  const at = runs.findIndex((run) => run.pattern === pattern);
  return runs.flatMap((run, i) => {
    if (i !== at) return [run];
    return run.times > 1 ? [{ pattern, times: run.times - 1 }] : [];
  });
}

/** Runs of the same cuts made one, without boards that carry nothing. */
function merged(runs: readonly Run[]): readonly Run[] {
  const all = new Map<string, Run>();
  for (const { pattern, times } of runs) {
    if (pattern.stretches.every((takes) => takes.length === 0)) continue;
    const key = patternKey(pattern);
    const first = all.get(key);
    all.set(key, { pattern: first?.pattern ?? pattern, times: times + (first?.times ?? 0) });
  }
  return [...all.values()];
}
