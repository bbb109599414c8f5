import type { WorkBudget } from '../work.ts';
import type { BoardTask } from './board-task.ts';
import type { Take } from './filling.ts';
import type { Pattern } from './pattern.ts';

/** Fillings looked at before it is given up. */
const MOST_STEPS = 2e6;

/**
 * Every pattern of the only bin that wastes no more than `waste` steps; null where there are more than `most`, too many to look at, or bins of several kinds.
 * Where so many boards are to hold everything that hardly any waste is left, only these can be among them, and the linear programme may as well have them all at once.
 * Pieces are added from the longest down. A branch ends where even the next kind, as often as pieces still fit, wastes too much.
 * Cost: for three pieces on a board about the square of the kinds. No kinds: no pattern.
 */
export function tightPatterns(
  { kinds, bins }: BoardTask,
  waste: number,
  most: number,
  budget: WorkBudget,
): readonly Pattern[] | null {
  const [only, ...others] = bins;
  if (only === undefined || others.length > 0 || only.rooms.length !== 1) return null;
  const shortest = kinds.at(-1)?.size ?? 1;
  const found: Pattern[] = [];
  const chosen: Take[] = [];
  let steps = 0;
  const visit = (from: number, room: number): boolean => {
    if (room <= waste) {
      found.push({ bin: 0, stretches: [[...chosen]] });
      if (found.length > most) return false;
    }
    const pieces = Math.floor(room / shortest);
    for (let kind = Math.max(from, firstWithin(kinds, room)); kind < kinds.length; kind++) {
      const { size, count } = kinds[kind]!;
      if (pieces * size < room - waste) break;
      if (++steps > MOST_STEPS) return false;
      for (let times = Math.min(count, Math.floor(room / size)); times > 0; times--) {
        chosen.push({ kind, times });
        const isWithin = visit(kind + 1, room - times * size);
        chosen.pop();
        if (!isWithin) return false;
      }
    }
    return true;
  };
  const isWhole = visit(0, only.rooms[0]!);
  budget.spend(steps);
  return isWhole ? found.filter(({ stretches }) => stretches[0]!.length > 0) : null;
}

/** The first kind, from the longest down, that fits the room. */
function firstWithin(kinds: BoardTask['kinds'], room: number): number {
  let low = 0;
  let high = kinds.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (kinds[middle]!.size <= room) high = middle;
    else low = middle + 1;
  }
  return low;
}
