import { describe, expect, it } from 'vitest';
import { type Drawing, group, type Item } from '../../src/drawing/display-list.ts';
import { drawSheetPages } from '../../src/drawing/sheet-drawing.ts';
import type { Plan } from '../../src/model/plan.ts';
import type { Block } from '../../src/outputs/pdf/blocks.ts';
import { toLabelsPdf } from '../../src/outputs/pdf/labels.ts';
import { PAPER_NAMES, type Paper, toPdf } from '../../src/outputs/pdf/pdf.ts';
import { summaryBlocks } from '../../src/outputs/pdf/summary.ts';
import { SHARE_RULE } from '../../src/outputs/price.ts';
import { CAUTIONS, stopSentence } from '../../src/outputs/wording.ts';
import { expectGolden } from '../helpers/golden.ts';
import { readPdf } from '../helpers/pdf-text.ts';
import { buildPlan, material, stock } from '../helpers/plan-builder.ts';
import { samplePlan, smallPlan } from '../helpers/sample-plan.ts';

const POINTS_PER_MM = 72 / 25.4;

describe('PDF', () => {
  it('gives the same bytes twice, and other bytes with a date', async () => {
    const [one, two] = [await write(samplePlan()), await write(samplePlan())];
    expect(Buffer.compare(Buffer.from(one), Buffer.from(two))).toBe(0);
    const dated = await write(samplePlan(), 'a4', new Date('2031-05-06T07:08:09Z'));
    expect(Buffer.compare(Buffer.from(one), Buffer.from(dated))).not.toBe(0);
    expect(readPdf(dated)[0]?.text).toContain('2031-05-06');
    expect(readPdf(one).some(({ text }) => /\d{4}-\d\d-\d\d/.test(text))).toBe(false);
  });

  it('has a summary, the bars of the yield, and a page a sheet, each with its number', async () => {
    const pages = readPdf(await write(samplePlan()));
    expect(pages).toHaveLength(4);
    pages.forEach(({ text }, i) => {
      expect(text).toContain(`page ${i + 1} of 4`);
    });
    expect(pages[0]?.text).toContain('no layout can use fewer (proved)');
    for (const caution of CAUTIONS) {
      expect(plain(pages[0]?.text)).toContain(plain(caution));
    }
    expect(pages[1]?.text).toContain('on area used 82.2 %');
    expect(pages[2]?.text).toContain('Sheet 1 of 2');
    expect(pages[2]?.text).toMatch(
      /scale 1 : 1\d(\.5)? · print at 100 %: the line is 100 mm long\n/,
    );
    expect(pages[3]?.text).toContain('Back panel of the tall cupboard');
  });

  it.each([null, 'time', 'interrupt'] as const)('says what stopped the search: %s', (stopped) => {
    const plan = { ...smallPlan(), stopped };
    const blocks = summaryBlocks(plan, null);
    const said = blocks.some(
      (block) => block.kind === 'paragraph' && block.text === stopSentence(plan),
    );
    expect(said).toBe(stopped !== null);
  });

  it('has a page with the price where the file has costs, and only there', async () => {
    const plan = smallPlan();
    const line = {
      section: 'material',
      name: 'Birch, 2440 x 1220',
      amount: 1,
      unit: 'sheet',
    } as const;
    const quote = {
      ...plan.costs.quote,
      isMaterialOnly: false,
      lines: [{ ...line, eachCents: 9200, cents: 9200, missing: null }],
      totalCents: 9200,
      groups: [
        {
          group: 'Seat',
          cents: 9200,
          shares: [{ kind: 'part', name: 'Side', count: 2, cents: 9200 }],
        },
      ],
    } as const;
    const priced = { ...plan, costs: { ...plan.costs, quote } };
    const [before, after] = [readPdf(await write(plan)), readPdf(await write(priced))];
    expect(after).toHaveLength(before.length + 1);
    const pages = after.filter(({ text }) => text.includes('Price: 92.00 EUR, without tax'));
    expect(pages).toHaveLength(1);
    for (const text of ['Birch, 2440 x 1220', '1 sheet', 'Side × 2', SHARE_RULE])
      expect(plain(pages[0]?.text)).toContain(plain(text));
    const unknown = { ...quote, totalCents: null, groups: [], unknown: ['Birch: no price'] };
    const open = readPdf(await write({ ...plan, costs: { ...plan.costs, quote: unknown } }));
    expect(open.map(({ text }) => text).join()).toContain('Not known: Birch: no price');
  });

  const sizes: Readonly<Record<Paper, readonly [number, number]>> = {
    a4: [297, 210],
    a3: [420, 297],
    letter: [279.4, 215.9],
    tabloid: [431.8, 279.4],
  };

  it.each(PAPER_NAMES)('lies upright first and then across on %s', async (paper) => {
    const [long, short] = sizes[paper];
    const pages = readPdf(await write(smallPlan(), paper));
    const measured = pages.map(({ width, height }) => [
      Math.round((width / POINTS_PER_MM) * 10) / 10,
      Math.round((height / POINTS_PER_MM) * 10) / 10,
    ]);
    expect(measured).toEqual([
      [short, long],
      [long, short],
    ]);
  });

  it('draws larger on larger paper', async () => {
    const scale = async (paper: Paper) => {
      const pages = readPdf(await write(samplePlan(), paper));
      const first = pages.find(({ text }) => text.includes('Sheet 1 of'));
      return Number(/scale 1 : ([\d.]+)/.exec(first?.text ?? '')?.[1]);
    };
    expect(await scale('a3')).toBeLessThan(await scale('a4'));
  });

  it('writes Latin, Greek and Cyrillic so that they can be found again', async () => {
    const names = ['Łódź Șțű ĳ', 'Ράφι πλαϊνό', 'Стенка ящика Їґ'];
    const text = readPdf(await write(named(names)))
      .map((page) => page.text)
      .join('\n');
    for (const name of names) expect(text).toContain(name);
    expect(text).not.toContain('\ufffd');
  });

  it('goes on to further pages where there is much to say', async () => {
    const names = Array.from({ length: 40 }, (_, i) => `Part ${'with a long name '.repeat(4)}${i}`);
    const pages = readPdf(await write(named(names, true)));
    const summaries = pages.filter(({ width, height }) => height > width);
    expect(summaries.length).toBeGreaterThan(1);
    const said = plain(
      summaries.map(({ text }) => text.replace(/\n[^\n]*\npage.*$/s, '')).join(' '),
    );
    for (const name of names) expect(said).toContain(plain(name));
  });
});

describe('hatching', () => {
  it('reaches no farther than the item, however flat its arcs are', async () => {
    const [flat, straight] = [{ radius: 1e5, left: true }, null].map((bend): Drawing => {
      const sides = [
        { x: 100, y: 0, bend },
        { x: 100, y: 100, bend: null },
      ];
      const item: Item = {
        kind: 'path',
        style: 'waste',
        runs: [{ start: { x: 0, y: 0 }, sides, closed: true }],
      };
      const size = { left: 0, bottom: 0, width: 100, height: 100, paperScale: 1, toScale: true };
      const layers = [{ name: 'waste', groups: [group([item])] }] as const;
      return { id: 'waste', title: 'Waste', ...size, layers };
    });
    const strokes = async (drawing: Drawing): Promise<number> => {
      const pages = readPdf(await toLabelsPdf('Waste', [drawing], null));
      return pages[0]!.content.split(' l\n').length;
    };
    const expected = await strokes(straight!);
    expect(expected).toBeGreaterThan(50);
    expect(await strokes(flat!)).toBeLessThan(2.5 * expected);
  });
});

describe('the summary of a plan', () => {
  it('is as it was for the sample', () => {
    expectGolden(
      'sample-summary.json',
      `${JSON.stringify(summaryBlocks(samplePlan(), null).map(drawingByName), null, 1)}\n`,
    );
  });

  it('says so where everything stays, a price is missing, or pieces found no place', () => {
    const plan = smallPlan();
    const [layout] = plan.layouts;
    if (layout === undefined) throw new Error('the small plan has a layout');
    const text = JSON.stringify(
      summaryBlocks(
        {
          ...plan,
          holding: [],
          costs: { ...plan.costs, totalCents: null },
          layouts: [{ ...layout, status: 'impossible', unplaced: [{ piece: 1, why: 'no-room' }] }],
        },
        null,
      ),
    );
    expect(text).toContain('not known: a sheet has no price');
    expect(text).toContain('Arch 1: fits no sheet of its material');
    expect(text).not.toContain('At worst');
  });
});

function write(plan: Plan, paper: Paper = 'a4', date: Date | null = null): Promise<Uint8Array> {
  const sheets = plan.layouts.flatMap((layout) => layout.sheets);
  const drawings = sheets.flatMap((_, i) => drawSheetPages(plan, i));
  return toPdf({ plan, drawings }, { paper, scale: null, date });
}

/** Without the line ends and spaces, which fall as the lines break. */
function plain(text = ''): string {
  return text.replace(/\s+/g, '');
}

/** A drawing has goldens and checks of its own. */
function drawingByName(block: Block): object {
  return block.kind === 'drawing' ? { ...block, drawing: block.drawing.id } : block;
}

function named(names: readonly string[], clamped = false): Plan {
  const sheet = stock(2440, 1220);
  return buildPlan({
    name: names[0] ?? '',
    materials: [material(0, 'Plywood', [sheet])],
    parts: names.map((name) => ({ name, width: 200, height: 100 })),
    sheets: [
      {
        stock: sheet,
        material: 0,
        pieces: names.map((_, i) => ({
          part: i,
          at: [10 + (i % 10) * 208, 10 + Math.floor(i / 10) * 108],
          holding: { action: clamped ? 'clamp' : 'none' },
        })),
      },
    ],
  });
}
