import { describe, expect, it } from 'vitest';
import { toMm, UNITS_PER_MM } from '../../src/model/units.ts';
import { packingTask } from '../../src/packing/bodies.ts';
import { usedBy } from '../../src/packing/score.ts';
import type { Candidate, PackingTask } from '../../src/packing/task.ts';
import { type JobInput, jobOf, partOf, setOf, sheetOf } from '../helpers/jobs.ts';
import {
  arch,
  cutOut,
  disc,
  frame,
  hollow,
  lShape,
  polygon,
  rect,
  rounded,
} from '../helpers/shapes.ts';
import { type Run, type RunInput, runJob, runTask } from './pack.ts';
import { faultsOf } from './second-look.ts';

interface Case {
  readonly what: string;
  readonly job: JobInput;
  readonly sheets: number;
  readonly unplaced?: number;
  readonly run?: RunInput;
}

const UNIT = 1 / UNITS_PER_MM;
const TRIANGLE = polygon([0, 0], [300, 0], [0, 200]);
const QUARTERS = [0, 90, 180, 270];
const EVERY_15 = Array.from({ length: 24 }, (_, k) => 15 * k);
const RING = cutOut(rect(500, 500), disc(400), 50, 50);

/** Fits without any play on one sheet, and not any more where the sheet is one base length shorter. */
const TIGHT: readonly Case[] = [
  ...tightPair('four rectangles, the spacing odd', 2, (s) => ({
    spacing: 7 + UNIT,
    sheet: [600 + s, 400 + s],
    parts: [partOf(rect(300, 200), { count: 4, turns: [0] })],
  })),
  ...tightPair('two rounded doors, the spacing odd', 2, (s) => ({
    spacing: 7 + UNIT,
    sheet: [600 + s, 400],
    parts: [partOf(rounded(300, 400, 60), { count: 2, turns: [0] })],
  })),
  ...tightPair('four triangles that make two rectangles', 2, () => ({
    spacing: 0,
    sheet: [600, 200],
    parts: [partOf(TRIANGLE, { count: 4, turns: [0, 180] })],
  })),
  ...tightPair('two interlocking L', 2, (s) => ({
    spacing: 10,
    sheet: [400 + s, 300],
    parts: [partOf(lShape(300, 300, 100), { count: 2 })],
  })),
  ...tightPair('a disc as wide as the sheet', 0, () => ({
    spacing: 6,
    sheet: [250, 250],
    parts: [partOf(disc(250))],
  })),
];

const CASES: readonly Case[] = [
  ...TIGHT,
  ...[300 - 12, 300 - 12 + UNIT].map((side) => ({
    what: `a square of ${side} mm in a cut-out of 300 mm`,
    job: {
      spacing: 6,
      sheets: [sheetOf(400, 400)],
      parts: [partOf(frame(400, 400, 50), { nestInside: true }), partOf(rect(side, side))],
    },
    sheets: side === 288 ? 1 : 2,
  })),
  {
    what: 'a disc in a round cut-out',
    job: {
      sheets: [sheetOf(500, 500)],
      parts: [partOf(RING, { nestInside: true }), partOf(disc(380))],
    },
    sheets: 1,
  },
  {
    what: 'a cut-out that counts as material',
    job: { sheets: [sheetOf(500, 500)], parts: [partOf(RING), partOf(disc(380))] },
    sheets: 2,
  },
  {
    what: 'a cut-out too narrow for the spacing',
    job: {
      sheets: [sheetOf(500, 500)],
      parts: [partOf(RING, { nestInside: true }), partOf(disc(385))],
    },
    sheets: 2,
  },
  {
    what: 'two pieces with the spacing kept to a keep-out between them',
    job: {
      spacing: 10,
      sheets: [sheetOf(1000, 500, { keepOuts: [[410, 100, 180, 50]] })],
      parts: [partOf(rounded(400, 500, 40), { count: 2, turns: [0] })],
    },
    sheets: 1,
  },
  {
    what: 'a keep-out one base length too wide',
    job: {
      spacing: 10,
      sheets: [sheetOf(1000, 500, { keepOuts: [[410 - UNIT, 100, 180 + UNIT, 50]] })],
      parts: [partOf(rounded(400, 500, 40), { count: 2, turns: [0] })],
    },
    sheets: 2,
  },
  {
    what: 'more pieces than the sheets on hand hold',
    job: {
      sheets: [sheetOf(400, 400, { onHand: 2 })],
      parts: [partOf(disc(390), { count: 5 })],
    },
    sheets: 2,
    unplaced: 3,
  },
  {
    what: 'a piece that fits no sheet',
    job: {
      sheets: [sheetOf(400, 400)],
      parts: [partOf(disc(390)), partOf(arch(900, 300, 100))],
    },
    sheets: 1,
    unplaced: 1,
  },
  {
    what: 'pieces left out by the first order that separation still brings in',
    job: {
      spacing: 0,
      sheets: [sheetOf(500, 300, { onHand: 1 })],
      parts: [
        partOf(polygon([0, 0], [300, 0], [200, 300], [0, 300]), { turns: [0, 180] }),
        partOf(polygon([100, 0], [300, 0], [300, 300], [0, 300]), { turns: [0, 180] }),
      ],
    },
    sheets: 1,
    unplaced: 0,
  },
  {
    what: 'matched sets of rails',
    job: {
      sheets: [sheetOf(1200, 800, { trim: 10, grain: 'x' })],
      parts: [
        setOf([arch(300, 200, 60), arch(400, 200, 60)], 'x', { count: 3, grain: 'along' }),
        setOf([rounded(300, 150, 30), hollow(300, 180, 40, 50)], 'y', { grain: 'along' }),
      ],
    },
    sheets: 1,
  },
  ...[QUARTERS, EVERY_15].map((turns) => ({
    what: `a plank that only fits slantwise, with ${turns.length} turns`,
    job: { sheets: [sheetOf(420, 420)], parts: [partOf(rect(520, 60), { turns })] },
    sheets: turns === EVERY_15 ? 1 : 0,
    unplaced: turns === EVERY_15 ? 0 : 1,
  })),
  { what: 'nothing', job: { sheets: [sheetOf(400, 400)], parts: [] }, sheets: 0 },
];

describe('packing by true shape', () => {
  it.each(CASES)('$what', ({ job, sheets, unplaced = 0, run }) => {
    const { task, candidate } = runJob(jobOf(job), run);
    expect(faultsOf(task, candidate)).toEqual([]);
    expect([candidate.sheets.length, candidate.unplaced.length]).toEqual([sheets, unplaced]);
  });

  it('lays hollowed and arched rails closer than their boxes allow', () => {
    const rails = [hollow(1000, 220, 60, 110), arch(1000, 220, 110)];
    const job = jobOf({
      spacing: 6,
      sheets: [sheetOf(2000, 1000)],
      parts: rails.map((shape) => partOf(shape, { count: 4, turns: [90, 270] })),
    });
    const { task, candidate } = runJob(job, { work: 5e6 });
    expect(faultsOf(task, candidate)).toEqual([]);
    expect(candidate.sheets.length).toBe(1);
    const boxes = 8 * 220 + 7 * 6;
    expect(endOf({ task, candidate })).toBeLessThan(boxes - 4 * 60);
  });

  it('turns pieces by the grain and takes only stocks whose grain suits', () => {
    const parts = [partOf(arch(600, 200, 60), { grain: 'along', turns: [0, 180] })];
    const sheets = [sheetOf(700, 500, { grain: 'y' }), sheetOf(700, 500, { grain: 'x' })];
    const { task, candidate } = runJob(jobOf({ sheets, parts }));
    expect(faultsOf(task, candidate)).toEqual([]);
    expect(candidate.sheets.map(({ stock }) => stock)).toEqual([1]);
  });

  it('takes the stock that makes the job cheapest', () => {
    const sheets = [
      sheetOf(1200, 800, { priceCents: 5000 }),
      sheetOf(420, 420, { priceCents: 900, onHand: 1 }),
      sheetOf(900, 420, { priceCents: 2500 }),
    ];
    const parts = [partOf(disc(400), { count: 3 })];
    const { task, candidate } = runJob(jobOf({ sheets, parts }));
    expect(faultsOf(task, candidate)).toEqual([]);
    expect(candidate.sheets.map(({ stock }) => stock).sort()).toEqual([1, 2]);
  });

  describe('of sheets sold in packs', () => {
    const parts = [partOf(disc(400), { count: 5 })];
    const eachAlone = (task: PackingTask): Candidate => ({
      sheets: task.bodies.map(({ index }) => ({
        stock: 0,
        spots: [{ body: index, orientation: 0, x: 0, y: 0 }],
      })),
      unplaced: [],
    });

    it.each([
      {
        // Singly five small sheets would cost 4,500; two packs of them cost 7,200, and six discs just fill a large sheet.
        what: 'changes to sheets that no single change leads to',
        sheets: [
          sheetOf(420, 420, { priceCents: 900, pack: 4 }),
          sheetOf(1200, 800, { priceCents: 5000 }),
        ],
        used: 5000,
        taken: 1,
      },
      {
        // A pack takes four discs for 1,800, and one more sheet the fifth.
        what: 'does without a pack',
        sheets: [
          sheetOf(820, 420, { priceCents: 900, pack: 2 }),
          sheetOf(420, 420, { priceCents: 1000 }),
        ],
        used: 2800,
        taken: 3,
      },
      {
        // A pack of five costs 4,500 however many of it are cut.
        what: 'leaves sheets of a pack whole',
        sheets: [
          sheetOf(820, 420, { priceCents: 900, pack: 5 }),
          sheetOf(420, 420, { priceCents: 5000 }),
        ],
        used: 4500,
        taken: 3,
      },
    ])('$what', ({ sheets, used, taken }) => {
      const task = packingTask(jobOf({ sheets, parts }), 0);
      const { candidate } = runTask(task, { start: eachAlone(task) });
      expect(faultsOf(task, candidate)).toEqual([]);
      expect([usedBy(task, candidate.sheets), candidate.sheets.length]).toEqual([used, taken]);
    });
  });

  it('lays outlines with concave arcs at any angle', () => {
    const rails = [hollow(700, 200, 60, 70), hollow(500, 180, 60, 50)];
    const job = jobOf({
      spacing: 6,
      sheets: [sheetOf(1500, 1000, { trim: 10 })],
      parts: rails.map((shape) => partOf(shape, { count: 3, turns: EVERY_15 })),
    });
    const { task, candidate } = runJob(job, { work: 1e7 });
    expect(faultsOf(task, candidate)).toEqual([]);
    expect([candidate.sheets.length, candidate.unplaced.length]).toEqual([1, 0]);
  });

  it('lays the last sheet from one end', () => {
    const job = jobOf({
      sheets: [sheetOf(2440, 1220, { trim: 10 })],
      parts: [partOf(arch(500, 300, 90), { count: 6 })],
    });
    const { candidate, task } = runJob(job, { work: 1e7 });
    expect(faultsOf(task, candidate)).toEqual([]);
    const area = 6 * 500 * 300;
    expect(endOf({ candidate, task })).toBeLessThan(10 + (1.2 * area) / 1200);
  });
});

describe('the search', () => {
  const job = jobOf({
    sheets: [sheetOf(1500, 900, { trim: 10, keepOuts: [[300, 300, 60, 40]] })],
    parts: [
      partOf(rect(400, 250), { count: 6 }),
      partOf(arch(500, 200, 80), { count: 4 }),
      partOf(lShape(300, 300, 90), { count: 4 }),
      partOf(disc(180), { count: 4 }),
      partOf(polygon([0, 0], [300, 40], [210, 260]), { count: 4, turns: [0, 30, 75, 180] }),
    ],
  });

  it('repeats itself exactly, and another seed takes another way', () => {
    const [first, again, other] = [1, 1, 2].map((seed) => runJob(job, { seed, work: 3e6 }));
    expect(again).toEqual(first);
    expect(other?.found).not.toEqual(first?.found);
    for (const run of [first, other])
      expect(faultsOf(run?.task as PackingTask, run?.candidate as Candidate)).toEqual([]);
  });

  it('reports only legal candidates, and the last one is what it returns', () => {
    const { task, candidate, found } = runJob(job, { work: 1e7 });
    expect(found.length).toBeGreaterThan(3);
    for (const one of found) expect(faultsOf(task, one)).toEqual([]);
    expect(found.at(-1)).toEqual(candidate);
  });

  it('makes a whole candidate without any work to spend', () => {
    const { task, candidate } = runJob(job, { work: 1 });
    expect(faultsOf(task, candidate)).toEqual([]);
    expect(candidate.unplaced).toEqual([]);
  });

  it('stops early once the bound is met, but not before', () => {
    const sheets = runJob(job).candidate.sheets.length;
    expect(runJob(job, { work: 3e6, atLeast: sheets }).workLeft).toBeGreaterThan(1e6);
    expect(runJob(job, { work: 3e6, atLeast: sheets - 1 }).workLeft).toBe(0);
  });
});

/** The same job twice: as it is, and on a sheet one base length shorter, where it takes `otherwise` sheets; 0 where nothing fits then. */
function tightPair(
  what: string,
  otherwise: number,
  input: (spacing: number) => TightInput,
): readonly Case[] {
  const { spacing } = input(0);
  const { sheet, parts } = input(spacing);
  const [length, width] = sheet;
  return [
    { what, job: { spacing, sheets: [sheetOf(length, width)], parts }, sheets: 1 },
    {
      what: `${what}, one base length short`,
      job: { spacing, sheets: [sheetOf(length - UNIT, width)], parts },
      sheets: otherwise,
      unplaced: otherwise === 0 ? parts.length : 0,
    },
  ];
}

interface TightInput {
  readonly spacing: number;
  readonly sheet: readonly [number, number];
  readonly parts: JobInput['parts'];
}

function endOf({ task, candidate }: Pick<Run, 'task' | 'candidate'>): number {
  const ends = (candidate.sheets.at(-1)?.spots ?? []).map(
    ({ body, orientation, x }) => x + (task.bodies[body]?.orientations[orientation]?.width ?? 0),
  );
  return toMm(Math.max(...ends));
}
