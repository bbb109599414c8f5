import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Point } from '../../src/geometry/point.ts';
import { holdSheets } from '../../src/holding/hold.ts';
import type { Holding, SheetHolding } from '../../src/model/holding.ts';
import type { RouterJob } from '../../src/model/job.ts';
import type { Layout, Placement } from '../../src/model/layout.ts';
import type { Band, Router, Seal } from '../../src/model/machine.ts';
import { SIDES, type Side } from '../../src/model/part.ts';
import { fromMm } from '../../src/model/units.ts';
import { at, layoutOf, partOf, sheetOf } from '../helpers/jobs.ts';
import { disc, frame, lShape, rect } from '../helpers/shapes.ts';
import { mirrorScene, turnScene } from '../helpers/symmetry.ts';
import { PLAIN_BOARD } from '../helpers/tables.ts';
import { rows, type Shop, shopJob, singleRectangle } from './jobs.ts';

describe('the holding plan', () => {
  it('counts sheets through the whole job and orders things by the cut that frees them', () => {
    const job = shopJob([
      partOf(rect(1000, 800), { count: 4 }),
      partOf(rect(100, 100), { count: 4 }),
    ]);
    const sheets = holdSheets(job, [rows(job)]);
    expect(sheets.map(({ sheet }) => sheet)).toEqual(sheets.map((_, i) => i + 1));
    for (const { sheet, loose, steps } of sheets) {
      expect(loose.every((each) => each.sheet === sheet)).toBe(true);
      const orders = loose.map(({ cutOrder }) => cutOrder);
      expect(orders).toEqual(orders.toSorted((a, b) => a - b));
      expect(loose).toHaveLength(steps.filter(({ kind }) => kind !== 'skin').length);
    }
  });

  it('holds a piece better with a shallow last pass, and no better with a finishing cut', () => {
    const marginWith = (machine: Partial<Router>): number => {
      const [job, layouts] = singleRectangle(180, 150, { machine });
      return holdSheets(job, layouts)[0]!.loose[0]!.margin;
    };
    const plain = marginWith({});
    expect(marginWith({ lastPass: fromMm(1) })).toBeGreaterThan(2 * plain);
    expect(marginWith({ finish: fromMm(0.3) })).toBe(plain);
    const both = marginWith({ lastPass: fromMm(1), finish: fromMm(0.3) });
    expect(both).toBeLessThan(marginWith({ lastPass: fromMm(1) }));
    expect(both).toBeGreaterThan(plain);
  });

  it('lets the vacuum fall along the order, faster over a leakier spoilboard', () => {
    const fall = (nominal: number): number[] => {
      const permeabilityM2 = { nominal, low: 2 * nominal };
      const spoilboard = { ...PLAIN_BOARD, permeabilityM2 };
      const job = shopJob([partOf(rect(500, 350), { count: 12 })], { table: { spoilboard } });
      return holdSheets(job, [rows(job)])[0]!.loose.map(({ vacuumKpa }) => vacuumKpa);
    };
    const [tight, leaky] = [fall(3e-13), fall(3e-12)];
    for (const list of [tight, leaky]) expect(list).toEqual(list.toSorted((a, b) => b - a));
    expect(leaky.at(-1)!).toBeLessThan(tight.at(-1)! - 3);
  });

  it('counts a kerf that two pieces share once', () => {
    const two = (gap: number): number => {
      const job = shopJob([partOf(rect(600, 600), { count: 2 })]);
      const placements = [at(0, 100, 100), at(1, 700 + gap, 100)];
      return holdSheets(job, [layoutOf([{ stock: 0, placements }])])[0]!.loose[1]!.vacuumKpa;
    };
    expect(two(6.35)).toBeGreaterThan(two(100));
  });

  it('counts the kerf of a piece inside a cut-out beside that of the piece around it', () => {
    const job = shopJob([
      partOf(frame(600, 500, 60), { nestInside: true }),
      partOf(rect(200, 150)),
    ]);
    const kerf = (placements: readonly Placement[]): string[] => {
      const { loose } = holdSheets(job, [layoutOf([{ stock: 0, placements }])])[0]!;
      const pieces = loose.filter(({ kind }) => kind === 'piece');
      return pieces.map(({ piece, vacuumKpa }) => `${piece} ${vacuumKpa}`);
    };
    const nested = kerf([at(0, 100, 100), at(1, 300, 250)]);
    expect(nested).toEqual(kerf([at(0, 100, 100), at(1, 1300, 250)]));
    expect(nested[0]).toMatch(/^1 /);
  });

  it('lets a tab of a piece inside a cut-out hang on what is round it', () => {
    const job = shopJob([partOf(frame(600, 500, 60), { nestInside: true }), partOf(rect(80, 60))]);
    const placements = [at(0, 100, 100), at(1, 300, 250)];
    const { loose } = holdSheets(job, [layoutOf([{ stock: 0, placements }])])[0]!;
    expect(loose.find(({ piece }) => piece === 1)).toMatchObject({ kind: 'piece', action: 'tabs' });
  });

  it('holds film-faced sheets by their lower friction', () => {
    const [plain] = only(300, {});
    const [faced] = only(300, { material: { filmFaced: true } });
    expect(faced!.margin).toBeLessThan(plain!.margin * 0.65);
  });

  it('is the same for equal pieces however they lie', () => {
    const job = shopJob([partOf(lShape(320, 240, 90), { count: 4 })]);
    const poses = [
      at(0, 100, 100),
      at(1, 900, 100, 90),
      at(2, 1400, 400, 180),
      at(3, 1900, 400, 0, true),
    ];
    const loose = holdSheets(job, [layoutOf([{ stock: 0, placements: poses }])])[0]!.loose;
    const perKpa = loose.map(({ holdingForceN, vacuumKpa }) => holdingForceN / vacuumKpa);
    for (const value of perKpa) expect(value).toBeCloseTo(perKpa[0]!, 1);
  });

  it.each<readonly [string, Seal | null]>([
    ['a spoilboard', null],
    ['gaskets', { kind: 'gasket', around: 'pieces', inset: 80_000, grooveShare: 0, leakMm2: 50 }],
    [
      'one gasket',
      { kind: 'gasket', around: 'sheet', inset: 80_000, grooveShare: 0.2, leakMm2: 50 },
    ],
    ['pods', { kind: 'pods', length: 800_000, width: 480_000, perPiece: 2, leakMm2: 50 }],
  ])('gives mirrored and turned layouts the same order and the same figures on %s', (_, seal) => {
    const part = fc.constantFrom(
      rect(300, 200),
      rect(150, 90),
      disc(180),
      lShape(260, 200, 80),
      frame(320, 240, 50),
    );
    fc.assert(
      fc.property(fc.array(part, { minLength: 2, maxLength: 8 }), (shapes) => {
        const parts = shapes.map((shape) => partOf(shape, { face: 'either' }));
        const sheet = sheetOf(1600, 1200, { trim: 15 });
        const job = shopJob(parts, { sheet, table: { seal } });
        const scene = { job, layout: rows(job, 14) };
        const plain = figures(scene.job, scene.layout);
        for (const other of [mirrorScene(scene), turnScene(scene)])
          expect(figures(other.job, other.layout)).toEqual(plain);
      }),
      { seed: 8, numRuns: 16 },
    );
  });

  it('does not depend on the order of the placements', () => {
    const shapes = [rect(300, 200), rect(150, 90), disc(180), frame(320, 240, 50), rect(80, 80)];
    const job = shopJob(shapes.map((shape) => partOf(shape)));
    const { placements } = rows(job, 14).sheets[0]!;
    const held = (list: readonly Placement[]) =>
      holdSheets(job, [layoutOf([{ stock: 0, placements: list }])]);
    const plain = held(placements);
    fc.assert(
      fc.property(fc.shuffledSubarray([...placements], { minLength: shapes.length }), (list) => {
        expect(held(list)).toEqual(plain);
      }),
      { seed: 2, numRuns: 10 },
    );
  });

  it('has the vacuum before the first cut and after each that frees something', () => {
    const job = shopJob([partOf(frame(400, 300, 60)), partOf(rect(300, 200), { count: 4 })]);
    const { loose, vacuumStartKpa, vacuumAlongKpa } = holdSheets(job, [rows(job)])[0]!;
    expect(vacuumAlongKpa).toHaveLength(6);
    expect(vacuumAlongKpa[0]).toBeLessThan(vacuumStartKpa);
    for (const { cutOrder, vacuumKpa } of loose)
      expect(vacuumAlongKpa[cutOrder - 1]).toBe(vacuumKpa);
  });

  it('takes all skins off after the last cut', () => {
    const job = shopJob([partOf(rect(150, 150), { count: 3 }), partOf(rect(500, 400))]);
    const { loose, steps } = holdSheets(job, [rows(job)])[0]!;
    const skinned = loose.filter(({ action }) => action === 'skin');
    expect(skinned).toHaveLength(3);
    expect(steps.slice(-3)).toEqual(
      skinned.map(({ kind, piece, cutOrder }) => ({ kind: 'skin', thing: kind, piece, cutOrder })),
    );
    expect(steps.slice(0, -3).map(({ kind }) => kind)).toEqual(Array(4).fill('outline'));
  });

  it('says how far the order goes and how well it holds, and the same for the order of the file', () => {
    const job = shopJob([partOf(rect(600, 580)), partOf(rect(200, 580)), partOf(rect(600, 580))]);
    const placements = [at(0, 10, 10), at(1, 1400, 10), at(2, 700, 10)];
    const [held] = holdSheets(job, [layoutOf([{ stock: 0, placements }])]);
    const { order, fileOrder, loose } = held!;
    expect([order.travelMm, fileOrder.travelMm]).toEqual([1190, 1690]);
    expect(order.leastMargin).toBe(Math.min(...loose.map(({ margin }) => margin)));
    expect(order.leastMargin).toBeGreaterThan(fileOrder.leastMargin!);
  });

  it('needs no pieces', () => {
    const job = shopJob([]);
    expect(holdSheets(job, [])).toEqual([]);
    const [held] = holdSheets(job, [layoutOf([{ stock: 0, placements: [] }])]);
    const nothing = { travelMm: 0, leastMargin: null };
    expect(held).toMatchObject({ loose: [], steps: [], vacuumAlongKpa: [], order: nothing });
  });
});

describe('what to do', () => {
  it('is nothing for a piece that stays', () => {
    const [loose] = only(400, {});
    expect(loose).toMatchObject({ verdict: 'stays', action: 'none', skin: 0, tabs: [] });
    expect(loose!.marginAfter).toBe(loose!.margin);
  });

  it('is a skin where that is enough, with a tiny force in the last pass', () => {
    const [loose] = only(150, {});
    expect(loose).toMatchObject({ verdict: 'moves', action: 'skin', verdictAfter: 'stays' });
    expect(loose!.skin).toBe(fromMm(0.5));
  });

  it('is a skin that holds through the finishing cut as well', () => {
    const skinned = (finish: number): Holding => {
      const machine = { passDepth: fromMm(3), finish: fromMm(finish) };
      return only(110, { machine })[0]!;
    };
    const [plain, finished] = [skinned(0), skinned(3)];
    expect([plain.action, finished.action]).toEqual(['skin', 'skin']);
    expect(finished.marginAfter).toBeLessThan(plain.marginAfter);
  });

  it('is tabs where a skin is not, on the middles of straight sides', () => {
    const [loose] = only(80, {});
    expect(loose).toMatchObject({ verdict: 'moves', action: 'tabs', verdictAfter: 'marginal' });
    expect(loose!.tabs.length).toBeGreaterThanOrEqual(2);
    const middles = [
      [940, 400],
      [980, 440],
      [940, 480],
      [900, 440],
    ].map(([x, y]) => `${fromMm(x!)} ${fromMm(y!)}`);
    for (const { at: place } of loose!.tabs) expect(middles).toContain(`${place.x} ${place.y}`);
  });

  it('is an earlier place where the fallen vacuum alone is the trouble', () => {
    const { loose, order, fileOrder } = twoLids({ nominal: 3e-13, low: 3e-12 });
    const short = twoLids({ nominal: 3e-13, low: 6.3e-13 });
    const last = ({ loose: things }: SheetHolding): number =>
      things.find(({ piece }) => piece === 5)!.cutOrder;
    expect(last(short)).toBe(6);
    const [lid, ...others] = loose.filter(({ action }) => action !== 'none');
    expect(others).toEqual([]);
    expect(lid).toMatchObject({
      piece: 5,
      cutOrder: 5,
      verdict: 'marginal',
      action: 'earlier',
      verdictAfter: 'stays',
      tabs: [],
    });
    expect(lid!.marginAfter).toBeGreaterThan(lid!.margin);
    expect(lid!.why).toContain('as number 5 of its sheet');
    expect(order.travelMm).toBeGreaterThan(short.order.travelMm);
    expect(order.leastMargin).toBeGreaterThanOrEqual(fileOrder.leastMargin!);
  });

  it('is not an earlier place where the piece stays in the short way', () => {
    const { loose } = twoLids({ nominal: 3e-13, low: 6.3e-13 });
    expect(loose.map(({ action }) => action)).toEqual(loose.map(() => 'none'));
    expect(loose.map(({ piece }) => piece)).toEqual([0, 1, 4, 3, 2, 5]);
  });

  it.each([
    [0, false],
    [90, false],
    [0, true],
    [90, true],
  ])('are tabs off the edges that are seen, turned by %d, mirrored: %s', (turn, mirrored) => {
    // Stock too thin for a skin; the left edge is seen, which is the right one of a mirrored piece.
    const job = shopJob([partOf(rect(220, 60))], { material: { thickness: fromMm(2.9) } });
    const showEdges = ['left'] as const;
    const shown = { ...job, parts: job.parts.map((part) => ({ ...part, showEdges })) };
    const place = { ...at(0, 900, 400), turn, mirrored };
    const [loose] = holdSheets(shown, [layoutOf([{ stock: 0, placements: [place] }])])[0]!.loose;
    expect(loose!.action).toBe('tabs');
    for (const tab of loose!.tabs) {
      expect(unplace(tab.at, place).x).toBeGreaterThan(0);
    }
  });

  it('say so where they stand on edges that are seen', () => {
    const job = shopJob([partOf(rect(220, 60))], { material: { thickness: fromMm(2.9) } });
    const whyWith = (showEdges: readonly Side[]): string => {
      const shown = { ...job, parts: job.parts.map((part) => ({ ...part, showEdges })) };
      const layout = layoutOf([{ stock: 0, placements: [at(0, 900, 400)] }]);
      return holdSheets(shown, [layout])[0]!.loose[0]!.why;
    };
    expect(whyWith(SIDES)).toContain('on show edges too');
    expect(whyWith(['left'])).not.toContain('show edges');
  });

  describe('where the stock is too thin for a skin and no firm stock is near for tabs', () => {
    /** The middle one of nine squares, one cutter apart, in thin stock cut fast. */
    const middle = (side: number): Holding => {
      const job = shopJob([partOf(rect(side, side), { count: 9 })], {
        material: { thickness: fromMm(2.9) },
        machine: { feedMmPerMin: 14_000 },
      });
      const grid = [0, 1, 2].flatMap((row) => [0, 1, 2].map((column) => [column, row] as const));
      const step = side + 6.35;
      const placements = grid.map(([x, y], i) => at(i, 500 + x * step, 500 + y * step));
      const { loose } = holdSheets(job, [layoutOf([{ stock: 0, placements }])])[0]!;
      return loose.find(({ piece }) => piece === 4)!;
    };

    it('is a clamp that the nut of the spindle clears', () => {
      const side = 125;
      const held = middle(side);
      expect([held.verdict, held.action, held.verdictAfter]).toEqual([
        'marginal',
        'clamp',
        'stays',
      ]);
      const { minX, minY, maxX, maxY } = held.clamp!;
      expect([maxX - minX, maxY - minY]).toEqual([fromMm(60), fromMm(60)]);
      const edge = 500 + side + 6.35;
      // The way of the cutter is half a cutter outside the edge.
      const clear = (at: number, wall: number): number =>
        Math.abs(at - fromMm(wall)) / 8000 + 3.175;
      for (const each of [clear(minX, edge), clear(minY, edge)])
        expect(each).toBeGreaterThan(31.99);
      for (const each of [clear(maxX, edge + side), clear(maxY, edge + side)])
        expect(each).toBeGreaterThan(31.99);
      expect(held.remedyS).toBe(180);
      expect(held.why).toContain('clamp it at 694 mm, 694 mm of the sheet');
    });

    it('is nothing where the clamp has no room', () => {
      const held = middle(80);
      expect([held.action, held.clamp]).toEqual(['none', null]);
      expect(held.why).toContain(
        'nothing reckoned here holds it (no firm stock beside it for tabs): do not cut it free',
      );
    });
  });

  it('never makes a thing worse, and its sentence names it', () => {
    const shapes = [
      rect(60, 60),
      rect(90, 25),
      disc(60),
      disc(200),
      lShape(150, 120, 30),
      frame(160, 160, 20),
      rect(500, 40),
    ];
    const job = shopJob(shapes.map((shape) => partOf(shape)));
    const loose = holdSheets(job, [rows(job, 40)]).flatMap((sheet) => sheet.loose);
    for (const thing of loose) {
      expect(thing.marginAfter).toBeGreaterThanOrEqual(thing.margin);
      expect(thing.why.endsWith('.')).toBe(true);
      if (thing.action === 'skin') expect(thing.why).toContain('skin of 0.5 mm');
      if (thing.action === 'tabs') expect(thing.why).toContain(`${thing.tabs.length} tabs`);
    }
    expect(new Set(loose.map(({ action }) => action)).size).toBeGreaterThan(1);
  });

  it('says sizes in the unit of the file', () => {
    const [job, layouts] = singleRectangle(80, 80);
    const inches: RouterJob = { ...job, unit: 'in' };
    expect(holdSheets(inches, layouts)[0]!.loose[0]!.why).toMatch(/tabs, (3\/8|1\/2)" wide/);
  });
});

function only(side: number, shop: Shop): readonly Holding[] {
  const [job, layouts] = singleRectangle(side, side, shop);
  return holdSheets(job, layouts)[0]!.loose;
}

/** Two lids that just stay while the vacuum is full, far apart, with large plates between them. */
function twoLids(permeabilityM2: Band): SheetHolding {
  const spoilboard = { ...PLAIN_BOARD, permeabilityM2 };
  const parts = [
    partOf(rect(310, 310)),
    partOf(rect(600, 580), { count: 4 }),
    partOf(rect(320, 320)),
  ];
  const job = shopJob(parts, { table: { spoilboard } });
  const placements = [
    at(0, 10, 10),
    at(1, 400, 10),
    at(2, 1010, 10),
    at(3, 1010, 610),
    at(4, 400, 610),
    at(5, 1800, 100),
  ];
  return holdSheets(job, [layoutOf([{ stock: 0, placements }])])[0]!;
}

/** All that must not depend on how the sheet is looked at. */
function figures(job: RouterJob, layout: Layout): unknown {
  const sheets: readonly SheetHolding[] = holdSheets(job, [layout]);
  return sheets.map(({ steps, loose }) => ({
    steps,
    loose: loose.map(({ kind, piece, cutOrder, vacuumKpa, margin, marginLow, action }) =>
      [kind, piece, cutOrder, vacuumKpa, margin, marginLow, action].join(' '),
    ),
  }));
}

/** A point of the sheet in the coordinates of the part, for quarter turns. */
function unplace(point: Point, { x, y, turn, mirrored }: Placement): Point {
  const [dx, dy] = [point.x - x, point.y - y];
  const turned = turn === 90 ? { x: dy, y: -dx } : { x: dx, y: dy };
  return { x: mirrored ? 0 - turned.x : turned.x, y: turned.y };
}
