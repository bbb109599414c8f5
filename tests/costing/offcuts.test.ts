import { describe, expect, it } from 'vitest';
import { offcutsOf } from '../../src/costing/offcuts.ts';
import type { SheetLayout } from '../../src/model/layout.ts';
import { packCounted } from '../packing/counted-pack.ts';
import { jobOf } from '../packing/jobs.ts';

describe('offcuts of a routed sheet', () => {
  it.each([0, 6, 10])('leave room for the cut that parts them: spacing %i', (spacing) => {
    const job = {
      ...jobOf([{ length: 1000, width: 1000 }], [{ width: 600, height: 500 }], spacing),
      offcuts: { short: 150, long: 300, prefer: 'area' as const },
    };
    const sheet = packCounted(job).sheets[0] as SheetLayout;
    const sizes = offcutsOf(job, job.materials[0]!.sheets[0]!, sheet).map(({ box }) => [
      box.maxX - box.minX,
      box.maxY - box.minY,
    ]);
    // The whole width above the piece, then what is beside it below that.
    expect(sizes).toEqual([
      [1000, 500 - spacing],
      [400 - spacing, 500],
    ]);
  });

  it('lie a cutter away from the pieces where common cuts leave no spacing', () => {
    const { machine, ...rest } = jobOf(
      [{ length: 1000, width: 1000 }],
      [{ width: 1000, height: 500 }],
    );
    const cutter = { ...machine.cutter, diameter: 6 };
    const job = { ...rest, machine: { ...machine, cutter } };
    const sheet = packCounted(job).sheets[0] as SheetLayout;
    const rule = { short: 150, long: 300, prefer: 'area' as const };
    const [offcut] = offcutsOf({ ...job, offcuts: rule }, job.materials[0]!.sheets[0]!, sheet);
    expect(offcut?.box).toEqual({ minX: 0, minY: 506, maxX: 1000, maxY: 1000 });
  });
});
