import type { WorkBudget } from '../work.ts';
import { branchAndBound } from './fill-by-branching.ts';
import type { Fill, Filler, Filling, Supply, Take } from './filling.ts';
import { lotsOf, reachableSums } from './reachable.ts';

/** More distinct lengths than this, or more of them times lots, and rooms are filled by branching. */
const MOST_SUMS = 200_000;
const MOST_CELLS = 3e7;
/** A table this small is as quick as branching. */
const FEW_CELLS = 2e5;
/** Nodes for one room. */
const FEW_NODES = 3000;
const MOST_NODES = 100_000;

/**
 * Fills a room with pieces of the greatest total value: the knapsack problem with so many of each kind, exactly.
 *
 * The best value for every length that pieces add up to is built up lot by lot; one table serves all rooms, and a mark for each lot and length tells how a
 * best value came about. Only lengths that can be reached are in the table. Where they are too many, kinds are tried from the greatest value for its length on,
 * and what cannot beat the best is cut off; that search may stop early, with a bound.
 *
 * Source: Gilmore & Gomory 1961, "A linear programming approach to the cutting-stock problem", Operations Research 9, section "the knapsack problem"; 1963,
 * part II, for the second method. We split the numbers of a kind into lots of powers of two.
 * Cost: lengths times lots, at most 30 million steps. All values zero: nothing is taken.
 */
export function makeFiller(
  supplies: readonly Supply[],
  longest: number,
  budget: WorkBudget,
): Filler {
  const branch =
    (mostNodes: number): Fill =>
    (values, counts, rooms) =>
      rooms.map((room) => branchAndBound({ supplies, values, counts, room, mostNodes, budget }));
  const sums = reachableSums(supplies, longest, MOST_SUMS);
  const cells = (sums?.length ?? Number.POSITIVE_INFINITY) * lotsOf(supplies, longest).length;
  if (sums === null || cells > MOST_CELLS)
    return { quick: branch(FEW_NODES), exact: branch(MOST_NODES) };
  const table: Fill = (values, counts, rooms) => {
    const limited = supplies.map(({ size }, k) => ({
      size,
      count: (values[k] ?? 0) > 0 ? (counts[k] ?? 0) : 0,
    }));
    return byTable(sums, limited, values, rooms, budget);
  };
  return { quick: cells <= FEW_CELLS ? table : branch(FEW_NODES), exact: table };
}

function byTable(
  sums: Float64Array,
  supplies: readonly Supply[],
  values: ArrayLike<number>,
  rooms: readonly number[],
  budget: WorkBudget,
): readonly Filling[] {
  const most = Math.max(0, ...rooms);
  const size = lastWithin(sums, most) + 1;
  const lots = lotsOf(supplies, most);
  budget.spend((size * lots.length) / 4);
  const best = new Float64Array(size);
  const marks = lots.map(({ kind, times }) => {
    const mark = new Uint8Array(size);
    addLot(sums, best, mark, (supplies[kind]?.size ?? 0) * times, (values[kind] ?? 0) * times);
    return mark;
  });
  return rooms.map((room) => {
    let at = lastWithin(sums, room);
    const value = best[at] ?? 0;
    const takes: Take[] = [];
    for (let k = lots.length - 1; k >= 0; k--) {
      const { kind, times } = lots[k]!;
      if (marks[k]![at] === 0) continue;
      addTake(takes, kind, times);
      at = lastWithin(sums, sums[at]! - (supplies[kind]?.size ?? 0) * times);
    }
    return { value, atMost: value, takes: takes.reverse() };
  });
}

/** Improves the best values by one lot, from the longest length down, so that the lot is used once. */
function addLot(
  sums: Float64Array,
  best: Float64Array,
  mark: Uint8Array,
  size: number,
  value: number,
): void {
  let from = best.length - 1;
  for (let at = best.length - 1; at >= 0; at--) {
    const room = sums[at]! - size;
    if (room < 0) break;
    while (sums[from]! > room) from--;
    const value2 = best[from]! + value;
    if (value2 > best[at]!) {
      best[at] = value2;
      mark[at] = 1;
    }
  }
}

function addTake(takes: Take[], kind: number, times: number): void {
  const last = takes.at(-1);
  if (last?.kind === kind) takes[takes.length - 1] = { kind, times: last.times + times };
  else takes.push({ kind, times });
}

/** Index of the greatest sum up to `most`; the sums begin with 0. */
function lastWithin(sums: Float64Array, most: number): number {
  let low = 0;
  let high = sums.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (sums[middle]! <= most) low = middle;
    else high = middle - 1;
  }
  return low;
}
