import type { Supply } from './filling.ts';

/** Some of one kind as one thing, so that a few of them give every number up to the supply. */
export interface Lot {
  readonly kind: number;
  readonly times: number;
}

/** The supply of each kind, as far as it can fit `most`, in lots of 1, 2, 4 ... and a rest. */
export function lotsOf(supplies: readonly Supply[], most: number): readonly Lot[] {
  return supplies.flatMap(({ size, count }, kind) => {
    const lots: Lot[] = [];
    let left = Math.min(count, Math.floor(most / size));
    for (let times = 1; left > 0; times *= 2) {
      lots.push({ kind, times: Math.min(times, left) });
      left -= times;
    }
    return lots;
  });
}

/** The distinct sums of lots up to `most`, ascending from 0; null where there would be more than `mostSums`. */
export function reachableSums(
  supplies: readonly Supply[],
  most: number,
  mostSums: number,
): Float64Array | null {
  let sums = new Float64Array([0]);
  for (const { kind, times } of lotsOf(supplies, most)) {
    sums = merged(sums, (supplies[kind]?.size ?? 0) * times, most);
    if (sums.length > mostSums) return null;
  }
  return sums;
}

/** The sums themselves and each of them more by `size`, without repeats. */
function merged(sums: Float64Array, size: number, most: number): Float64Array<ArrayBuffer> {
  const out = new Float64Array(2 * sums.length);
  let count = 0;
  let low = 0;
  let high = 0;
  while (low < sums.length || (high < sums.length && sums[high]! + size <= most)) {
    const a = low < sums.length ? sums[low]! : Number.POSITIVE_INFINITY;
    const b = high < sums.length ? sums[high]! + size : Number.POSITIVE_INFINITY;
    if (a <= b) low++;
    if (b <= a) high++;
    const next = Math.min(a, b);
    if (next <= most) out[count++] = next;
  }
  return out.slice(0, count);
}
