import type { BoardTask } from './board-task.ts';
import type { Take } from './filling.ts';
import {
  type BoardPlan,
  type Pattern,
  type Rest,
  type Run,
  restAfter,
  timesWithin,
} from './pattern.ts';

/**
 * Boards one after the other, each filled with the longest pieces that still fit, which for one kind of board is first fit decreasing.
 * Of several kinds of board the one that costs the least for what it holds is taken; the same cuts are repeated as often as the pieces last.
 * Source: Johnson 1974, "Fast algorithms for bin packing", Journal of Computer and System Sciences 8, for the rule on one kind of board.
 * Cost: kinds times boards that differ. Without boards all pieces are left.
 */
export function firstFit(task: BoardTask, start: Rest): BoardPlan {
  const runs: Run[] = [];
  let rest = start;
  for (;;) {
    const pattern = cheapestFilling(task, rest);
    if (pattern === null) return { runs, left: rest.wanted };
    const board = task.bins[pattern.bin]?.board ?? -1;
    const times = Math.min(timesWithin(pattern, rest.wanted), rest.onHand[board] ?? 0);
    runs.push({ pattern, times });
    rest = restAfter(task, rest, [{ pattern, times }]);
  }
}

/** The filling with the lowest cost for its length, or the fullest where all cost nothing; null where nothing can be cut any more. */
function cheapestFilling(task: BoardTask, { wanted, onHand }: Rest): Pattern | null {
  let best: { pattern: Pattern; used: number; cost: number } | null = null;
  for (const [bin, { board, rooms }] of task.bins.entries()) {
    if ((onHand[board] ?? 0) < 1) continue;
    const stretches = fillRooms(task, wanted, rooms);
    const used = stretches.flat().reduce((sum, take) => sum + take.times * sizeOf(task, take), 0);
    if (used === 0) continue;
    const cost = task.boards[board]?.cost ?? 0;
    const saved = best === null ? 1 : best.cost * used - cost * best.used || used - best.used;
    if (saved > 0) best = { pattern: { bin, stretches }, used, cost };
  }
  return best?.pattern ?? null;
}

function fillRooms(
  task: BoardTask,
  wanted: readonly number[],
  rooms: readonly number[],
): readonly (readonly Take[])[] {
  const spare = [...wanted];
  return rooms.map((room) => {
    const takes: Take[] = [];
    let space = room;
    for (const [kind, { size }] of task.kinds.entries()) {
      const times = Math.min(spare[kind] ?? 0, Math.floor(space / size));
      if (times === 0) continue;
      takes.push({ kind, times });
      spare[kind] = (spare[kind] ?? 0) - times;
      space -= times * size;
    }
    return takes;
  });
}

function sizeOf({ kinds }: BoardTask, { kind }: Take): number {
  return kinds[kind]?.size ?? 0;
}
