import { describe, expect, it } from 'vitest';
import { packingTask } from '../../src/packing/bodies.ts';
import { areaBound } from '../../src/packing/bounds/area.ts';
import { dualFeasibleBound } from '../../src/packing/bounds/dual-feasible.ts';
import { seededRandom } from '../../src/packing/random.ts';
import { jobOf, type PartSketch, QUARTERS } from './jobs.ts';
import { scatteredSheets } from './scattered-sheets.ts';

const SEEDS = Array.from({ length: 200 }, (_, k) => k + 1);

describe('no bound passes what is known to do', () => {
  it('for pieces laid as near as the straight-line spacing allows', () => {
    const wrong = SEEDS.filter((seed) => {
      const { stock, spacing, sheets, parts } = scatteredSheets(seed);
      const task = packingTask(jobOf([stock], parts, spacing), 0);
      return areaBound(task) > sheets || dualFeasibleBound(task) > sheets;
    });
    expect(wrong).toEqual([]);
  });

  it('for two stocks that differ in size and price, the cheap one on hand but a few times', () => {
    const wrong = SEEDS.slice(0, 80).filter((seed) => {
      const [a, b] = [scatteredSheets(seed), scatteredSheets(seed + 1000)];
      // With less spacing between them the pieces lie as well as before; a set, which would become shorter, is taken apart.
      const spacing = Math.min(a.spacing, b.spacing);
      const stocks = [
        { ...a.stock, priceCents: 70, onHand: a.sheets },
        { ...b.stock, priceCents: 110 },
      ];
      const parts = [...a.parts, ...b.parts].map(({ matched, ...part }) => part);
      const task = packingTask(jobOf(stocks, parts, spacing), 0);
      const cost = 70 * a.sheets + 110 * b.sheets;
      return areaBound(task) > cost || dualFeasibleBound(task) > cost;
    });
    expect(wrong).toEqual([]);
  });

  it.each([0, 1, 7, 8])(
    'for sheets that are cut up without waste but the spacing of %i',
    (spacing) => {
      for (const seed of SEEDS.slice(0, 12)) {
        const random = seededRandom(seed);
        const sheets = 1 + Math.floor(3 * random());
        const parts = Array.from({ length: sheets }, () =>
          cutUp({ width: 300, height: 200 }, spacing, random),
        ).flat();
        const task = packingTask(jobOf([{ length: 300, width: 200 }], parts, spacing), 0);
        // Without spacing the area leaves no doubt.
        if (spacing === 0) expect(areaBound(task)).toBe(sheets);
        expect(areaBound(task)).toBeLessThanOrEqual(sheets);
        expect(dualFeasibleBound(task)).toBeLessThanOrEqual(sheets);
      }
    },
  );
});

interface Size {
  readonly width: number;
  readonly height: number;
}

/** Cut in two across the longer side, and again, until pieces are small or chance ends it; they may be turned, and some are drawn so. */
function cutUp(size: Size, spacing: number, random: () => number): PartSketch[] {
  const long = Math.max(size.width, size.height);
  if (long < 4 * spacing + 60 || random() < 0.15) {
    const drawn = random() < 0.5 ? { width: size.height, height: size.width } : size;
    return [{ ...drawn, turns: QUARTERS }];
  }
  const first = Math.floor((long - spacing) * (0.2 + 0.6 * random()));
  const [a, b] = [first, long - spacing - first];
  const side = size.width === long ? 'width' : 'height';
  return [a, b].flatMap((part) => cutUp({ ...size, [side]: part }, spacing, random));
}
