import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawStickers } from '../../src/drawing/sticker-pages.ts';
import { stickersOf } from '../../src/drawing/stickers.ts';
import type { LabelGrid } from '../../src/model/label-grid.ts';
import type { Plan } from '../../src/model/plan.ts';
import { fromMm } from '../../src/model/units.ts';
import { itemBox } from '../helpers/item-box.ts';
import { buildPlan, material, stock } from '../helpers/plan-builder.ts';

/** What is printed keeps so far from the edge of its label, in millimetres; accents on capitals may rise a little higher than the letters. */
const LEAST_EDGE = 0.4;

const letters = fc.constantFrom(...'abcxyzWMij ÄéřőßΩώЖщї|\\·-0189"\u0301');
const words = fc
  .array(letters, { minLength: 1, maxLength: 120 })
  .map((parts) => `P${parts.join('')}`);
const side = fc.integer({ min: 20, max: 2300 });

const plans = fc.record({
  name: words,
  job: words,
  goods: words,
  note: fc.option(words),
  width: side,
  height: side,
  unit: fc.constantFrom('mm', 'in'),
  bands: fc.boolean(),
});

const rolls = fc.record({
  width: fc.integer({ min: 20, max: 200 }),
  height: fc.integer({ min: 10, max: 200 }),
});

describe('whatever the names, sizes and labels', () => {
  it('what is printed stays on the label, and sizes are whole', () => {
    fc.assert(
      fc.property(plans, rolls, (sketch, { width, height }) => {
        const plan = planOf(sketch);
        const grid: LabelGrid = {
          kind: 'roll',
          label: { width: fromMm(width), height: fromMm(height) },
        };
        const [page] = drawStickers(plan, { grid, first: 1, mark: '01234567', date: null });
        const items = page!.drawing.layers.flatMap(({ groups }) =>
          groups.flatMap((each) => each.items),
        );
        for (const item of items) {
          const { minX, minY, maxX, maxY } = itemBox(item);
          expect(Math.min(minX, minY, width - maxX, height - maxY)).toBeGreaterThan(LEAST_EDGE);
        }
        const texts = items.flatMap((item) => (item.kind === 'text' ? [item.text] : []));
        const [sticker] = stickersOf(plan);
        const size =
          sketch.unit === 'mm'
            ? `${sticker!.lengths.join(' × ')} mm`
            : sticker!.lengths.map((length) => `${length}"`).join(' × ');
        expect(texts).toContain(size);
        expect(texts).toContain('1 of 1');
      }),
      { numRuns: 300 },
    );
  });
});

function planOf(sketch: typeof plans extends fc.Arbitrary<infer Value> ? Value : never): Plan {
  const { name, job, goods, note, width, height, unit, bands } = sketch;
  const sheet = stock(2440, 2440);
  const plan = buildPlan({
    name: job,
    unit: unit === 'mm' ? 'mm' : 'in',
    materials: [material(0, goods, [sheet])],
    parts: [{ name, width, height, bands: bands ? { left: fromMm(2), top: fromMm(1) } : {} }],
    sheets: [{ stock: sheet, material: 0, pieces: [{ part: 0, at: [10, 10] }] }],
  });
  const parts = plan.job.parts.map((part) => ({ ...part, note }));
  return { ...plan, job: { ...plan.job, parts } };
}
