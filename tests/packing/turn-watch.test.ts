import { expect, it } from 'vitest';
import { packingTask } from '../../src/packing/bodies.ts';
import { turnWatch } from '../../src/packing/pack.ts';
import type { Turn } from '../../src/packing/turns.ts';
import { jobOf } from './jobs.ts';

const PROOF = { kind: 'proof', aspect: 'boxes', work: 1, used: 9, atLeast: 5 } as const;

/** Turn, what it uses, share of it that is done; and what is then told: least used, bound, share of all that is left. */
const REPORTS: readonly [Turn, number | null, number, readonly [number | null, number, number]][] =
  [
    [{ ...PROOF, told: 3, leftBefore: 1, leftAfter: 0.5 }, null, 0.5, [null, 3, 0.75]],
    [{ ...PROOF, told: 3, leftBefore: 1, leftAfter: 0.5 }, 8, 1, [8, 3, 0.5]],
    // Another track of the same time, behind and worse.
    [{ ...PROOF, told: 3, leftBefore: 1, leftAfter: 0.5 }, 9, 0.25, [8, 3, 0.5]],
    [{ ...PROOF, told: 4, leftBefore: 0.5, leftAfter: 0 }, 6, 0.5, [6, 4, 0.25]],
    [{ ...PROOF, told: 4, leftBefore: 0.5, leftAfter: 0 }, null, 1, [6, 4, 0]],
  ];

it('turns what turns report into progress of the whole search', () => {
  const stock = { length: 100, width: 50, priceCents: null };
  const task = packingTask(jobOf([stock], [{ width: 10, height: 10, count: 1 }]), 0);
  const told: unknown[] = [];
  const shouldStop = () => false;
  const watch = turnWatch(task, {
    shouldStop,
    onProgress: ({ used, atLeast, workLeft }) => told.push([used, atLeast, workLeft]),
  });
  for (const [turn, used, share] of REPORTS) watch(turn).report({ used, share });
  expect(told).toEqual(REPORTS.map(([, , , expected]) => expected));
  expect(watch(REPORTS[0]![0]).shouldStop).toBe(shouldStop);
});
