import { describe, expect, it } from 'vitest';
import { PAGE } from '../../src/drawing/arrangement.ts';
import type { Drawing, Group, Item, TextItem } from '../../src/drawing/display-list.ts';
import { drawSheet, drawSheetPages } from '../../src/drawing/sheet-drawing.ts';
import { LETTERS } from '../../src/drawing/styles.ts';
import { textWidth } from '../../src/drawing/text.ts';
import { type Box, boxContains, boxesOverlap, growBox } from '../../src/geometry/box.ts';
import { boxOfShape, placeShape } from '../../src/geometry/pose.ts';
import type { Plan } from '../../src/model/plan.ts';
import { fromMm } from '../../src/model/units.ts';
import { buildPlan, holding, material, type PieceSketch, stock } from '../helpers/plan-builder.ts';
import { samplePlan } from '../helpers/sample-plan.ts';

/** Sheets that crowd: the sample, forty pieces of all sizes, and two hundred small ones. */
const SCENES: readonly (readonly [string, Plan, number])[] = [
  ['the sample, first sheet', samplePlan(), 0],
  ['the sample, second sheet', samplePlan(), 1],
  ['forty pieces', rowsOfPieces(40, 90, 430, 'x'), 0],
  ['forty pieces with grain across', rowsOfPieces(40, 90, 430, 'y'), 0],
  ['two hundred pieces', rowsOfPieces(200, 40, 150, 'x'), 0],
  ['strips that move', stripsThatMove(), 0],
];
const CROWDED = SCENES.map(
  ([name, plan, sheet]) => [name, plan, sheet, drawSheet(plan, sheet)] as const,
);

describe('the drawing of a sheet', () => {
  it.each(CROWDED)('%s: no writing covers other writing', (_, __, ___, drawing) => {
    const boxes = textsOf(drawing).map((item) => ({
      text: item.text,
      box: growBox(textBox(item), -0.1 * item.size),
    }));
    const clashes = boxes.flatMap((a, i) =>
      boxes
        .slice(i + 1)
        .filter((b) => boxesOverlap(a.box, b.box))
        .map((b) => `${a.text} / ${b.text}`),
    );
    expect(clashes).toEqual([]);
  });

  it.each(CROWDED)(
    '%s: writing stays on its piece, and all of it on the drawing',
    (_, plan, sheet) => {
      const drawing = drawSheet(plan, sheet);
      const outside = pieceGroups(drawing).flatMap(({ id, items }) => {
        const box = pieceBox(plan, id);
        return items.filter(isText).filter((item) => !boxContains(box, textBox(item)));
      });
      expect(outside.map(({ text }) => text)).toEqual([]);
      const { left, bottom, width, height } = drawing;
      const whole = { minX: left, minY: bottom, maxX: left + width, maxY: bottom + height };
      for (const item of textsOf(drawing)) expect(boxContains(whole, textBox(item))).toBe(true);
    },
  );

  it.each(CROWDED)('%s: letters stay legible on A4', (_, __, ___, drawing) => {
    for (const { size } of textsOf(drawing)) {
      expect(size / drawing.paperScale).toBeGreaterThanOrEqual(LETTERS.smallest - 1e-9);
    }
  });

  it.each(CROWDED)('%s: every piece is drawn, titled and listed', (_, plan, sheet, drawing) => {
    const placements = plan.layouts.flatMap((layout) => layout.sheets)[sheet]?.placements ?? [];
    const groups = pieceGroups(drawing);
    expect(groups).toHaveLength(placements.length);
    const listed = layerTexts(drawing, 'table');
    for (const { title, items } of groups) {
      const order = /number (\d+)/.exec(title ?? '')?.[1] ?? '';
      const written = items.filter(isText).map(({ text }) => text);
      expect([...written, ...layerTexts(drawing, 'numbers')]).toContain(order);
      expect(listed).toContain(order);
    }
  });

  it('has a triangle with the number of every strip that moves, above all pieces', () => {
    const drawing = drawSheet(stripsThatMove(), 0);
    const names = drawing.layers.map(({ name }) => name);
    expect(names.indexOf('numbers')).toBeGreaterThan(names.indexOf('tabs'));
    const { groups } = drawing.layers.find(({ name }) => name === 'numbers')!;
    const styles = groups.flatMap(({ items }) => items.map(({ style }) => style));
    expect(styles.filter((style) => style === 'sign-stop')).toHaveLength(8);
  });

  it('says name, number, size, order and what to do in the title of a piece', () => {
    const titles = pieceGroups(drawSheet(samplePlan(), 0)).map(({ title }) => title);
    expect(titles).toContain('Side 1/2, 720 × 560 mm, number 18 to come free');
    expect(titles).toContain('Bracket 1/2, 200 × 150 mm, number 2 to come free, 3 tabs 8 × 3');
  });

  it('gives every large piece its grain arrow, along the grain of the sheet', () => {
    for (const axis of ['x', 'y'] as const) {
      const drawing = drawSheet(rowsOfPieces(12, 250, 430, axis), 0);
      for (const { items } of pieceGroups(drawing)) {
        const arrow = items.find((item) => item.kind === 'line' && item.style === 'grain');
        if (arrow?.kind !== 'line') throw new Error('no arrow');
        expect(arrow.from.x === arrow.to.x).toBe(axis === 'y');
        expect(arrow.from.y === arrow.to.y).toBe(axis === 'x');
      }
    }
  });

  it('has no arrow on a sheet without grain, and says so', () => {
    const drawing = drawSheet(samplePlan(), 1);
    expect(allItems(drawing).some(({ style }) => style === 'grain')).toBe(false);
    expect(layerTexts(drawing, 'title').join(' ')).toContain('no grain');
  });

  it('writes the sizes of a turned piece along the edges that they measure', () => {
    const plan = onePiece({ part: 0, at: [400 + 100, 100], turn: 90 });
    const texts = textsOf(drawSheet(plan, 0));
    // A part of 700 × 400 that is turned stands 400 wide and 700 high.
    expect(texts.find(({ text, turn }) => text === '400' && turn === 0)).toBeDefined();
    expect(texts.find(({ text, turn }) => text === '700' && turn === 90)).toBeDefined();
  });

  it('draws a mark at every tab, through and blind holes apart, bands as thick lines', () => {
    const drawing = drawSheet(samplePlan(), 0);
    const styles = allItems(drawing).map(({ style }) => style);
    const count = (style: string) => styles.filter((name) => name === style).length;
    expect(count('tab')).toBe(3 + 2 + 2);
    expect(count('tab-waste')).toBe(2);
    // One of each more than on the pieces: the legend shows it.
    expect(count('hole-through')).toBe(2 + 1);
    expect(count('hole-blind')).toBe(2 * 18 + 1);
    expect(count('band')).toBe(2 + 3 * 2 + 1);
  });

  it('keeps arcs as arcs', () => {
    const arch = pieceGroups(drawSheet(samplePlan(), 0)).find(({ title }) =>
      title?.startsWith('Arched rail'),
    );
    const [body] = arch?.items ?? [];
    if (body?.kind !== 'path') throw new Error('no outline');
    expect(body.runs[0]?.sides.some(({ bend }) => bend !== null)).toBe(true);
  });

  it('shows keep-outs with their reason, offcuts with their size, and where the tabs are', () => {
    const drawing = drawSheet(samplePlan(), 0);
    expect(layerTexts(drawing, 'keep-outs')).toEqual(['K1', 'K2']);
    expect(layerTexts(drawing, 'offcuts')).toEqual(['offcut 190 × 632']);
    const notes = layerTexts(drawing, 'table').join(' ');
    expect(notes).toContain('K1: broken corner');
    expect(notes).toContain('(1700, 98) (1840, 98) (1770, 248)');
  });

  it('lists the skins to take off after all cuts, and charts the vacuum to the last of them', () => {
    const drawing = drawSheet(samplePlan(), 0);
    const notes = layerTexts(drawing, 'table').join(' ');
    expect(notes).toContain('After all cuts take the skin off: 8, 9, 12, 13');
    expect(layerTexts(drawing, 'chart')).toEqual(
      expect.arrayContaining(['20.00', '12.00', '9.60', 'start', 'cut 20']),
    );
    const chart = drawing.layers.find(({ name }) => name === 'chart')!.groups[0]!.items;
    const lines = chart.filter((item) => item.kind === 'path');
    expect(lines.map(({ style }) => style)).toEqual(['vacuum', 'vacuum-alarm']);
    // A level before the first cut and after each of 20, two corners each.
    for (const { runs } of lines) expect(runs[0]!.sides).toHaveLength(2 * 21 - 1);
  });

  it('has no chart where nothing is cut', () => {
    const plan = samplePlan();
    const drawing = drawSheet({ ...plan, holding: [] }, 0);
    expect(layerTexts(drawing, 'chart')).toEqual([]);
  });

  it('explains in the legend what is on the sheet, and nothing else', () => {
    const legend = layerTexts(drawSheet(samplePlan(), 1), 'legend');
    expect(legend).toContain('leave a skin (3)');
    expect(legend).not.toContain('edge band');
    expect(legend.join(' ')).not.toContain('clamp');
  });

  it('takes names as they are, less what would break the page', () => {
    const plan = onePiece({ part: 0, at: [10, 10] }, 'A\u202eB <b>&"x"</b>\u0007');
    expect(pieceGroups(drawSheet(plan, 0))[0]?.title).toMatch(/^AB <b>&"x"<\/b> 1\/1,/);
  });

  it('draws a piece that the holding plan does not know with a dash for its number', () => {
    const plan = onePiece({ part: 0, at: [10, 10] });
    const drawing = drawSheet({ ...plan, holding: [] }, 0);
    expect(layerTexts(drawing, 'pieces')).toContain('–');
  });

  it('warns of what may still move', () => {
    const plan = onePiece({
      part: 0,
      at: [10, 10],
      holding: { action: 'clamp', verdictAfter: 'moves' },
    });
    expect(layerTexts(drawSheet(plan, 0), 'pieces')).toContain('!');
  });
});

describe('the pages of a sheet', () => {
  it.each(CROWDED)('%s: fit A4 in landscape', (_, plan, sheet) => {
    for (const page of drawSheetPages(plan, sheet)) {
      expect(page.width / page.paperScale).toBeLessThanOrEqual(PAGE.width);
      expect(page.height / page.paperScale).toBeLessThanOrEqual(PAGE.height);
    }
  });

  it('is one where the table fits beside the sheet or below it', () => {
    expect(drawSheetPages(samplePlan(), 0)).toHaveLength(1);
    expect(drawSheetPages(rowsOfPieces(40, 90, 430, 'x'), 0)).toHaveLength(1);
  });

  it('goes on with lists that name every piece once where the table is too long', () => {
    const plan = rowsOfPieces(200, 40, 150, 'x');
    const [sheet, ...lists] = drawSheetPages(plan, 0);
    expect(sheet?.toScale).toBe(true);
    expect(lists.length).toBeGreaterThan(0);
    expect(lists.every((list) => !list.toScale)).toBe(true);
    const orders = lists
      .flatMap((list) => layerTexts(list, 'table'))
      .filter((text) => /^\d+$/.test(text));
    const placed = pieceGroups(sheet as Drawing).length;
    expect(orders.map(Number)).toEqual(Array.from({ length: placed }, (_, i) => i + 1));
  });
});

/** Rows of rectangles that get smaller, on one large sheet; the small ones need care of each kind in turn. */
function rowsOfPieces(count: number, least: number, most: number, grainAxis: 'x' | 'y'): Plan {
  const sheet = stock(2440, 1220, { grainAxis });
  const actions = ['skin', 'tabs', 'clamp', 'earlier'] as const;
  const names = ['Side', 'Drawer front, upper', 'Стенка', 'Ράφι', 'Łódź szuflada', 'Cleat'];
  const parts: { name: string; width: number; height: number }[] = [];
  const pieces: PieceSketch[] = [];
  let [x, y, row] = [10, 10, 0];
  for (let i = 0; i < count; i++) {
    const width = least + ((i * 37) % 100) * 0.01 * (most - least);
    const height = most - (i / count) * (most - least);
    if (x + width > 2430) [x, y, row] = [10, y + row + 8, 0];
    if (y + height > 1210) break;
    row = Math.max(row, height);
    parts.push({ name: names[i % names.length] ?? '', width, height });
    const action = width * height < 30_000 ? (actions[i % 4] ?? 'none') : 'none';
    pieces.push({
      part: i,
      at: [x, y],
      holding: holding(1, { piece: i, cutOrder: i + 1, action, skin: fromMm(0.5) }),
    });
    x += width + 8;
  }
  return buildPlan({
    name: 'Rows',
    materials: [material(0, 'Plywood', [sheet])],
    parts,
    sheets: [{ stock: sheet, material: 0, pieces }],
  });
}

function onePiece(piece: PieceSketch, name = 'Panel'): Plan {
  const sheet = stock(1525, 1525);
  return buildPlan({
    name: 'One',
    materials: [material(0, 'Plywood', [sheet])],
    parts: [{ name, width: 700, height: 400 }],
    sheets: [{ stock: sheet, material: 0, pieces: [piece] }],
  });
}

/** Eight strips of 12 mm, a kerf apart. */
function stripsThatMove(): Plan {
  const sheet = stock(2440, 1220, {});
  const none = { action: 'none', verdict: 'moves', verdictAfter: 'moves' } as const;
  return buildPlan({
    name: 'Strips',
    materials: [material(0, 'Plywood', [sheet])],
    parts: [{ name: 'Strip', width: 1800, height: 12 }],
    sheets: [
      {
        stock: sheet,
        material: 0,
        pieces: Array.from({ length: 8 }, (_, i): PieceSketch => {
          return { part: 0, at: [10, 10 + 19 * i], holding: { cutOrder: i + 1, ...none } };
        }),
      },
    ],
  });
}

function pieceGroups({ layers }: Drawing): readonly Group[] {
  return layers.filter(({ name }) => name === 'pieces').flatMap(({ groups }) => groups);
}

function pieceBox(plan: Plan, id: string | null): Box {
  const piece = plan.job.pieces[Number(id?.replace('piece-', ''))];
  const part = plan.job.parts[piece?.part ?? -1];
  const placement = plan.layouts
    .flatMap((layout) => layout.sheets)
    .flatMap((sheet) => sheet.placements)
    .find((entry) => entry.piece === piece?.index);
  if (part === undefined || placement === undefined) throw new Error(`no piece ${id}`);
  const box = boxOfShape(placeShape(part.shape, placement));
  return {
    minX: box.minX / 8000,
    minY: box.minY / 8000,
    maxX: box.maxX / 8000,
    maxY: box.maxY / 8000,
  };
}

function allItems({ layers }: Drawing): readonly Item[] {
  return layers.flatMap(({ groups }) => groups.flatMap(({ items }) => items));
}

function isText(item: Item): item is TextItem {
  return item.kind === 'text';
}

function textsOf(drawing: Drawing): readonly TextItem[] {
  return allItems(drawing).filter(isText);
}

function layerTexts({ layers }: Drawing, layer: string): readonly string[] {
  return layers
    .filter(({ name }) => name === layer)
    .flatMap(({ groups }) => groups.flatMap(({ items }) => items.filter(isText)))
    .map(({ text }) => text);
}

/** From the base line to the height of a capital. */
function textBox({ at, text, size, anchor, turn }: TextItem): Box {
  const width = textWidth(text, size);
  const before = anchor === 'start' ? 0 : anchor === 'middle' ? width / 2 : width;
  const high = 0.72 * size;
  return turn === 0
    ? { minX: at.x - before, maxX: at.x - before + width, minY: at.y, maxY: at.y + high }
    : { minX: at.x - high, maxX: at.x, minY: at.y - before, maxY: at.y - before + width };
}
