import { describe, expect, it } from 'vitest';
import type { Item } from '../../src/drawing/display-list.ts';
import { frameAt } from '../../src/drawing/marks.ts';
import { drawVacuumChart, type Vacuum } from '../../src/drawing/vacuum-chart.ts';

const FRAME = frameAt({ x: 0, y: 0 }, 1);

describe('the chart of the vacuum', () => {
  it('is in the unit of the gauge that goes with the file', () => {
    const vacuum = { vacuumStartKpa: 20, vacuumAlongKpa: [19, 18], lostAfter: null };
    expect(textsOf(drawVacuumChart(vacuum, 'mm', FRAME))).toEqual(
      expect.arrayContaining(['vacuum at the gauge, kPa', '20.00', '18.00', '14.40']),
    );
    expect(textsOf(drawVacuumChart(vacuum, 'in', FRAME))).toEqual(
      expect.arrayContaining(['vacuum at the gauge, inHg', '5.91', '5.32', '4.25']),
    );
  });

  it('says after which cut nothing holds any more, and asks nobody to stop below nothing', () => {
    const vacuum = { vacuumStartKpa: 16, vacuumAlongKpa: [14, 0.5, 0], lostAfter: 2 };
    const texts = textsOf(drawVacuumChart(vacuum, 'mm', FRAME));
    expect(texts).toEqual(
      expect.arrayContaining(['stop after cut 2: it holds no more', '16.00', '0.00', '11.20']),
    );
    expect(texts.filter((text) => text === '0.00')).toHaveLength(1);
    expect(texts.join()).not.toContain('80 %');
  });

  it.each<readonly [string, Vacuum]>([
    ['steady', { vacuumStartKpa: 80, vacuumAlongKpa: [80, 80], lostAfter: null }],
    ['lost at once', { vacuumStartKpa: 0, vacuumAlongKpa: [0], lostAfter: 0 }],
  ])('has a height also where the vacuum is %s', (_, vacuum) => {
    const numbers = JSON.stringify(drawVacuumChart(vacuum, 'mm', FRAME));
    // A height that is no number would stand as null.
    expect(numbers).not.toMatch(/"[xy]":null/);
  });

  it('is nothing where nothing is cut', () => {
    expect(
      drawVacuumChart({ vacuumStartKpa: 20, vacuumAlongKpa: [], lostAfter: null }, 'mm', FRAME),
    ).toEqual([]);
  });
});

function textsOf(items: readonly Item[]): string[] {
  return items.flatMap((item) => (item.kind === 'text' ? [item.text] : []));
}
