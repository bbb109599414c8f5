import { describe, expect, it } from 'vitest';
import { holdSheets } from '../../src/holding/hold.ts';
import type { SheetHolding } from '../../src/model/holding.ts';
import type { Seal } from '../../src/model/machine.ts';
import { partOf } from '../helpers/jobs.ts';
import { rect } from '../helpers/shapes.ts';
import { rows, shopJob, VANE } from './jobs.ts';

describe('a table that loses its vacuum', () => {
  it('is said to after the first cut with less than a quarter of the start left', () => {
    const { vacuumStartKpa, vacuumAlongKpa, lostAfter } = heldOn(cord('sheet'));
    expect(lostAfter).not.toBeNull();
    expect(vacuumAlongKpa[lostAfter! - 1]).toBeLessThan(vacuumStartKpa / 4);
    const before = [vacuumStartKpa, ...vacuumAlongKpa][lostAfter! - 1]!;
    expect(before).toBeGreaterThanOrEqual(vacuumStartKpa / 4);
  });

  it('is not where a cord lies round each piece', () => {
    expect(heldOn(cord('pieces')).lostAfter).toBeNull();
  });

  it('is the reason that is given for what comes free after that', () => {
    const { loose, lostAfter } = heldOn(cord('sheet'));
    for (const { cutOrder, why, verdict } of loose.filter(({ kind }) => kind === 'piece')) {
      if (verdict === 'stays') continue;
      expect(why.includes('By then the vacuum has broken down')).toBe(cutOrder >= lostAfter!);
    }
  });

  it('leaves nothing to tie a thing to, as the sheet itself is not held', () => {
    const { loose, lostAfter } = heldOn(cord('sheet'), 150);
    const late = loose.filter(({ cutOrder }) => cutOrder >= lostAfter!);
    expect(late.length).toBeGreaterThan(0);
    for (const { action } of late) expect(['none', 'clamp']).toContain(action);
    // The same pieces with a cord each are held by themselves or tied to the sheet.
    const { loose: each } = heldOn(cord('pieces'), 150);
    expect(each.every(({ verdictAfter }) => verdictAfter === 'stays')).toBe(true);
  });
});

function cord(around: 'sheet' | 'pieces'): Seal {
  return { kind: 'gasket', around, inset: 0, grooveShare: 0.16, leakMm2: 50 };
}

/** Eight pieces on a vane pump, so far from one another. */
function heldOn(seal: Seal, side = 280): SheetHolding {
  const table = { seal, pump: { kind: 'vane', curve: VANE } as const };
  const job = shopJob([partOf(rect(side, 280), { count: 8 })], { table });
  return holdSheets(job, [rows(job, 30)])[0]!;
}
