import type { Job } from '../../src/model/job.ts';
import type { BoardStock } from '../../src/model/stock.ts';

/** The least boards, or the least cost, for all pieces of a small job, by trying everything; null where they cannot all be cut. */
export function leastByTrying(job: Job, kerf: number, isPriced: boolean): number | null {
  const lengths = job.lengthParts.flatMap(({ length, count }) => Array(count).fill(length));
  const stocks = job.materials[0]!.boards;
  // Whether a set of pieces can be cut from one board, for each stock; sets are bit masks.
  const fits = stocks.map((stock) => {
    const known = new Map<number, boolean>();
    return (set: number): boolean => {
      const before = known.get(set);
      if (before !== undefined) return before;
      const own = lengths.filter((_, i) => (set >> i) & 1);
      const result = someOrderFits(stock, own, stock.endTrim, kerf);
      known.set(set, result);
      return result;
    };
  });
  const all = 2 ** lengths.length - 1;
  const best = new Map<string, number>();
  const least = (left: number, taken: readonly number[]): number => {
    if (left === 0) return 0;
    const key = `${left} ${taken.join()}`;
    const before = best.get(key);
    if (before !== undefined) return before;
    // The first piece that is left lies on some board, with some of the others.
    const first = left & -left;
    const others = left ^ first;
    let result = Number.POSITIVE_INFINITY;
    for (let more = others; ; more = (more - 1) & others) {
      for (const [s, { onHand, priceCents }] of stocks.entries()) {
        if (taken[s]! >= (onHand ?? Number.POSITIVE_INFINITY) || !fits[s]!(first | more)) continue;
        const next = taken.map((count, k) => (k === s && onHand !== null ? count + 1 : count));
        const cost = isPriced ? priceCents! : 1;
        result = Math.min(result, cost + least(left ^ (first | more), next));
      }
      if (more === 0) break;
    }
    best.set(key, result);
    return result;
  };
  const result = least(
    all,
    stocks.map(() => 0),
  );
  return Number.isFinite(result) ? result : null;
}

/** Whether the pieces can lie on the board in some order, each as far left as it goes. */
function someOrderFits(
  stock: BoardStock,
  lengths: readonly number[],
  from: number,
  kerf: number,
): boolean {
  if (lengths.length === 0) return true;
  return lengths.some((length, i) => {
    if (lengths.indexOf(length) < i) return false;
    const at = leftmost(stock, from, length);
    if (at === null) return false;
    const rest = lengths.filter((_, k) => k !== i);
    return someOrderFits(stock, rest, at + length + kerf, kerf);
  });
}

function leftmost({ length: board, endTrim, defects }: BoardStock, from: number, length: number) {
  let at = from;
  for (const defect of [...defects].sort((a, b) => a.from - b.from)) {
    if (at + length > defect.from && at < defect.to) at = defect.to;
  }
  return at + length <= board - endTrim ? at : null;
}
