/** Jobs of one row of the benchmark of random jobs. */
export const BATCH = 100;

/** Jobs of one seed. */
export const MOST_JOBS = 10_000;

/** Names of the batches that have the first so many jobs. */
export function batchesOf(count: number): string[] {
  const batches = Math.ceil(Math.min(MOST_JOBS, count) / BATCH);
  return Array.from({ length: batches }, (_, k) => String(k + 1).padStart(3, '0'));
}
