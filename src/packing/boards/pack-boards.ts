import { assert } from '../../geometry/assert.ts';
import type { Job } from '../../model/job.ts';
import type { BoardLayout, Layout, UnplacedLengths } from '../../model/layout.ts';
import type { Packing, PackOptions } from '../pack.ts';
import { WorkBudget } from '../work.ts';
import { type BoardTask, boardTask } from './board-task.ts';
import { emptiest, gatherLeftover, leftoverOf } from './gather-leftover.ts';
import type { Solver } from './lp.ts';
import { type BoardPlan, costOf, patternKey, type Run } from './pattern.ts';
import { searchBoards } from './search-boards.ts';

/** Units of work for the leftover. */
const GATHER_WORK = 2e6;

/** Cuts the lengths of one material from its boards, with a bound that no cutting can go under. `solver` is for tests. */
export async function packBoards(
  job: Job,
  material: number,
  { effort, seed, shouldStop, onProgress }: PackOptions,
  solver?: () => Promise<Solver | null>,
): Promise<Packing> {
  const task = boardTask(job, material);
  const { objective } = task;
  const found = await searchBoards(task, {
    effort,
    seed,
    shouldStop,
    report: ({ keeper, workLeft }) => {
      const used = costOf(task, keeper.best().runs);
      onProgress({ material, objective, used, atLeast: keeper.bound(), workLeft });
    },
    ...(solver === undefined ? {} : { solver }),
  });
  const runs = gatherLeftover(task, found.plan.runs, new WorkBudget(GATHER_WORK, shouldStop));
  const layout = toLayout(task, { runs, left: found.plan.left }, found.bound);
  return { layout, stopped: found.stopped };
}

/** The boards in the words of the model: equal ones side by side, kind by kind, fullest first, the one with the longest leftover last. */
function toLayout(task: BoardTask, plan: BoardPlan, atLeast: number): Layout {
  const used = costOf(task, plan.runs);
  const unplacedLengths = unplacedOf(task, plan);
  const complete = unplacedLengths.length === 0;
  assert(!complete || used >= atLeast, `${used} used, though no less than ${atLeast} can do`);
  return {
    material: task.material,
    objective: task.objective,
    status: !complete ? 'impossible' : used === atLeast ? 'proved' : 'limit',
    used,
    bound: { atLeast, provedBy: 'linear programme' },
    sheets: [],
    boards: layBoards(task, inOrder(task, plan.runs)),
    unplaced: [],
    unplacedLengths,
  };
}

function inOrder(task: BoardTask, runs: readonly Run[]): readonly Run[] {
  const last = emptiest(task, runs);
  const measured = runs.map((run) => ({
    run,
    isLast: Number(run.pattern === last),
    board: task.bins[run.pattern.bin]?.board ?? -1,
    leftover: leftoverOf(task, run.pattern),
    key: patternKey(run.pattern),
  }));
  measured.sort(
    (a, b) =>
      a.isLast - b.isLast ||
      a.board - b.board ||
      a.leftover - b.leftover ||
      (a.key < b.key ? -1 : 1),
  );
  return measured.map(({ run }) => run);
}

/** Gives every piece its part, its number and its place; pieces of one length are those of the first part first. */
function layBoards(task: BoardTask, runs: readonly Run[]): readonly BoardLayout[] {
  const next = task.kinds.map(({ members }) =>
    members.flatMap(({ part, count }) =>
      Array.from({ length: count }, (_, k) => ({ part, number: k + 1 })),
    ),
  );
  const given = task.kinds.map(() => 0);
  return runs.flatMap(({ pattern, times }) =>
    Array.from({ length: times }, (): BoardLayout => {
      const bin = task.bins[pattern.bin]!;
      const pieces = pattern.stretches.flatMap((takes, i) => {
        let at = bin.stretches[i]?.from ?? 0;
        return takes.flatMap(({ kind, times: count }) =>
          Array.from({ length: count }, () => {
            const piece = { ...next[kind]![given[kind]!++]!, at };
            at += (task.kinds[kind]?.size ?? 0) * task.step;
            return piece;
          }),
        );
      });
      return { stock: task.boards[bin.board]!.stock, pieces };
    }),
  );
}

/** Of the pieces of one length those of the last parts stay over. */
function unplacedOf(task: BoardTask, { left }: BoardPlan): readonly UnplacedLengths[] {
  const short = task.kinds.flatMap(({ members }, k) => {
    let over = left[k] ?? 0;
    return [...members].reverse().flatMap(({ part, count }): UnplacedLengths[] => {
      const own = Math.min(over, count);
      over -= own;
      return own > 0 ? [{ part, count: own, why: 'no-stock' }] : [];
    });
  });
  const long = task.noRoom.map(({ part, count }) => ({ part, count, why: 'no-room' as const }));
  return [...short, ...long].sort((a, b) => a.part - b.part);
}
