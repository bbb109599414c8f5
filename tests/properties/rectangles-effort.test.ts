import { describe, expect, it } from 'vitest';
import type { Job } from '../../src/model/job.ts';
import { fromMm } from '../../src/model/units.ts';
import { jobOf as jobOfInput } from '../helpers/jobs.ts';
import { cabinetPieces } from '../packing/cabinet-pieces.ts';
import { packCounted } from '../packing/counted-pack.ts';
import { jobOf } from '../packing/jobs.ts';
import { compareScores, scoreOf } from '../packing/layout-score.ts';
import { mixedJob } from '../packing/mixed-jobs.ts';
import { plantedSheets } from '../packing/planted-sheets.ts';

/** A search with the same seed, stopped ever later. */
const ASKS = [0, 1, 5, 20, 40, 60];

/** A search stopped while it builds still shortens the last sheet of what it has; what is left over is compared from so many asks on. */
const BUILT = 5;

const TEN = Array.from({ length: 10 }, (_, k) => k + 1);

const KINDS: readonly {
  readonly name: string;
  readonly seeds: readonly number[];
  readonly jobOfSeed: (seed: number) => Job;
}[] = [
  {
    // Those in which the search finds something after the first layout, in pieces left out, sheets or cost.
    name: 'mixed',
    seeds: [36, 52, 71, 323, 578, 599, 894, 908, 1038, 1148],
    jobOfSeed: (seed) => jobOfInput(mixedJob(seed)),
  },
  {
    name: 'cabinet',
    seeds: TEN,
    jobOfSeed: (seed) => jobOfSizes(2440, 1220, cabinetPieces(15 + 4 * seed, seed)),
  },
  {
    name: 'planted',
    seeds: TEN,
    jobOfSeed: (seed) => {
      const { length, width, pieces } = plantedSheets(seed, 0.05);
      return jobOfSizes(length, width, pieces);
    },
  },
];

describe.each(KINDS)('more effort for $name jobs', ({ seeds, jobOfSeed }) => {
  it('never leaves out more, nor uses more, nor leaves a smaller rectangle over', () => {
    const steps = seeds.flatMap((seed) => stepsOf(jobOfSeed(seed), seed));
    expect(steps.filter(({ change }) => change < 0).map(({ words }) => words)).toEqual([]);
    // Else nothing was compared.
    expect(steps.some(({ change }) => change > 0)).toBe(true);
  });
});

/** From each stop to the next: positive where the layout became better. */
function stepsOf(job: Job, seed: number): { readonly change: number; readonly words: string }[] {
  const scores = ASKS.map((asks) => scoreOf(job, packCounted(job, asks, seed)));
  return scores.slice(1).map((score, k) => {
    const counted = ASKS[k]! < BUILT ? 2 : 4;
    const change = compareScores(score.slice(0, counted), scores[k]!.slice(0, counted));
    return { change, words: `seed ${seed}, ${ASKS[k + 1]} asks: ${score} after ${scores[k]}` };
  });
}

function jobOfSizes(
  length: number,
  width: number,
  sizes: readonly { readonly width: number; readonly height: number }[],
): Job {
  return jobOf(
    [{ length: fromMm(length), width: fromMm(width) }],
    sizes.map((size) => ({ width: fromMm(size.width), height: fromMm(size.height) })),
    fromMm(6),
  );
}
