import { describe, expect, it } from 'vitest';
import type { Job } from '../src/model/job.ts';
import { fromMm } from '../src/model/units.ts';
import { packingTask } from '../src/packing/bodies.ts';
import { pack } from '../src/packing/pack.ts';
import { runTurn } from '../src/packing/turns.ts';
import { packWith, type TurnRunner } from '../src/workers.ts';
import { jobOf as mixedJobOf } from './helpers/jobs.ts';
import { cabinetPieces } from './packing/cabinet-pieces.ts';
import { jobOf } from './packing/jobs.ts';
import { mixedInput, STOCKS } from './packing/mixed-outlines.ts';

const OPTIONS = {
  effort: 'quick',
  seed: 3,
  shouldStop: () => false,
  onProgress: () => {},
} as const;

describe('a search that runs elsewhere', () => {
  it.each([20, 30, 40])(
    'gives the same packing of %i pieces, the last turn first',
    async (count) => {
      const pieces = cabinetPieces(count, 1).map(({ width, height }) => ({
        width: fromMm(width),
        height: fromMm(height),
      }));
      const job = jobOf([{ length: fromMm(2440), width: fromMm(1220) }], pieces);
      const expected = pack(job, 0, OPTIONS);
      for (const runners of [1, 2])
        expect(await packWith(lastFirst(job, runners), job, 0, OPTIONS)).toEqual(expected);
    },
  );

  it('gives the same packing of a mixed job', async () => {
    const job = mixedJobOf(mixedInput(14, 6, STOCKS.priced));
    const expected = pack(job, 0, OPTIONS);
    expect(await packWith(lastFirst(job, 2), job, 0, OPTIONS)).toEqual(expected);
  });
});

/** Runners that have nothing in common but what they are sent, as threads would; of the turns that wait, the last one runs first. */
function lastFirst(job: Job, count: number): TurnRunner[] {
  const waiting: (() => void)[] = [];
  return Array.from({ length: count }, () => {
    const task = packingTask(structuredClone(job), 0);
    return (turn, report) =>
      new Promise((resolve) => {
        const { shouldStop } = OPTIONS;
        waiting.push(() =>
          resolve(structuredClone(runTurn(task, structuredClone(turn), { shouldStop, report }))),
        );
        setImmediate(() => waiting.pop()?.());
      });
  });
}
