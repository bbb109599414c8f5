import { describe, expect, it } from 'vitest';
import type { Drawing, Group, Item, TextItem } from '../../src/drawing/display-list.ts';
import { LEAST_MODULE, QUIET_ZONE } from '../../src/drawing/sticker-code.ts';
import { cellOf, drawStickers, type StickerOptions } from '../../src/drawing/sticker-pages.ts';
import { stickersOf } from '../../src/drawing/stickers.ts';
import { boxContains, boxesOverlap, growBox } from '../../src/geometry/box.ts';
import {
  KNOWN_GRIDS,
  knownGrid,
  type LabelGrid,
  labelsPerPage,
} from '../../src/model/label-grid.ts';
import type { Plan } from '../../src/model/plan.ts';
import { fromMm, toMm } from '../../src/model/units.ts';
import { benchPlan } from '../helpers/board-plan.ts';
import { expectGolden } from '../helpers/golden.ts';
import { around, itemBox } from '../helpers/item-box.ts';
import { samplePlan, smallPlan } from '../helpers/sample-plan.ts';
import { cratePlan } from '../helpers/sawn-plan.ts';

const MARK = '0123abcd';

const roll = (width: number, height: number): LabelGrid => ({
  kind: 'roll',
  label: { width: fromMm(width), height: fromMm(height) },
});

const custom: LabelGrid = {
  kind: 'sheet',
  paper: { width: fromMm(100), height: fromMm(150) },
  columns: 2,
  rows: 3,
  label: { width: fromMm(45), height: fromMm(40) },
  pitch: { width: fromMm(48), height: fromMm(47) },
  left: fromMm(3),
  top: fromMm(8),
};

const GRIDS: readonly (readonly [string, LabelGrid])[] = [
  ...KNOWN_GRIDS.map(
    (known) =>
      [`${known.paper} ${known.columns} x ${known.rows}`, knownGrid(known.paper, known)!] as const,
  ),
  ['custom 2 x 3', custom],
  ['roll 62 x 40', roll(62, 40)],
  ['roll 29 x 90', roll(29, 90)],
  ['roll 25 x 13', roll(25, 13)],
  ['roll 20 x 10', roll(20, 10)],
  ['roll 100 x 150', roll(100, 150)],
];

const usual = knownGrid('a4', null)!;

function draw(plan: Plan, grid: LabelGrid = usual, first = 1) {
  return collected(plan, { grid, first, mark: MARK, date: null });
}

function collected(plan: Plan, options: StickerOptions) {
  const pages = [...drawStickers(plan, options)];
  const sum = (of: 'labels' | 'withoutCode') => pages.reduce((all, page) => all + page[of], 0);
  return {
    pages: pages.map(({ drawing }) => drawing),
    labels: sum('labels'),
    withoutCode: sum('withoutCode'),
  };
}

function groupsOf(pages: readonly Drawing[]): readonly Group[] {
  return pages.flatMap(({ layers }) => layers.flatMap(({ groups }) => groups));
}

const textsOf = (items: readonly Item[]) =>
  items.filter((item): item is TextItem => item.kind === 'text').map(({ text }) => text);

describe.each(GRIDS)('labels on %s', (_, grid) => {
  const { pages, labels } = draw(samplePlan(), grid);
  const perPage = labelsPerPage(grid);
  const cells = Array.from({ length: perPage }, (_each, place) => {
    const { left, bottom, width, height } = cellOf(grid, place);
    const cell = { minX: left, minY: bottom, maxX: left + width, maxY: bottom + height };
    // Sums of millimetres end a little beside the sums of whole lengths.
    return growBox(cell, -1e-6);
  });

  it('has its cells apart and on the paper', () => {
    const paper = grid.kind === 'roll' ? grid.label : grid.paper;
    const sheet = { minX: 0, minY: 0, maxX: toMm(paper.width), maxY: toMm(paper.height) };
    for (const [i, cell] of cells.entries()) {
      expect(boxContains(sheet, cell)).toBe(true);
      for (const other of cells.slice(0, i)) expect(boxesOverlap(cell, other)).toBe(false);
    }
  });

  it('keeps every label inside its cell, in order', () => {
    expect(pages).toHaveLength(Math.ceil(labels / perPage));
    for (const [i, { id, items }] of groupsOf(pages).entries()) {
      expect(id).toBe(`label-${i + 1}`);
      const { minX, minY, maxX, maxY } = cells[i % perPage]!;
      for (const item of items) {
        const box = itemBox(item);
        expect(Math.min(box.minX - minX, maxX - box.maxX)).toBeGreaterThanOrEqual(0.9);
        expect(Math.min(box.minY - minY, maxY - box.maxY)).toBeGreaterThanOrEqual(0.4);
      }
    }
  });

  it('keeps text, figure and code of a label apart', () => {
    for (const { items } of groupsOf(pages)) {
      const code = items.find(({ style }) => style === 'sticker-code');
      const texts = items.filter(({ kind }) => kind === 'text').map(itemBox);
      const figure = items.filter((item) => item !== code && item.kind !== 'text').map(itemBox);
      for (const text of texts)
        for (const other of figure) expect(boxesOverlap(text, other)).toBe(false);
      if (code?.kind !== 'path') continue;
      const { minX, minY, maxX, maxY } = itemBox(code);
      const module = moduleOf(code);
      expect(module).toBeGreaterThanOrEqual(LEAST_MODULE - 1e-9);
      const quiet = module * QUIET_ZONE - 1e-6;
      const zone = {
        minX: minX - quiet,
        minY: minY - quiet,
        maxX: maxX + quiet,
        maxY: maxY + quiet,
      };
      for (const other of [...texts, ...figure]) expect(boxesOverlap(zone, other)).toBe(false);
    }
  });

  it('never cuts a size or a number short', () => {
    const stickers = stickersOf(samplePlan());
    for (const [i, { items }] of groupsOf(pages).entries()) {
      const { lengths, number, of, setTag } = stickers[i]!;
      const count = `${number} of ${of}${setTag === null ? '' : ` · set ${setTag}`}`;
      expect(textsOf(items)).toEqual(expect.arrayContaining([`${lengths.join(' × ')} mm`, count]));
    }
  });
});

/** The height of a module: that of any of its rectangles. */
function moduleOf({ runs }: Extract<Item, { kind: 'path' }>): number {
  const { minY, maxY } = around([runs[0]!.start, ...runs[0]!.sides]);
  return maxY - minY;
}

describe('the labels of a plan', () => {
  it('follow one another as the pieces come free, then the offcuts', () => {
    const plan = samplePlan();
    const stickers = stickersOf(plan);
    const cut = plan.holding.flatMap(({ sheet, loose }) =>
      loose
        .filter(({ kind }) => kind === 'piece')
        .toSorted((a, b) => a.cutOrder - b.cutOrder)
        .map(({ cutOrder }) => `S${sheet}#${cutOrder}`),
    );
    expect(stickers.map(({ place }) => place)).toEqual([...cut, 'S1', 'S2']);
    expect(stickers.filter(({ kind }) => kind === 'offcut').map(({ lengths }) => lengths)).toEqual([
      ['190', '632', '18'],
      ['1105', '334', '12'],
    ]);
  });

  it('follow the cuts of a saw and name the cut that a piece is done by', () => {
    const places = stickersOf(cratePlan()).map(({ place }) => place);
    const cuts = places
      .filter((place) => place.includes('#'))
      .map((place) => Number(place.split('#')[1]));
    expect(cuts).toHaveLength(6);
    expect(cuts).toEqual(cuts.toSorted((a, b) => a - b));
  });

  it('go through the boards from left to right', () => {
    const stickers = stickersOf(benchPlan());
    expect(
      stickers
        .slice(0, 4)
        .map(({ name, number, place, lengths }) => [name, number, place, lengths]),
    ).toEqual([
      ['Leg', 1, 'B1#1', ['720']],
      ['Leg', 2, 'B1#2', ['720']],
      ['Rail', 1, 'B1#3', ['640']],
      ['Leg', 3, 'B2#1', ['720']],
    ]);
    expect(stickers[0]?.position).toBe('Board 1 of 6, place 1');
    expect(stickers[0]?.note).toBe('tapered below');
    expect(stickers.at(-1)).toMatchObject({ kind: 'offcut', name: 'Offcut' });
  });

  it.each([
    [1, 1],
    [5, 1],
    [24, 2],
  ])('begin at label %i of the first sheet', (first, pageCount) => {
    const { pages } = draw(smallPlan(), usual, first);
    expect(pages).toHaveLength(pageCount);
    const { left, bottom } = cellOf(usual, first - 1);
    const [label] = groupsOf(pages);
    const name = label?.items.find(({ kind }) => kind === 'text');
    if (name?.kind !== 'text') throw new Error('a label has its name');
    expect(name.at.x - left).toBeCloseTo(2.034, 3);
    expect(name.at.y).toBeGreaterThan(bottom + 20);
  });

  it.each(KNOWN_GRIDS.filter(({ columns }) => columns < 5))(
    'have figure and code on $paper: $columns x $rows',
    (known) => {
      const { pages, withoutCode } = draw(samplePlan(), knownGrid(known.paper, known)!);
      expect(withoutCode).toBe(0);
      for (const { items } of groupsOf(pages))
        expect(items.map(({ style }) => style)).toContain('sticker-outline');
    },
  );

  it('says which have no code', () => {
    expect(draw(samplePlan(), roll(25, 13)).withoutCode).toBe(draw(samplePlan()).labels);
    expect(draw(samplePlan()).withoutCode).toBe(0);
  });

  it('has the date where one is given', () => {
    const options = { grid: usual, first: 1, mark: MARK, date: '2031-05-06' };
    const { pages } = collected(smallPlan(), options);
    expect(textsOf(groupsOf(pages)[0]?.items ?? [])).toContain('Clock case · 2031-05-06');
  });

  it('draws a mirrored piece as it is seen, its bands and grain with it', () => {
    const plan = smallPlan();
    const mirrored = {
      ...plan,
      layouts: plan.layouts.map((layout) => ({
        ...layout,
        sheets: layout.sheets.map((sheet) => ({
          ...sheet,
          placements: sheet.placements.map((placement) => ({
            ...placement,
            mirrored: true,
            turn: 90,
          })),
        })),
      })),
    };
    const [sticker] = stickersOf(mirrored);
    expect(sticker?.face).toBe('good face down');
    expect(sticker?.figure.grainDeg).toBe(90);
    const { left, right } = sticker!.figure.edgeBands;
    expect([left, right]).toEqual([0, fromMm(1)]);
    expect(sticker?.figure.holes.map(({ x }) => toMm(x))).toEqual([-250, -60]);
  });

  it('look as they did', () => {
    const { pages } = draw(smallPlan(), roll(62, 40));
    const lines = groupsOf(pages).map(({ id, title, items }) =>
      [id, title, ...items.filter(({ style }) => style !== 'sticker-code').map(shown), ''].join(
        '\n',
      ),
    );
    expectGolden('labels.txt', lines.join('\n'));
  });
});

function shown(item: Item): string {
  const { minX, minY, maxX, maxY } = itemBox(item);
  const [left, bottom, right, top] = [minX, minY, maxX, maxY].map((value) => value.toFixed(2));
  const text = item.kind === 'text' ? ` ${item.size.toFixed(2)} ${item.text}` : '';
  return `${item.kind} ${item.style} ${left} ${bottom} ${right} ${top}${text}`;
}
