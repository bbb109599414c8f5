import { describe, expect, it } from 'vitest';
import type { Job } from '../../src/model/job.ts';
import type { Layout } from '../../src/model/layout.ts';
import { packingTask } from '../../src/packing/bodies.ts';
import { areaBound } from '../../src/packing/bounds/area.ts';
import { dualFeasibleBound } from '../../src/packing/bounds/dual-feasible.ts';
import { packOutlines } from '../../src/packing/outlines/pack-outlines.ts';
import { pack } from '../../src/packing/pack.ts';
import { seededRandom } from '../../src/packing/random.ts';
import { boxTask } from '../../src/packing/rectangles/box-task.ts';
import { suitsMaxrects } from '../../src/packing/rectangles/maxrects-orders.ts';
import { packRectangles } from '../../src/packing/rectangles/pack-rectangles.ts';
import type { Strategy } from '../../src/packing/task.ts';
import { toLayout } from '../../src/packing/to-layout.ts';
import { WorkBudget } from '../../src/packing/work.ts';
import { verifyLayout } from '../../src/verify/verify.ts';
import { jobOf, type PartInput, partOf, type SheetInput, sheetOf } from '../helpers/jobs.ts';
import { LEG, type OddSheet, SLOTTED, TRIANGLE } from '../helpers/odd-sheets.ts';
import { disc, polygon, rect } from '../helpers/shapes.ts';

const ENGINES: readonly (readonly [string, Strategy])[] = [
  ['rectangles', packRectangles],
  ['outlines', packOutlines],
];

interface Case {
  readonly what: string;
  readonly sheet: OddSheet;
  readonly more?: Partial<SheetInput>;
  readonly spacing?: number;
  readonly parts: readonly PartInput[];
  /** What one sheet takes. */
  readonly placed: number;
}

const CASES: readonly Case[] = [
  {
    what: 'both legs without any play, a spacing between',
    sheet: LEG,
    spacing: 8,
    parts: [partOf(rect(600, 200)), partOf(rect(200, 292))],
    placed: 2,
  },
  {
    what: 'nothing across the notch',
    sheet: LEG,
    parts: [partOf(rect(300, 201)), partOf(rect(201, 201))],
    placed: 0,
  },
  {
    what: 'the legs less the trim',
    sheet: LEG,
    more: { trim: 10 },
    spacing: 8,
    parts: [partOf(rect(580, 180)), partOf(rect(180, 292))],
    placed: 2,
  },
  {
    what: 'nothing over the trim of the notch',
    sheet: LEG,
    more: { trim: 10 },
    parts: [partOf(rect(400, 180.125))],
    placed: 0,
  },
  {
    what: 'along the grain only where the leg runs so',
    sheet: LEG,
    more: { grain: 'x' },
    parts: [partOf(rect(450, 150), { grain: 'along', count: 2 })],
    placed: 1,
  },
  {
    what: 'nothing across a slot thinner than the spacing',
    sheet: SLOTTED,
    spacing: 8,
    parts: [partOf(rect(250, 100), { turns: [0] })],
    placed: 0,
  },
  {
    what: 'both sides of the slot, and a rail below it',
    sheet: SLOTTED,
    spacing: 8,
    parts: [partOf(rect(200, 240)), partOf(rect(190, 240)), partOf(rect(400, 48), { turns: [0] })],
    placed: 3,
  },
  {
    what: 'half of a triangle, little less than it can be',
    sheet: TRIANGLE,
    parts: [partOf(rect(380, 290), { turns: [0] })],
    placed: 1,
  },
  {
    what: 'no more than the triangle can take',
    sheet: TRIANGLE,
    parts: [partOf(rect(401, 300), { turns: [0] })],
    placed: 0,
  },
];

describe.each(ENGINES)('%s on odd-shaped sheets', (_, strategy) => {
  it.each(CASES)('takes $what', ({ sheet, more = {}, spacing = 0, parts, placed }) => {
    const job = jobOf({
      spacing,
      sheets: [
        { ...sheetOf(sheet.length, sheet.width), ...more, boundary: sheet.boundary, onHand: 1 },
      ],
      parts,
    });
    const layout = run(job, strategy);
    expect(verifyLayout(job, layout).faults).toEqual([]);
    expect(layout.sheets.flatMap(({ placements }) => placements)).toHaveLength(placed);
  });
});

describe('outlines on odd-shaped sheets', () => {
  it('keep the trim from slanted edges, and the spacing from one another only', () => {
    const job = jobOf({
      spacing: 8,
      sheets: [{ ...sheetOf(800, 600), boundary: TRIANGLE.boundary, trim: 5, onHand: 1 }],
      parts: [
        partOf(disc(120), { count: 4 }),
        partOf(polygon([0, 0], [160, 0], [0, 120]), { count: 6 }),
      ],
    });
    const layout = run(job, packOutlines);
    expect(verifyLayout(job, layout).faults).toEqual([]);
    expect(layout.sheets.flatMap(({ placements }) => placements).length).toBeGreaterThanOrEqual(8);
  });
});

describe('an outline as large as the sheet', () => {
  // The circle inside the triangle has a diameter of 400 mm, so a trim of 10 mm makes its sides shorter by a twentieth.
  it.each([
    ['without a trim', 0, 800, 600, 1],
    ['with a trim, less a thousandth of a millimetre', 10, 759.999, 569.999, 1],
    ['with a trim, and more than that', 10, 760.001, 570.001, 0],
  ])('%s', (_, trim, length, width, placed) => {
    const job = jobOf({
      sheets: [{ ...sheetOf(800, 600), boundary: TRIANGLE.boundary, trim, onHand: 1 }],
      parts: [partOf(polygon([0, 0], [length, 0], [0, width]))],
    });
    const layout = run(job, packOutlines);
    expect(verifyLayout(job, layout).faults).toEqual([]);
    expect(layout.sheets.flatMap(({ placements }) => placements)).toHaveLength(placed);
  });
});

describe('a rectangle with a corner on the slanted edge', () => {
  it.each([
    ['touches it', 400, 1],
    ['reaches over it', 400.001, 0],
  ])('%s', (_, length, placed) => {
    const job = jobOf({
      sheets: [{ ...sheetOf(800, 600), boundary: TRIANGLE.boundary, onHand: 1 }],
      parts: [partOf(rect(length, 300))],
    });
    const { layout } = pack(job, 0, {
      effort: 'quick',
      seed: 1,
      shouldStop: () => false,
      onProgress: () => {},
    });
    expect(verifyLayout(job, layout).faults).toEqual([]);
    expect(layout.sheets.flatMap(({ placements }) => placements)).toHaveLength(placed);
  });
});

describe('bounds on odd-shaped sheets', () => {
  const parts = (count: number) => [partOf(rect(200, 100), { count })];
  const tiled = (count: number) =>
    jobOf({
      spacing: 0,
      sheets: [{ ...sheetOf(600, 500), boundary: LEG.boundary }],
      parts: parts(count),
    });

  it('count the area of the polygon, exactly', () => {
    expect(areaBound(packingTask(tiled(9), 0))).toBe(1);
    expect(areaBound(packingTask(tiled(10), 0))).toBe(2);
    const layout = run(tiled(9), packRectangles);
    expect(layout).toMatchObject({ used: 1, unplaced: [] });
  });

  it('allow grown pieces to reach over the edge where the trim is small', () => {
    const job = jobOf({
      spacing: 20,
      sheets: [{ ...sheetOf(600, 500), boundary: LEG.boundary }],
      parts: [partOf(rect(600, 200)), partOf(rect(200, 280))],
    });
    expect(run(job, packRectangles).used).toBe(1);
    expect(areaBound(packingTask(job, 0))).toBe(1);
    expect(dualFeasibleBound(packingTask(job, 0))).toBe(1);
  });

  it('leave engines for plain sheets out', () => {
    const task = packingTask(tiled(1), 0);
    expect(suitsMaxrects(task)).toBe(false);
    expect(boxTask(task).stocks[0]?.isPlain).toBe(false);
  });
});

function run(job: Job, strategy: Strategy): Layout {
  const task = packingTask(job, 0);
  const candidate = strategy(task, {
    random: seededRandom(1),
    budget: new WorkBudget(1e6),
    atLeast: 0,
    track: 0,
    start: { sheets: [], unplaced: task.bodies.map(({ index }) => index) },
    found: () => undefined,
  });
  return toLayout(task, candidate, { atLeast: 0, provedBy: 'area' });
}
