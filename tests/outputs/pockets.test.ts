import { describe, expect, it } from 'vitest';
import { drawFigure } from '../../src/drawing/sticker-figure.ts';
import { stickersOf } from '../../src/drawing/stickers.ts';
import { ringArea } from '../../src/geometry/area.ts';
import { planPdf, planRecord, planReport, sheetSvg } from '../../src/index.ts';
import { mixedPlan } from '../helpers/mixed-plan.ts';
import { readPdf } from '../helpers/pdf-text.ts';
import { smallPlan } from '../helpers/sample-plan.ts';
import { wholePage } from '../helpers/whole-page.ts';

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

  it('are told with their depth beside the drawing, in the report, on the page and on the label', () => {
    const told = '1 pocket, 6 mm deep; 1 pocket, 12.5 mm deep';
    expect(planReport(plan, null)).toContain(`| ${told} |`);
    const page = wholePage(plan, null);
    expect(page).toContain('["Pockets","1, 6 mm deep; 1, 12.5 mm deep"]');
    expect(page).toContain('3 holes of 5 mm, 12.5 mm deep');
    const window = stickersOf(plan).find(({ name }) => name === 'Window')!;
    expect(window.figure.pockets).toHaveLength(2);
    const room = { left: 0, bottom: 0, width: 40, height: 30 };
    const items = drawFigure(window.figure, room);
    const recesses = items.filter((item) => item.style === 'sticker-recess');
    expect(recesses).toHaveLength(2);
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
