import type { WorkBudget } from '../work.ts';
import type { Filling, Supply, Take } from './filling.ts';

export interface Question {
  readonly supplies: readonly Supply[];
  readonly values: ArrayLike<number>;
  readonly counts: ArrayLike<number>;
  readonly room: number;
  readonly mostNodes: number;
  readonly budget: WorkBudget;
}

/** More than what rounding may take from a product of a value and a length. */
const ABOVE_ROUNDING = 1 + 1e-12;

interface Sorted {
  readonly kind: number;
  readonly size: number;
  readonly value: number;
  readonly count: number;
  readonly density: number;
}

/**
 * The richest filling of one room by depth first: kinds from the greatest value for its length down, most of a kind first.
 * What is still open when the nodes run out counts towards `atMost`.
 */
export function branchAndBound({
  supplies,
  values,
  counts,
  room,
  mostNodes,
  budget,
}: Question): Filling {
  const kinds = sortedKinds(supplies, values, counts, room);
  const shortest = shortestFrom(kinds);
  const chosen: Take[] = [];
  let best: { value: number; takes: readonly Take[] } = { value: 0, takes: [] };
  let open = 0;
  let nodes = 0;
  const visit = (from: number, left: number, value: number): void => {
    nodes++;
    if (value > best.value) best = { value, takes: [...chosen] };
    for (let i = from; i < kinds.length && shortest[i]! <= left; i++) {
      const { kind, size, value: worth, count, density } = kinds[i]!;
      const atMost = Math.floor((value + left * density) * ABOVE_ROUNDING);
      if (atMost <= best.value) return;
      if (nodes >= mostNodes) {
        open = Math.max(open, atMost);
        return;
      }
      for (let times = Math.min(count, Math.floor(left / size)); times > 0; times--) {
        chosen.push({ kind, times });
        visit(i + 1, left - times * size, value + times * worth);
        chosen.pop();
      }
    }
  };
  visit(0, room, 0);
  budget.spend(4 * nodes);
  const takes = [...best.takes].sort((a, b) => a.kind - b.kind);
  return { value: best.value, atMost: Math.max(best.value, open), takes };
}

function sortedKinds(
  supplies: readonly Supply[],
  values: ArrayLike<number>,
  counts: ArrayLike<number>,
  room: number,
): readonly Sorted[] {
  return supplies
    .map(({ size }, kind) => {
      const value = values[kind] ?? 0;
      return { kind, size, value, count: counts[kind] ?? 0, density: value / size };
    })
    .filter(({ size, value, count }) => value > 0 && count > 0 && size <= room)
    .sort((a, b) => b.density - a.density || a.size - b.size || a.kind - b.kind);
}

/** For each place in the order, the size of the shortest kind from there on. */
function shortestFrom(kinds: readonly Sorted[]): Float64Array {
  const shortest = new Float64Array(kinds.length);
  let least = Number.POSITIVE_INFINITY;
  for (let i = kinds.length - 1; i >= 0; i--) {
    least = Math.min(least, kinds[i]!.size);
    shortest[i] = least;
  }
  return shortest;
}
