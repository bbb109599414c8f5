import type { Layout } from '../../src/model/layout.ts';
import { searchStages } from '../../src/packing/pack.ts';
import type { PackingTask } from '../../src/packing/task.ts';
import { runTurn, type Turn, type TurnResult, type TurnWatch } from '../../src/packing/turns.ts';

/** Shares of the work of a track, stage by stage. */
const STAGE_SHARES = [0.1, 0.3, 0.6];

export interface SearchInput {
  readonly seed: number;
  /** Units of work of each of the two tracks. */
  readonly work: number;
  /** Whether the length that is used of one sheet is all that counts, so that a proved number of sheets saves no work. */
  readonly leftoverCounts: boolean;
}

export interface Searched {
  readonly layout: Layout;
  /** From the start to the first layout, and to the end, by the clock. */
  readonly firstMs: number;
  readonly ms: number;
  /** Of the processor, which others on the same machine change less. */
  readonly cpuMs: number;
  /** Units of work that all turns together count. */
  readonly work: number;
}

/** The search of the product, with an amount of work in place of an effort; its turns run one after the other in this thread. */
export function searched(task: PackingTask, input: SearchInput): Searched {
  const { seed, leftoverCounts } = input;
  const works = STAGE_SHARES.map((share) => share * input.work);
  const cpu = process.cpuUsage();
  const start = performance.now();
  let firstMs: number | null = null;
  let work = 0;
  const run = (turn: Turn): TurnResult => {
    let share = 0;
    const report: TurnWatch['report'] = (state) => {
      if (state.used !== null) firstMs ??= performance.now() - start;
      share = state.share;
    };
    const result = runTurn(task, turn, { shouldStop: () => false, report });
    work += share * turn.work;
    return result;
  };
  const search = searchStages(task, { seed, works, restsAtBound: !leftoverCounts });
  let step = search.next();
  while (!step.done) step = search.next(step.value.map(run));
  const ms = performance.now() - start;
  const { user, system } = process.cpuUsage(cpu);
  return {
    layout: step.value.layout,
    firstMs: firstMs ?? ms,
    ms,
    cpuMs: (user + system) / 1000,
    work,
  };
}
