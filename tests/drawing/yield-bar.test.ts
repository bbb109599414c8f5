import { describe, expect, it } from 'vitest';
import { yieldsOf } from '../../src/costing/yields.ts';
import type { Drawing, Item, PathItem, TextItem } from '../../src/drawing/display-list.ts';
import { textWidth } from '../../src/drawing/text.ts';
import { drawYieldBars } from '../../src/drawing/yield-bar.ts';
import type { SheetCosts } from '../../src/model/costs.ts';
import type { Plan } from '../../src/model/plan.ts';
import { buildPlan, material, stock } from '../helpers/plan-builder.ts';
import { chestPlan } from '../helpers/sawn-plan.ts';

type Areas = Pick<
  SheetCosts,
  | 'pieceAreaMm2'
  | 'offcutAreaMm2'
  | 'kerfAreaMm2'
  | 'trimAreaMm2'
  | 'keepOutAreaMm2'
  | 'skeletonAreaMm2'
  | 'looseAreaMm2'
>;

const NOTHING: Areas = {
  pieceAreaMm2: 0,
  offcutAreaMm2: 0,
  kerfAreaMm2: 0,
  trimAreaMm2: 0,
  keepOutAreaMm2: 0,
  skeletonAreaMm2: 0,
  looseAreaMm2: 0,
};
const USUAL: Areas = {
  pieceAreaMm2: 700,
  offcutAreaMm2: 120,
  kerfAreaMm2: 31,
  trimAreaMm2: 22,
  keepOutAreaMm2: 3,
  skeletonAreaMm2: 98,
  looseAreaMm2: 26,
};
const LONG =
  'Walnut-veneered medium density fibreboard with a balancing veneer of the second choice, 19 mm, book matched';

/** A material with one sheet for each. */
const CASES: readonly { name: string; sheets: readonly [string, Areas][]; bars: number }[] = [
  { name: 'one material', sheets: [['Birch plywood 18 mm', USUAL]], bars: 1 },
  {
    name: 'five materials',
    sheets: [
      ['Birch plywood 18 mm', USUAL],
      [LONG, { ...USUAL, pieceAreaMm2: 3, skeletonAreaMm2: 600 }],
      ['All kept', { ...NOTHING, pieceAreaMm2: 1, offcutAreaMm2: 999 }],
      [
        'Tiny shares',
        {
          ...NOTHING,
          pieceAreaMm2: 994,
          kerfAreaMm2: 1,
          trimAreaMm2: 1,
          keepOutAreaMm2: 1,
          skeletonAreaMm2: 1,
          looseAreaMm2: 1,
          offcutAreaMm2: 1,
        },
      ],
      [
        'Tiny first',
        {
          ...NOTHING,
          pieceAreaMm2: 1,
          offcutAreaMm2: 1,
          kerfAreaMm2: 1,
          trimAreaMm2: 1,
          keepOutAreaMm2: 1,
          skeletonAreaMm2: 1,
          looseAreaMm2: 994,
        },
      ],
    ],
    bars: 6,
  },
  { name: 'nothing but waste', sheets: [['Scrap', { ...NOTHING, looseAreaMm2: 1 }]], bars: 1 },
  { name: 'nothing but pieces', sheets: [['Neat', { ...NOTHING, pieceAreaMm2: 1 }]], bars: 1 },
  {
    name: 'shares under 0.05 %',
    sheets: [['Birch', { ...NOTHING, pieceAreaMm2: 9999, kerfAreaMm2: 1 }]],
    bars: 1,
  },
];

describe('the bars of the yield', () => {
  it.each(CASES)(
    'stand apart, inside the drawing, and make up the whole: $name',
    ({ sheets, bars }) => {
      const [drawing, ...more] = drawYieldBars(planWith(sheets));
      expect(more).toEqual([]);
      const segments = pathsOf(drawing!, 'chart').filter(({ style }) => !style.startsWith('plate'));
      const widths = segments.map(({ runs }) => runs[0]!.sides[0]!.x - runs[0]!.start.x);
      expect(widths.every((width) => width > 0)).toBe(true);
      expect(widths.reduce((a, b) => a + b, 0)).toBeCloseTo(bars * drawing!.width, 6);
      const texts = textsOf(drawing!);
      expect(texts.some(({ text }) => text.includes(' 0.0 %') && !text.includes('yield'))).toBe(
        false,
      );
      for (const one of texts) {
        const [from, to] = reachOf(one);
        expect(from).toBeGreaterThan(-1e-6);
        expect(to).toBeLessThan(drawing!.width + 1e-6);
        expect(one.at.y).toBeGreaterThan(drawing!.bottom);
        expect(one.at.y).toBeLessThan(drawing!.height);
        const beside = texts.filter((other) => other !== one && other.at.y === one.at.y);
        for (const other of beside) {
          const [start, end] = reachOf(other);
          expect(end <= from || to <= start).toBe(true);
        }
      }
    },
  );

  it('write every share once, so that nobody has to tell colours apart', () => {
    const [drawing] = drawYieldBars(planWith([['Birch', USUAL]]));
    const texts = textsOf(drawing!).map(({ text }) => text);
    expect(texts).toEqual(
      expect.arrayContaining([
        'pieces 70.0 %',
        '12.0 %',
        '3.1 %',
        '2.2 %',
        '0.3 %',
        '9.8 %',
        '2.6 %',
      ]),
    );
    expect(texts.join()).toContain('yield on purchase 70.0 %, on area used 79.5 %');
    const styles = pathsOf(drawing!, 'legend').map(({ style }) => style);
    expect(new Set(styles).size).toBe(7);
    expect(styles).toHaveLength(7);
  });

  it('have a bar for each material of a saw, without a skeleton', () => {
    const [drawing] = drawYieldBars(chestPlan());
    expect(
      textsOf(drawing!)
        .map(({ text }) => text)
        .join(),
    ).not.toContain('skeleton');
  });

  it('go into another drawing where there are many, and are none where nothing is laid out', () => {
    const many = Array.from({ length: 14 }, (_, i): [string, Areas] => [`Stock ${i}`, USUAL]);
    expect(drawYieldBars(planWith(many)).map(({ id }) => id)).toEqual(['yield-1', 'yield-2']);
    expect(drawYieldBars(planWith([]))).toEqual([]);
  });
});

function planWith(sheets: readonly (readonly [string, Areas])[]): Plan {
  const plan = buildPlan({
    name: 'Trial',
    materials: sheets.map(([name], i) => material(i, name, [stock(1000, 1000)])),
    parts: [],
    sheets: sheets.map((_, i) => ({ stock: stock(1000, 1000), material: i, pieces: [] })),
  });
  const costs = plan.costs.sheets.map((sheet, i) => ({ ...sheet, ...sheets[i]![1] }));
  const yields = yieldsOf(plan.job.materials, plan.layouts, { sheets: costs, boards: [] });
  return { ...plan, costs: { ...plan.costs, yields } };
}

function itemsOf(drawing: Drawing, name: string): readonly Item[] {
  return drawing.layers
    .filter((layer) => layer.name === name)
    .flatMap(({ groups }) => groups.flatMap(({ items }) => items));
}

function pathsOf(drawing: Drawing, name: string): PathItem[] {
  return itemsOf(drawing, name).filter((item) => item.kind === 'path');
}

function textsOf(drawing: Drawing): TextItem[] {
  return ['legend', 'chart'].flatMap((name) =>
    itemsOf(drawing, name).filter((item) => item.kind === 'text'),
  );
}

function reachOf({ at, text, size, anchor }: TextItem): readonly [number, number] {
  const width = textWidth(text, size);
  const share = { start: 0, middle: 0.5, end: 1 }[anchor];
  return [at.x - share * width, at.x + (1 - share) * width];
}
