import { describe, expect, it } from 'vitest';
import { packingTask } from '../../src/packing/bodies.ts';
import { crowdOf, sheetsOf } from '../../src/packing/outlines/crowd.ts';
import type { Measure } from '../../src/packing/outlines/overlap.ts';
import { separate } from '../../src/packing/outlines/separate.ts';
import { setupOf } from '../../src/packing/outlines/setup.ts';
import { totalLoss } from '../../src/packing/outlines/weights.ts';
import { seededRandom } from '../../src/packing/random.ts';
import type { Candidate, PackingTask } from '../../src/packing/task.ts';
import { WorkBudget } from '../../src/packing/work.ts';
import { type JobInput, jobOf, partOf, sheetOf } from '../helpers/jobs.ts';
import { disc, lShape, polygon, rect } from '../helpers/shapes.ts';
import { faultsOf } from './second-look.ts';

const MEASURES: readonly Measure[] = ['depth', 'circles'];

const PATIENCE = { sweeps: 40, strikes: 2 };

const POSSIBLE: readonly { readonly what: string; readonly job: JobInput }[] = [
  {
    what: 'squares that leave no play',
    job: { spacing: 5, sheets: [sheetOf(205, 205)], parts: [partOf(rect(100, 100), { count: 4 })] },
  },
  {
    what: 'triangles of a square',
    job: {
      spacing: 0,
      sheets: [sheetOf(200, 200)],
      parts: [partOf(polygon([0, 0], [200, 0], [0, 200]), { count: 2, turns: [0, 180] })],
    },
  },
  {
    what: 'outlines around a keep-out',
    job: {
      spacing: 5,
      sheets: [sheetOf(600, 400, { keepOuts: [[280, 180, 40, 40]] })],
      parts: [partOf(lShape(250, 250, 80), { count: 2 }), partOf(disc(120), { count: 4 })],
    },
  },
];

describe('separating bodies that overlap', () => {
  it.each(POSSIBLE.flatMap((one) => MEASURES.map((measure) => ({ ...one, measure }))))(
    '$what, by $measure',
    ({ job, measure }) => {
      const task = packingTask(jobOf(job), 0);
      const setup = setupOf(task, measure, new WorkBudget(1e9));
      const crowd = crowdOf(setup, heapOf(task));
      expect(totalLoss(crowd)).toBeGreaterThan(0);
      expect(separate(crowd, seededRandom(1), PATIENCE, () => true)).toBe(true);
      expect(faultsOf(task, { sheets: sheetsOf(crowd), unplaced: [] })).toEqual([]);
    },
  );

  it('gives up where there is no room, in its best state', () => {
    const task = packingTask(
      jobOf({ sheets: [sheetOf(205, 205)], parts: [partOf(rect(100, 100), { count: 5 })] }),
      0,
    );
    const crowd = crowdOf(setupOf(task, 'depth', new WorkBudget(1e9)), heapOf(task));
    const before = totalLoss(crowd);
    expect(separate(crowd, seededRandom(1), PATIENCE, () => true)).toBe(false);
    expect(totalLoss(crowd)).toBeLessThan(before / 2);
  });

  it('stops when it is told to', () => {
    const task = packingTask(jobOf(POSSIBLE[0]?.job ?? { parts: [] }), 0);
    const crowd = crowdOf(setupOf(task, 'depth', new WorkBudget(1e9)), heapOf(task));
    expect(separate(crowd, seededRandom(1), PATIENCE, () => false)).toBe(false);
    expect(sheetsOf(crowd)).toEqual(heapOf(task).sheets);
  });
});

/** All bodies one upon the other in the corner of one sheet. */
function heapOf({ bodies }: PackingTask): Candidate {
  const spots = bodies.map(({ index }) => ({ body: index, orientation: 0, x: 0, y: 0 }));
  return { sheets: [{ stock: 0, spots }], unplaced: [] };
}
