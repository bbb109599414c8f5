import { describe, expect, it } from 'vitest';
import { drawBoards } from '../../src/drawing/board-drawing.ts';
import { boardPatterns } from '../../src/drawing/board-patterns.ts';
import { cutsText, leftoversText, stepRows, stopPieces } from '../../src/drawing/board-texts.ts';
import type { Drawing, Item } from '../../src/drawing/display-list.ts';
import { numberRuns } from '../../src/drawing/number-runs.ts';
import type { Plan } from '../../src/model/plan.ts';
import { toSvg } from '../../src/outputs/svg/svg.ts';
import { BENCH, type BoardSketch, benchPlan, boardPlan } from '../helpers/board-plan.ts';
import { expectGolden } from '../helpers/golden.ts';

const MM = 8000;
const INCH = 203_200;

function itemsOf({ layers }: Drawing): readonly Item[] {
  return layers.flatMap(({ groups }) => groups.flatMap(({ items }) => items));
}

describe('patterns', () => {
  const patterns = boardPatterns(benchPlan());

  it('are boards of one stock with the same lengths at the same places, whatever the pieces are called', () => {
    expect(patterns.map(({ numbers, stock }) => [numbers, stock.name])).toEqual([
      [[1, 2, 3], '2400'],
      [[4], '1800'],
      [[5], '1800'],
      [[6], '2400'],
    ]);
  });

  it('set the stop to each length itself, and say which pieces it cuts', () => {
    expect(
      patterns[0]?.stops.map((stop) => [stop.length / MM, stop.timesPerBoard, stopPieces(stop)]),
    ).toEqual([
      [720, 2, 'Leg 1–5 (tapered below); Post 1'],
      [640, 1, 'Rail 1–3'],
    ]);
  });

  it('of the same lengths in another order, or from another stock, are others', () => {
    const parts = ['Leg', 'Rail'];
    const sketches = [{ parts }, { parts: parts.toReversed() }, { parts, stock: 1 }, { parts }];
    expect(boardPatterns(boardPlan(BENCH, sketches)).map(({ numbers }) => numbers)).toEqual([
      [1, 4],
      [2],
      [3],
    ]);
  });
});

describe('the steps of a board', () => {
  const plan = (sketches: readonly BoardSketch[], text = BENCH) => boardPlan(text, sketches);
  const rowsOf = ({ job, ...rest }: Plan) =>
    boardPatterns({ job, ...rest }).map((pattern) =>
      stepRows(job, pattern).map(([, stop, times, what]) =>
        [stop, times, what].filter((cell) => cell !== '').join(' | '),
      ),
    );

  it.each<readonly [string, BoardSketch, readonly string[]]>([
    [
      'begin with the end trim and end with what is kept',
      { parts: ['Leg', 'Rail'] },
      [
        'trim 15 mm off the left end',
        '720 mm | 1 | Leg 1 (tapered below)',
        '640 mm | 1 | Rail 1',
        'the rest: keep 1004 mm, with 15 mm of untrimmed right end still on it',
      ],
    ],
    [
      'part equal lengths that others come between',
      { parts: ['Pin', 'Rail', 'Pin', 'Pin'] },
      [
        'trim 15 mm off the left end',
        '80 mm | 1 | Pin 1',
        '640 mm | 1 | Rail 1',
        '80 mm | 2 | Pin 2, 3',
        'the rest: keep 1478 mm, with 15 mm of untrimmed right end still on it',
      ],
    ],
    [
      'cut a defect out before the piece behind it',
      { stock: 1, parts: ['Rail'], at: 860 * MM },
      [
        'trim 10 mm off the left end',
        'keep 790 mm; knot at 800 mm, 60 mm long: cut it out; the next piece starts at 860 mm',
        '640 mm | 1 | Rail 1',
        'the rest: 287 mm left over, too short to keep',
      ],
    ],
    [
      'cut a defect out before what is kept behind it',
      { stock: 1, parts: ['Post'] },
      [
        'trim 10 mm off the left end',
        '720 mm | 1 | Post 1',
        'the rest: 67 mm left over, too short to keep; knot at 800 mm, 60 mm long: cut it out; keep 930 mm, with 10 mm of untrimmed right end still on it',
      ],
    ],
  ])('%s', (_, sketch, steps) => {
    expect(rowsOf(plan([sketch]))).toEqual([steps]);
  });

  it('leave a defect alone that nothing is kept behind', () => {
    const text = BENCH.replace('at: 800, length: 60', 'at: 1700, length: 60');
    expect(rowsOf(plan([{ stock: 1, parts: ['Rail', 'Rail'] }], text))).toEqual([
      ['trim 10 mm off the left end', '640 mm | 2 | Rail 1, 2', 'the rest: keep 404 mm'],
    ]);
  });

  it('have no trim and no rest where there is none', () => {
    const text = BENCH.replace('length: 2400, price: 14.50, trim: 15', 'length: 720, price: 3');
    expect(rowsOf(plan([{ parts: ['Leg'] }], text))).toEqual([
      ['720 mm | 1 | Leg 1 (tapered below)'],
    ]);
  });

  it('say how places count where there are any', () => {
    const rule = (sketch: BoardSketch) => {
      const [page] = drawBoards(plan([sketch]));
      return itemsOf(page!).some(
        (item) => item.kind === 'text' && item.text.startsWith('Places count from the left end'),
      );
    };
    expect(rule({ parts: ['Leg'] })).toBe(false);
    expect(rule({ stock: 1, parts: ['Rail'], at: 860 * MM })).toBe(true);
  });
});

describe('texts of boards', () => {
  const cuts = (...lengths: number[]) => lengths.map((length) => ({ at: 0, length }));

  it.each([
    ['720 · 720 · 640', cuts(720 * MM, 720 * MM, 640 * MM), 'mm'],
    ['4 × 80 · 12.5', cuts(80 * MM, 80 * MM, 80 * MM, 80 * MM, 12.5 * MM), 'mm'],
    ['28-3/8 · 1/64', cuts(28.375 * INCH, INCH / 64), 'in'],
    // 720 mm lies between 28-11/32 and 28-23/64.
    ['28-11/32', cuts(720 * MM), 'in'],
    ['', [], 'mm'],
  ] as const)('list cuts: %s', (text, list, unit) => {
    expect(cutsText(list, unit)).toBe(text);
  });

  const left = (length: number, isKept: boolean) => ({ from: 0, to: length * MM, isKept });

  it.each([
    ['nothing left over', []],
    ['keep 300 mm', [left(300, true)]],
    ['12 mm left over, too short to keep', [left(12, false)]],
    [
      'keep 300 mm and 400 mm; 12 mm too short to keep',
      [left(300, true), left(12, false), left(400, true)],
    ],
  ])('say what is left over: %s', (text, leftovers) => {
    expect(leftoversText(leftovers, 'mm')).toBe(text);
  });

  it.each([
    [
      [1, 2, 3, 7],
      ['1–3', '7'],
    ],
    [
      [1, 2],
      ['1', '2'],
    ],
    [[], []],
  ])('run through the numbers %j', (numbers, texts) => {
    expect(numberRuns(numbers)).toEqual(texts);
  });
});

describe('the drawing of the boards', () => {
  it('names each defect and its place under it, with a legend', () => {
    const texts = drawBoards(benchPlan())
      .flatMap(itemsOf)
      .flatMap((item) => (item.kind === 'text' ? [item.text] : []));
    expect(texts.filter((text) => text === 'knot 800 to 860')).toHaveLength(2);
    for (const text of ['end trim, or too short to keep', 'defect', 'keep'])
      expect(texts).toContain(text);
  });

  it('is as it was looked at', () => {
    const pages = drawBoards(benchPlan());
    expect(pages).toHaveLength(1);
    expectGolden('boards.svg', toSvg(pages[0]!));
  });

  it('has a rectangle a piece, to one scale, inside its board', () => {
    const items = itemsOf(drawBoards(benchPlan())[0]!);
    const widths = (style: string) =>
      items.flatMap((item) => {
        if (item.kind !== 'path' || item.style !== style) return [];
        const { start, sides } = item.runs[0]!;
        return [sides[0]!.x - start.x];
      });
    const pieces = widths('piece');
    expect(pieces).toHaveLength(3 + 1 + 1 + 6);
    const scale = Math.max(...widths('sheet')) / 2400;
    for (const [i, length] of [720, 720, 640, 720, 640, 80].entries())
      expect(pieces[i]).toBeCloseTo(length * scale, 9);
  });

  it('goes on over as many pages as it takes, and is none without boards', () => {
    const lengths = Array.from({ length: 40 }, (_, i) => 100 + i);
    const parts = lengths.map(
      (length) => `  - { name: P${length}, material: ash45, length: ${length} }`,
    );
    const text = `${BENCH}${parts.join('\n')}\n`;
    const pages = drawBoards(
      boardPlan(
        text,
        lengths.map((length) => ({ parts: [`P${length}`] })),
      ),
    );
    expect(pages.length).toBeGreaterThan(1);
    const drawn = pages.flatMap((page) => itemsOf(page)).filter(({ style }) => style === 'piece');
    expect(drawn).toHaveLength(40);
    for (const page of pages)
      for (const item of itemsOf(page))
        if (item.kind === 'text') expect(item.at.y).toBeGreaterThan(0);
    expect(drawBoards(boardPlan(BENCH, []))).toEqual([]);
  });

  it('keeps a board of very many lengths on one page', () => {
    const lengths = Array.from({ length: 400 }, (_, i) => 100 + i);
    const parts = lengths.map(
      (length) => `  - { name: Batten no ${length}, material: ash45, length: ${length} }`,
    );
    const text = `${BENCH.replace('length: 2400', 'length: 200 m')}${parts.join('\n')}\n`;
    const [page] = drawBoards(boardPlan(text, [{ parts: lengths.map((l) => `Batten no ${l}`) }]));
    const texts = itemsOf(page!).flatMap((item) => (item.kind === 'text' ? [item] : []));
    expect(texts.some(({ text: shown }) => shown === '… see the list')).toBe(true);
    for (const { at } of texts) expect(at.y).toBeGreaterThan(0);
  });
});
