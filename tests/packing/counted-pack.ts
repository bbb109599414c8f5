import type { Job } from '../../src/model/job.ts';
import type { Layout } from '../../src/model/layout.ts';
import { pack } from '../../src/packing/pack.ts';
import type { Progress } from '../../src/packing/task.ts';

/** Packs the first material at quick effort. The search stops when it asks once more than `asks` times: counted, so that the same job gives the same layout. */
export function packCounted(job: Job, asks = Number.POSITIVE_INFINITY, seed = 1): Layout {
  let asked = 0;
  const shouldStop = () => ++asked > asks;
  return pack(job, 0, { effort: 'quick', seed, shouldStop, onProgress: () => {} }).layout;
}

/** The same with the whole work, but it ends as soon as the bound is reached: for counts of sheets, not for what is left over. */
export function packUntilProved(job: Job): Layout {
  return packUntil(job, ({ used, atLeast }) => used === atLeast);
}

/** The same, ending as soon as this holds. */
export function packUntil(job: Job, isEnough: (progress: Progress) => boolean): Layout {
  let enough = false;
  return pack(job, 0, {
    effort: 'quick',
    seed: 1,
    shouldStop: () => enough,
    onProgress: (progress) => {
      enough = isEnough(progress);
    },
  }).layout;
}
