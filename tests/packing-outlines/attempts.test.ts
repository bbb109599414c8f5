import { describe, expect, it } from 'vitest';
import { fromMm } from '../../src/model/units.ts';
import { packingTask } from '../../src/packing/bodies.ts';
import { crowdKeeper, restartAttempt } from '../../src/packing/outlines/attempts.ts';
import { placeOf } from '../../src/packing/outlines/probe.ts';
import { setupOf } from '../../src/packing/outlines/setup.ts';
import { seededRandom } from '../../src/packing/random.ts';
import { WorkBudget } from '../../src/packing/work.ts';
import { jobOf, partOf, sheetOf } from '../helpers/jobs.ts';
import { disc } from '../helpers/shapes.ts';

const WIDTH = fromMm(100);

/** Four discs in a row on one sheet, laid anew on a length that is longer by a share; where the sheet ends, and where they lie. */
function restarted(longer: number): { readonly endX: number; readonly xs: readonly number[] } {
  const job = jobOf({
    spacing: 0,
    sheets: [sheetOf(1000, 200)],
    parts: [partOf(disc(100), { count: 4 })],
  });
  const task = packingTask(job, 0);
  const setup = setupOf(task, 'circles', new WorkBudget(1e9));
  const spots = task.bodies.map(({ index }) => ({
    body: index,
    orientation: 0,
    x: WIDTH * index,
    y: 0,
  }));
  const random = seededRandom(3);
  const tools = { setup, random };
  const candidate = { sheets: [{ stock: 0, spots }], unplaced: [] };
  const { crowd } = restartAttempt(candidate, longer, { ...tools, crowdFor: crowdKeeper(tools) });
  const xs = spots.map((_, i) => placeOf(crowd, i).x);
  return { endX: crowd.sheets[0]?.endX ?? 0, xs };
}

describe('a restart', () => {
  it.each([0, 0.125, 0.5])('lets a sheet be longer by a share of %s of what was used', (longer) => {
    const { endX, xs } = restarted(longer);
    expect(endX).toBe(4 * WIDTH * (1 + longer));
    for (const x of xs) expect(x + WIDTH).toBeLessThanOrEqual(endX);
    expect(xs).not.toEqual([0, WIDTH, 2 * WIDTH, 3 * WIDTH]);
  });

  it('never goes beyond the sheet', () => {
    expect(restarted(9).endX).toBe(fromMm(1000));
  });
});
