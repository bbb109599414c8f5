import { describe, expect, it } from 'vitest';
import { holdSheets } from '../../src/holding/hold.ts';
import type { SheetHolding } from '../../src/model/holding.ts';
import type { Seal } from '../../src/model/machine.ts';
import { fromMm } from '../../src/model/units.ts';
import { partOf } from '../helpers/jobs.ts';
import { rect } from '../helpers/shapes.ts';
import { rows, type Shop, shopJob, VANE } from './jobs.ts';

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

  it('is the cause why a skin may not be enough', () => {
    const { loose } = heldOn(cord('sheet'), 600, 7, {
      machine: { passDepth: fromMm(7) },
      material: { family: 'particleboard', thickness: fromMm(16) },
    });
    const skinned = loose.filter(
      ({ action, verdictAfter }) => action === 'skin' && verdictAfter === 'marginal',
    );
    expect(skinned.length).toBeGreaterThan(0);
    for (const { why } of skinned)
      expect(why).toContain('as the light pass that takes the skin off comes when all is cut, at ');
  });
});

function cord(around: 'sheet' | 'pieces'): Seal {
  return { kind: 'gasket', around, inset: 0, grooveShare: 0.16, leakMm2: 50 };
}

/** Eight pieces on a vane pump, so far from one another. */
function heldOn(seal: Seal, side = 280, gapMm = 30, shop: Shop = {}): SheetHolding {
  const table = { seal, pump: { kind: 'vane', curve: VANE } as const };
  const job = shopJob([partOf(rect(side, 280), { count: 8 })], { ...shop, table });
  return holdSheets(job, [rows(job, gapMm)])[0]!;
}
