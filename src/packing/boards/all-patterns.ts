import type { BoardTask } from './board-task.ts';
import type { Take } from './filling.ts';
import type { Pattern } from './pattern.ts';

/**
 * Every pattern to which no piece can be added; null where there are more than `most`, or where a bin has several stretches.
 * Kinds are gone through from the longest down, with every number of each; fillings that leave room for another piece are left out.
 * Cost: the fillings, those left out as well, of which no more than ten times `most` are looked at.
 */
export function allPatterns(task: BoardTask, most: number): readonly Pattern[] | null {
  const found: Pattern[] = [];
  let seen = 0;
  const chosen: Take[] = [];
  const visit = (bin: number, from: number, room: number, missed: number): boolean => {
    if (++seen > 10 * most) return false;
    const { size, count } = task.kinds[from] ?? { size: 0, count: 0 };
    if (size === 0) {
      // What was passed over in part must not fit into what is left.
      if (room < missed) found.push({ bin, stretches: [[...chosen]] });
      return found.length <= most;
    }
    for (let times = Math.min(count, Math.floor(room / size)); times >= 0; times--) {
      if (times > 0) chosen.push({ kind: from, times });
      const shortest = times < count ? Math.min(missed, size) : missed;
      const isWithin = visit(bin, from + 1, room - times * size, shortest);
      if (times > 0) chosen.pop();
      if (!isWithin) return false;
    }
    return true;
  };
  for (const [bin, { rooms }] of task.bins.entries()) {
    if (rooms.length !== 1 || !visit(bin, 0, rooms[0]!, Number.POSITIVE_INFINITY)) return null;
  }
  return found.filter(({ stretches }) => stretches[0]!.length > 0);
}
