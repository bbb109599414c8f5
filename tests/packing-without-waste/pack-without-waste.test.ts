import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Point } from '../../src/geometry/point.ts';
import type { Ring } from '../../src/geometry/shape.ts';
import { fromMm, toMm, UNITS_PER_MM } from '../../src/model/units.ts';
import { packingTask } from '../../src/packing/bodies.ts';
import { pack } from '../../src/packing/pack.ts';
import { type Random, seededRandom } from '../../src/packing/random.ts';
import type { Candidate, PackingTask } from '../../src/packing/task.ts';
import { runTurn } from '../../src/packing/turns.ts';
import { packWithoutWaste } from '../../src/packing/without-waste/pack-without-waste.ts';
import { isWithoutWaste } from '../../src/packing/without-waste/rooms-to-fill.ts';
import { WorkBudget } from '../../src/packing/work.ts';
import { type JobInput, jobOf, partOf, setOf, sheetOf } from '../helpers/jobs.ts';
import { cutOut, disc, lShape, polygon, rect } from '../helpers/shapes.ts';
import { faultsOf } from '../packing-outlines/second-look.ts';
import { normalised, type Outline } from '../packing-outlines/strips.ts';
import { cutUp } from './cut-up.ts';

const UNIT = 1 / UNITS_PER_MM;
const QUARTERS = [0, 90, 180, 270];
const TRIANGLE = polygon([0, 0], [300, 0], [0, 200]);

interface Known {
  readonly name: string;
  readonly side: number;
  readonly fewest: number;
  readonly outlines: readonly Outline[];
}

/** Published; see instances/SOURCES.md. */
const KNOWN: readonly Known[] = JSON.parse(
  readFileSync(join(import.meta.dirname, 'instances', 'known-optimum.json'), 'utf8'),
);

/** The same job seen otherwise. */
const VIEWS = [
  { view: 'as they are', turn: false, mirror: false, times: 1 },
  { view: 'turned by 90', turn: true, mirror: false, times: 1 },
  { view: 'mirrored', turn: false, mirror: true, times: 1 },
  { view: 'twice as large', turn: false, mirror: false, times: 2 },
];

const TRIANGLES: JobInput = {
  spacing: 0,
  sheets: [sheetOf(1200, 600)],
  parts: [partOf(TRIANGLE, { count: 156, turns: [0, 180] })],
};

interface Case {
  readonly what: string;
  readonly job: JobInput;
}

/** With the end of each sheet, in mm. */
const FILLED: readonly (Case & { readonly ends: readonly number[] })[] = [
  {
    what: 'hundreds of triangles, the last sheet up to its half',
    job: TRIANGLES,
    ends: [1200, 1200, 1200, 1200, 1200, 1200, 600],
  },
  {
    what: 'L and rectangles with spacing and trim',
    job: {
      spacing: 8,
      sheets: [sheetOf(428, 328, { trim: { left: 10, right: 10, top: 10, bottom: 10 } })],
      parts: [
        partOf(lShape(408, 308, 100), { turns: [0] }),
        partOf(rect(300, 200), { turns: [0] }),
      ],
    },
    ends: [418],
  },
  {
    what: 'the spacing odd',
    job: {
      spacing: 7 + UNIT,
      sheets: [sheetOf(607 + UNIT, 400)],
      parts: [
        partOf(rect(300, 400), { turns: [0] }),
        partOf(rect(300, 196.5), { count: 1, turns: [0] }),
        partOf(rect(300, 196.5 - UNIT), { count: 1, turns: [0] }),
      ],
    },
    ends: [607 + UNIT],
  },
  {
    what: 'an L whose foot is as large as a rectangle that lies there already',
    job: {
      spacing: 0,
      sheets: [sheetOf(400, 200)],
      parts: [
        partOf(lShape(200, 200, 100), { count: 2, turns: QUARTERS }),
        partOf(rect(100, 100), { count: 2 }),
      ],
    },
    ends: [400],
  },
  {
    what: 'sets of pieces side by side',
    job: {
      spacing: 8,
      sheets: [sheetOf(608, 400)],
      parts: [setOf([rect(200, 400), rect(100, 400)], 'x'), partOf(rect(292, 400))],
    },
    ends: [608],
  },
  {
    what: 'just the sheets on hand',
    job: { ...TRIANGLES, sheets: [sheetOf(1200, 600, { onHand: 7 })] },
    ends: [1200, 1200, 1200, 1200, 1200, 1200, 600],
  },
  { what: 'nothing at all', job: { spacing: 0, sheets: [sheetOf(100, 100)], parts: [] }, ends: [] },
];

const SQUARE = { spacing: 0, sheets: [sheetOf(600, 400)] };
const EIGHT = partOf(TRIANGLE, { count: 8 });

const LEFT_ALONE: readonly Case[] = [
  {
    what: 'areas that do not come out even',
    job: { ...SQUARE, sheets: [sheetOf(600, 401)], parts: [EIGHT] },
  },
  { what: 'curves', job: { ...SQUARE, parts: [partOf(disc(200))] } },
  {
    what: 'slanted sides with spacing',
    job: { spacing: 8, sheets: [sheetOf(616, 416)], parts: [EIGHT] },
  },
  {
    what: 'a cut-out to nest in',
    job: {
      ...SQUARE,
      parts: [partOf(cutOut(rect(600, 400), rect(100, 100), 50, 50), { nestInside: true })],
    },
  },
  {
    what: 'two stocks',
    job: { ...SQUARE, sheets: [sheetOf(600, 400), sheetOf(1200, 400)], parts: [EIGHT] },
  },
  {
    what: 'a keep-out',
    job: { ...SQUARE, sheets: [sheetOf(600, 400, { keepOuts: [[0, 0, 10, 10]] })], parts: [EIGHT] },
  },
  {
    what: 'too few on hand',
    job: { ...SQUARE, sheets: [sheetOf(600, 200, { onHand: 1 })], parts: [EIGHT] },
  },
  { what: 'a part of one sheet', job: { ...SQUARE, sheets: [sheetOf(900, 400)], parts: [EIGHT] } },
  {
    what: 'an odd-shaped sheet',
    job: {
      ...SQUARE,
      sheets: [
        sheetOf(600, 400, {
          boundary: [
            [0, 0],
            [600, 0],
            [600, 300],
            [500, 400],
            [0, 400],
          ],
        }),
      ],
      parts: [EIGHT],
    },
  },
  {
    what: 'a notch narrower than the spacing',
    job: {
      spacing: 8,
      sheets: [sheetOf(600, 400)],
      parts: [
        partOf(
          polygon([0, 0], [100, 0], [100, 50], [104, 50], [104, 0], [292, 0], [292, 400], [0, 400]),
        ),
      ],
    },
  },
];

const IN_VAIN: readonly Case[] = [
  {
    what: 'no corner fits',
    job: {
      ...SQUARE,
      parts: [partOf(polygon([0, 200], [300, 0], [600, 200], [300, 400]), { count: 2 })],
    },
  },
  {
    what: 'longer than the sheet',
    job: { ...SQUARE, parts: [partOf(rect(800, 300), { turns: [0] })] },
  },
  {
    what: 'sets of pieces that touch in a corner',
    job: { ...SQUARE, parts: [setOf([TRIANGLE, TRIANGLE], 'x', { count: 4 })] },
  },
  {
    what: 'an L that would reach into a bar by one of its limbs',
    job: {
      spacing: 0,
      sheets: [sheetOf(300, 200)],
      parts: [
        partOf(lShape(200, 200, 100), { turns: QUARTERS }),
        partOf(rect(300, 100), { turns: QUARTERS }),
      ],
    },
  },
  {
    what: 'an end that no column comes to',
    job: { ...TRIANGLES, parts: [partOf(TRIANGLE, { count: 160, turns: [0, 180] })] },
  },
];

describe('sheets without waste', () => {
  const ways = [
    { way: 'not turned', turns: [0] },
    { way: 'by quarters', turns: QUARTERS },
  ];

  it.each(KNOWN.flatMap((known) => ways.map((way) => ({ ...known, ...way }))))(
    'are as few as published: $name, $way',
    ({ side, fewest, outlines, turns }) => {
      const parts = outlines.map((outline) => partOf(polygon(...normalised(outline)), { turns }));
      expect(endsOf({ spacing: 0, sheets: [sheetOf(side, side)], parts }).length).toBe(fewest);
    },
  );

  it.each(VIEWS)('come out of sheets that were cut up, $view', ({ turn, mirror, times }) => {
    for (const seed of [1, 2, 3, 4, 5, 6]) {
      const random = seededRandom(seed);
      const pieces = [1, 2, 3].flatMap(() => cutUp(1200, 600, 12, random));
      const parts = shuffled(pieces, random).map((ring) =>
        partOf(
          polygon(
            ...inMm(
              ring.map((p) => turned(p, turn, mirror)),
              times,
            ),
          ),
          { turns: QUARTERS },
        ),
      );
      const sides = turn ? ([600, 1200] as const) : ([1200, 600] as const);
      const sheets = [sheetOf(times * sides[0], times * sides[1])];
      const ends = endsOf({ spacing: 0, sheets, parts });
      expect(ends).toEqual(Array(3).fill(times * sides[0]));
    }
  });

  it.each([1, 2, 3, 4, 5, 6, 7, 8, 9])(
    'are filled by %i L, as many pairs of cells, and single ones',
    (count) => {
      const parts = [
        partOf(lShape(200, 200, 100), { count, turns: QUARTERS }),
        partOf(rect(200, 100), { count, turns: QUARTERS }),
        partOf(rect(100, 100), { count: 48 - 5 * count }),
      ];
      expect(endsOf({ spacing: 0, sheets: [sheetOf(400, 600)], parts })).toEqual([400, 400]);
    },
  );

  it.each(FILLED)('are filled: $what', ({ job, ends }) => {
    expect(endsOf(job)).toEqual(ends);
  });

  it.each(LEFT_ALONE)('leave the start and the work as they are: $what', ({ job }) => {
    const { candidate, start, worked } = run(job);
    expect(candidate).toBe(start);
    expect(worked).toBe(0);
  });

  it.each(IN_VAIN)('end soon where they cannot be filled: $what', ({ job }) => {
    const { candidate, start, worked } = run(job);
    expect(candidate).toBe(start);
    expect(worked).toBeLessThan(1e6);
  });

  it('stop when the work is gone', () => {
    const parts = cutUp(1200, 600, 40, seededRandom(1)).map((ring) =>
      partOf(polygon(...inMm(ring))),
    );
    const { candidate, start } = run({ spacing: 0, sheets: [sheetOf(1200, 600)], parts }, 1e5);
    expect(candidate).toBe(start);
  });

  it('stop when they are told to', () => {
    const parts = cutUp(1200, 600, 40, seededRandom(1)).map((ring) =>
      partOf(polygon(...inMm(ring))),
    );
    const task = packingTask(jobOf({ spacing: 0, sheets: [sheetOf(1200, 600)], parts }), 0);
    const start = { sheets: [], unplaced: task.bodies.map(({ index }) => index) };
    const budget = new WorkBudget(1e12, () => true);
    const search = { random: seededRandom(1), atLeast: 0, track: 0, found: () => undefined };
    expect(packWithoutWaste(task, { ...search, budget, start })).toBe(start);
  });

  it('are the same again for the same seed', () => {
    const parts = cutUp(1200, 600, 20, seededRandom(1)).map((ring) =>
      partOf(polygon(...inMm(ring))),
    );
    const job = { spacing: 0, sheets: [sheetOf(1200, 600)], parts };
    expect(run(job).candidate).toEqual(run(job).candidate);
  });

  it('end a turn, as nothing is better', () => {
    const task = packingTask(jobOf(TRIANGLES), 0);
    const start = { sheets: [], unplaced: task.bodies.map(({ index }) => index) };
    const own = { work: 1e15, atLeast: 0, told: 0, leftBefore: 1, leftAfter: 0 };
    const watch = { shouldStop: () => false, report: () => undefined };
    const turn = {
      kind: 'search',
      aspect: 'all',
      stage: 0,
      track: 0,
      seed: 1,
      start,
      ...own,
    } as const;
    const { candidate } = runTurn(task, turn, watch);
    expect(isWithoutWaste(task, candidate!)).toBe(true);
    expect(runTurn(task, { ...turn, stage: 1, start: candidate! }, watch).candidate).toBe(
      candidate,
    );
  });

  it('spend little work where the last sheet may end anywhere', () => {
    const parts = [
      partOf(lShape(370, 290, 110), { count: 6, turns: QUARTERS }),
      ...[430, 270, 230, 190, 170, 130].map((side) =>
        partOf(rect(side, 310 - side / 2), { count: 8, turns: QUARTERS }),
      ),
    ];
    const sheets = [sheetOf(1200, 1000)];
    const { candidate, start, worked } = run({ spacing: 0, sheets, parts });
    expect(candidate).toBe(start);
    expect(worked).toBeGreaterThan(1e6);
    expect(worked).toBeLessThan(1.2e6);
  });

  it('are proved by the least effort of the whole search', () => {
    const { side, fewest, outlines } = KNOWN[2]!;
    const parts = outlines.map((outline) =>
      partOf(polygon(...normalised(outline)), { turns: QUARTERS }),
    );
    const job = jobOf({ spacing: 0, sheets: [sheetOf(side, side)], parts });
    const { layout } = pack(job, 0, {
      effort: 'quick',
      seed: 1,
      shouldStop: () => false,
      onProgress: () => undefined,
    });
    expect(layout).toMatchObject({ status: 'proved', bound: { atLeast: fewest } });
    expect(layout.sheets.length).toBe(fewest);
  });
});

/** Plates of 100 by 200 in columns of two, so many on each sheet; six columns fill one. The last plate may be moved by some mm. */
describe('a layout without waste', () => {
  const cases = [
    { what: 'to the ends of the sheets', columns: [6, 6], is: true },
    { what: 'but for an end that is worth keeping', columns: [6, 4], is: true },
    { what: 'but for an end that is not', columns: [6, 5], is: false },
    { what: 'but for the end of the only sheet', columns: [4], is: false },
    { what: 'but not all of it laid', columns: [6, 6], unplaced: [0], is: false },
    { what: 'on a sheet more', columns: [3, 3], is: false },
    { what: 'one base length too long', columns: [6, 4], moved: UNIT, is: false },
    { what: 'half the spacing too long', columns: [6, 4], spacing: 8, moved: 4, is: false },
    { what: 'up to the spacing', columns: [6, 4], spacing: 8, is: true },
  ];
  it.each(cases)('is told: $what', ({ columns, spacing = 0, unplaced = [], moved = 0, is }) => {
    const step = 100 + spacing;
    const count = 2 * columns.reduce((sum, own) => sum + own, 0);
    const sheet = sheetOf(6 * step - spacing, 400 + spacing);
    const parts = [partOf(rect(100, 200), { count, turns: [0] })];
    const task = packingTask(jobOf({ spacing, sheets: [sheet], parts }), 0);
    let next = 0;
    const sheets = columns.map((own) => ({
      stock: 0,
      spots: Array.from({ length: 2 * own }, (_, i) => ({
        body: next++,
        orientation: 0,
        x: fromMm(Math.floor(i / 2) * step + (next === count ? moved : 0)),
        y: fromMm((i % 2) * (200 + spacing)),
      })).filter(({ body }) => !unplaced.includes(body)),
    }));
    expect(isWithoutWaste(task, { sheets, unplaced })).toBe(is);
  });
});

function run(input: JobInput, work?: number) {
  return runTask(packingTask(jobOf(input), 0), undefined, work);
}

function runTask(
  task: PackingTask,
  start: Candidate = { sheets: [], unplaced: task.bodies.map(({ index }) => index) },
  work = 5e6,
) {
  const budget = new WorkBudget(work);
  const search = { random: seededRandom(1), atLeast: 0, track: 0, found: () => undefined };
  const candidate = packWithoutWaste(task, { ...search, budget, start });
  expect(faultsOf(task, candidate)).toEqual([]);
  return { task, candidate, start, worked: work - budget.left };
}

/** Up to where the pieces of each sheet reach, in mm. */
function endsOf(input: JobInput): number[] {
  const { task, candidate } = run(input);
  expect(candidate.unplaced).toEqual([]);
  return candidate.sheets.map(({ spots }) =>
    Math.max(
      ...spots.map(({ body, orientation, x }) =>
        toMm(x + (task.bodies[body]?.orientations[orientation]?.width ?? 0)),
      ),
    ),
  );
}

function turned({ x, y }: Point, turn: boolean, mirror: boolean): Point {
  const seen = { x: mirror ? -x : x, y };
  return turn ? { x: -seen.y, y: seen.x } : seen;
}

function inMm(ring: Ring, times = 1): (readonly [number, number])[] {
  return normalised(ring.map(({ x, y }) => [times * toMm(x), times * toMm(y)] as const));
}

function shuffled<T>(list: readonly T[], random: Random): T[] {
  return list
    .map((entry) => ({ entry, rank: random() }))
    .sort((a, b) => a.rank - b.rank)
    .map(({ entry }) => entry);
}
