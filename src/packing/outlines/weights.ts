import type { Crowd } from './crowd.ts';

/** How much a weight rises after a sweep: by the first factor at least, and by more the larger the loss is; and how it fades without one. */
const LEAST_RISE = 1.2;
const MORE_RISE = 0.8;
const DECAY = 0.95;

/** Raises the weights of all pairs that overlap and lets the others fade. */
export function turnWeights(crowd: Crowd): void {
  const { loss, live, weight } = crowd;
  let most = 0;
  for (const pair of live) most = Math.max(most, loss[pair] as number);
  keepLive(crowd, (pair) => {
    const own = loss[pair] as number;
    const factor = own > 0 ? LEAST_RISE + (MORE_RISE * own) / most : DECAY;
    return Math.max(1, (weight[pair] as number) * factor);
  });
}

export function resetWeights(crowd: Crowd): void {
  keepLive(crowd, () => 1);
}

/** The sum of the unweighted losses of all pairs. */
export function totalLoss({ loss, live }: Crowd): number {
  let sum = 0;
  for (const pair of live) sum += loss[pair] as number;
  return sum;
}

/** Gives the live pairs new weights, and keeps those live that have a loss or a weight above 1. */
function keepLive(crowd: Crowd, weightOf: (pair: number) => number): void {
  const { live, isLive, loss, weight, total } = crowd;
  let kept = 0;
  for (const pair of live) {
    const own = weightOf(pair);
    const row = Math.floor(pair / total);
    weight[pair] = own;
    weight[(pair - row * total) * total + row] = own;
    if (own > 1 || (loss[pair] as number) > 0) live[kept++] = pair;
    else isLive[pair] = 0;
  }
  crowd.work += live.length;
  live.length = kept;
}
