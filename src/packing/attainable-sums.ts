import { commonDivisor } from './common-divisor.ts';

/** Up to this sum, in what divides all costs, it is looked up whether there is just that sum. */
const MOST_SUM = 1e6;

/** The least sum of costs, each taken any number of times, from a number on; 0 where nothing costs anything. */
export function attainableSums(costs: readonly number[]): (from: number) => number {
  const unit = costs.reduce(commonDivisor, 0);
  const sums = wholeSums(costs.map((cost) => cost / Math.max(1, unit)));
  return (from) => (unit === 0 ? 0 : unit * sums(Math.ceil(from / unit)));
}

function wholeSums(costs: readonly number[]): (from: number) => number {
  if (costs.includes(1)) return (from) => from;
  let can = new Uint8Array([1]);
  return (from) => {
    if (from >= can.length && from < MOST_SUM) {
      can = new Uint8Array(Math.min(MOST_SUM, 2 * from + Math.max(...costs) + 1));
      can[0] = 1;
      for (let sum = 1; sum < can.length; sum++)
        can[sum] = Number(costs.some((cost) => cost > 0 && can[sum - cost] === 1));
    }
    for (let sum = Math.max(0, from); sum < can.length; sum++) if (can[sum] === 1) return sum;
    return from;
  };
}
