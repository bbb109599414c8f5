import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Job } from '../../src/model/job.ts';
import type { Layout } from '../../src/model/layout.ts';
import { pack } from '../../src/packing/pack.ts';
import { verifyLayout } from '../../src/verify/verify.ts';
import { type JobInput, jobOf, partOf } from '../helpers/jobs.ts';
import { rect } from '../helpers/shapes.ts';
import { doubleJob, mirrorJob, turnJob } from './alike-jobs.ts';
import { secondComplaints } from './placed-sheets.ts';
import { jobInputs } from './random-jobs.ts';

const SEED = 20_012;

const anyJob = jobInputs();

describe('packing', () => {
  it('lays out what passes the check, and the second check', () => {
    const passes = fc.property(anyJob, fc.nat(1000), (input, seed) => {
      const job = jobOf(input);
      const layout = packed(job, seed);
      expect(verifyLayout(job, layout).faults).toEqual([]);
      expect(secondComplaints(job, layout)).toEqual([]);
    });
    fc.assert(passes, { seed: SEED, numRuns: 100 });
  });

  it('lays out every piece that has room even when it is stopped at once', () => {
    const passes = fc.property(anyJob, (input) => {
      const job = jobOf(input);
      expect(verifyLayout(job, stoppedAtOnce(job)).faults).toEqual([]);
    });
    fc.assert(passes, { seed: SEED, numRuns: 60 });
  });

  it('gives the same layout for the same seed', () => {
    const same = fc.property(anyJob, fc.nat(1000), (input, seed) => {
      expect(packed(jobOf(input), seed)).toEqual(packed(jobOf(input), seed));
    });
    fc.assert(same, { seed: SEED, numRuns: 20 });
  });

  it('never uses less than the bound, whatever the seed', () => {
    const holds = fc.property(anyJob, (input) => {
      const job = jobOf(input);
      const layouts = [1, 2, 3].map((seed) => packed(job, seed));
      const complete = layouts.filter(({ unplaced }) => unplaced.length === 0);
      const highest = Math.max(...layouts.map(({ bound }) => bound.atLeast));
      for (const { used } of complete) expect(used).toBeGreaterThanOrEqual(highest);
    });
    fc.assert(holds, { seed: SEED, numRuns: 40 });
  });
});

describe('the bound', () => {
  it.each<[string, (input: JobInput) => Job]>([
    ['turned by a quarter', (input) => turnJob(jobOf(input))],
    ['turned by half', (input) => turnJob(turnJob(jobOf(input)))],
    ['mirrored', (input) => mirrorJob(jobOf(input))],
    ['twice as large', (input) => doubleJob(jobOf(input))],
    ['with its parts and sheets in another order', (input) => jobOf(inAnotherOrder(input))],
  ])('is the same for the same job %s', (_, change) => {
    const same = fc.property(anyJob, (input) => {
      expect(boundOf(change(input))).toBe(boundOf(jobOf(input)));
    });
    fc.assert(same, { seed: SEED, numRuns: 40 });
  });

  it('is never lower with a piece more', () => {
    const grows = fc.property(anyJob, (input) => {
      const more = { ...input, parts: [...input.parts, partOf(rect(60, 40))] };
      expect(boundOf(jobOf(more))).toBeGreaterThanOrEqual(boundOf(jobOf(input)));
    });
    fc.assert(grows, { seed: SEED, numRuns: 60 });
  });

  it('is never lower with more trim', () => {
    const grows = fc.property(anyJob, fc.integer({ min: 1, max: 20 }), (input, trim) => {
      const wider = { left: 10 + trim, right: 10 + trim, bottom: 10 + trim, top: 10 + trim };
      const sheets = (input.sheets ?? []).map((sheet) => ({ ...sheet, trim: wider }));
      const trimmed = stoppedAtOnce(jobOf({ ...input, sheets }));
      // A piece that the trim leaves no room for is not counted any more.
      fc.pre(trimmed.unplaced.every(({ why }) => why !== 'no-room'));
      expect(trimmed.bound.atLeast).toBeGreaterThanOrEqual(boundOf(jobOf(input)));
    });
    fc.assert(grows, { seed: SEED, numRuns: 60 });
  });
});

/** Counted, so that the same job gives the same layout. */
const ASKS = 6;

function packed(job: Job, seed: number): Layout {
  let asks = 0;
  const shouldStop = () => ++asks > ASKS;
  return pack(job, 0, { effort: 'quick', seed, shouldStop, onProgress: () => {} }).layout;
}

function stoppedAtOnce(job: Job): Layout {
  const shouldStop = () => true;
  return pack(job, 0, { effort: 'quick', seed: 1, shouldStop, onProgress: () => {} }).layout;
}

/** The bound is known before the search begins. */
function boundOf(job: Job): number {
  return stoppedAtOnce(job).bound.atLeast;
}

function inAnotherOrder(input: JobInput): JobInput {
  return {
    ...input,
    sheets: (input.sheets ?? []).toReversed(),
    parts: input.parts.toReversed(),
  };
}
