import { describe, expect, it } from 'vitest';
import { packingTask } from '../../src/packing/bodies.ts';
import { setupOf } from '../../src/packing/outlines/setup.ts';
import { squeeze } from '../../src/packing/outlines/squeeze.ts';
import { seededRandom } from '../../src/packing/random.ts';
import type { Candidate } from '../../src/packing/task.ts';
import { WorkBudget } from '../../src/packing/work.ts';
import { jobOf, partOf, sheetOf } from '../helpers/jobs.ts';
import { disc } from '../helpers/shapes.ts';

/** One sheet a disc, each disc in the lower-left corner. */
function spread(count: number): { readonly start: Candidate; readonly end: Candidate } {
  const job = jobOf({
    spacing: 6,
    sheets: [sheetOf(500, 500)],
    parts: [partOf(disc(200), { count })],
  });
  const task = packingTask(job, 0);
  const setup = setupOf(task, 'circles', new WorkBudget(1e9));
  const start = {
    sheets: task.bodies.map(({ index }) => ({
      stock: 0,
      spots: [{ body: index, orientation: 0, x: 0, y: 0 }],
    })),
    unplaced: [],
  };
  let left = 300;
  const goOn = () => left-- > 0;
  const end = squeeze(start, {
    setup,
    random: seededRandom(1),
    better: () => undefined,
    goOn,
  });
  return { start, end };
}

describe('squeezing', () => {
  it('does away with sheets whose bodies find room elsewhere', () => {
    expect(spread(4).end.sheets.length).toBe(1);
  });

  it('leaves a very large job as it is', () => {
    const { start, end } = spread(2001);
    expect(end).toBe(start);
  });
});
