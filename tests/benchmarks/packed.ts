import type { Job } from '../../src/model/job.ts';
import type { Layout } from '../../src/model/layout.ts';
import { EFFORTS } from '../../src/model/plan.ts';
import { pack } from '../../src/packing/pack.ts';
import { verifyLayout } from '../../src/verify/verify.ts';
import { faultsOf } from '../packing/legal.ts';
import type { Task } from './benchmark.ts';

/** What every benchmark of rectangles tells of a run. */
export interface PackedFigures {
  readonly sheets: number;
  readonly bound: number;
  /** From the start to the first layout, and to the end, by the clock. */
  readonly firstMs: number;
  readonly ms: number;
  /** Of the processor, which others on the same machine change less. */
  readonly cpuMs: number;
}

export interface PackedJob {
  readonly layout: Layout;
  readonly faults: number;
  readonly figures: PackedFigures;
  /** The most memory this process had by then. */
  readonly peakMb: number;
}

/** Packs the one material of a job and has the layout checked twice: by the checker of every plan, and by the plain one of the tests. */
export function packed(job: Job, { effort, seed }: Pick<Task, 'effort' | 'seed'>): PackedJob {
  const known = EFFORTS.find((name) => name === effort);
  if (known === undefined) throw new Error(`no effort ${effort}`);
  let firstMs: number | null = null;
  const cpu = process.cpuUsage();
  const start = performance.now();
  const { layout } = pack(job, 0, {
    effort: known,
    seed,
    shouldStop: () => false,
    onProgress: ({ used }) => {
      if (used !== null) firstMs ??= performance.now() - start;
    },
  });
  const ms = performance.now() - start;
  const { user, system } = process.cpuUsage(cpu);
  const peakMb = process.resourceUsage().maxRSS / 1024;
  const figures = {
    sheets: layout.sheets.length,
    bound: layout.bound.atLeast,
    firstMs: tenths(firstMs ?? ms),
    ms: tenths(ms),
    cpuMs: tenths((user + system) / 1000),
  };
  // Every job here has stock without end, so a piece that lies nowhere is a fault as well.
  const faults =
    verifyLayout(job, layout).faults.length + faultsOf(job, layout).length + layout.unplaced.length;
  return { layout, faults, figures, peakMb: tenths(peakMb) };
}

function tenths(value: number): number {
  return Math.round(10 * value) / 10;
}
