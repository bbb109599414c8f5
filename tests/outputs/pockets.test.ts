import { describe, expect, it } from 'vitest';
import { ringArea } from '../../src/geometry/area.ts';
import { planPdf, planRecord, sheetSvg } from '../../src/index.ts';
import { mixedPlan } from '../helpers/mixed-plan.ts';
import { readPdf } from '../helpers/pdf-text.ts';
import { smallPlan } from '../helpers/sample-plan.ts';

interface PlacementRecord {
  readonly part: string;
  readonly pockets: readonly {
    readonly depth: number;
    readonly outline: readonly (readonly [number, number])[];
  }[];
}

function placementsOf(record: string): readonly PlacementRecord[] {
  const { materials } = JSON.parse(record);
  return materials.flatMap((material: { sheets: { placements: PlacementRecord[] }[] }) =>
    material.sheets.flatMap(({ placements }) => placements),
  );
}

describe('pockets', () => {
  const plan = mixedPlan('mm');

  it('are in the record as they lie, with their depth, and a list of none elsewhere', () => {
    for (const { part, pockets } of placementsOf(planRecord(plan, ''))) {
      if (part !== 'Window') {
        expect(pockets).toEqual([]);
        continue;
      }
      expect(pockets.map(({ depth }) => depth)).toEqual([6, 12.5]);
      const areas = pockets.map(({ outline }) => ringArea(outline.map(([x, y]) => ({ x, y }))));
      expect(areas[0]).toBeCloseTo(300 * 18, 0);
      expect(Math.abs(areas[1]! - (Math.PI * 35 ** 2) / 4)).toBeLessThan(1);
    }
  });

  it('are in the drawings and their legend, where there are any', async () => {
    const svg = sheetSvg(plan, 1);
    // Two of the piece and one of the legend.
    expect(svg.match(/class="pocket"/g)).toHaveLength(3);
    expect(svg).toContain('>pocket</text>');
    expect(sheetSvg(smallPlan(), 1)).not.toContain('pocket');
    const text = JSON.stringify(
      readPdf(await planPdf(plan, { paper: 'a4', scale: null, date: null })),
    );
    expect(text).toContain('pocket');
  });
});
