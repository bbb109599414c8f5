import { describe, expect, it } from 'vitest';
import { circle, rectangle, type Shape } from '../../src/geometry/shape.ts';
import { packingTask } from '../../src/packing/bodies.ts';
import type { Body } from '../../src/packing/task.ts';
import { jobOf, type PartSketch, type StockSketch } from './jobs.ts';

const SHEET: StockSketch = { length: 1000, width: 1000 };
const GRAIN_X: StockSketch = { ...SHEET, grainAxis: 'x' };
const GRAIN_Y: StockSketch = { ...SHEET, grainAxis: 'y' };

const polygon = (...corners: readonly (readonly [number, number])[]): Shape => ({
  outer: corners.map(([x, y]) => ({ x, y, via: null })),
  inner: [],
});
/** Looks different from all eight sides. */
const HOOK = polygon([0, 0], [60, 0], [60, 10], [10, 10], [10, 40], [0, 40]);
/** Its mirror image is itself. */
const GABLE = polygon([0, 0], [60, 0], [30, 40]);
const DISC: Shape = { outer: circle({ x: 25, y: 25 }, 25), inner: [] };
/** A window out of the middle. */
const FRAME: Shape = {
  outer: rectangle(0, 0, 60, 40),
  inner: [[...rectangle(5, 5, 10, 10)].reverse()],
};

/** How a part may lie: turn, m where mirrored, the box, and for each stock 1 where the grain allows it. */
const CASES: readonly {
  readonly name: string;
  readonly part: Partial<PartSketch>;
  readonly stocks?: readonly StockSketch[];
  readonly lies: readonly string[];
}[] = [
  { name: 'a rectangle', part: {}, lies: ['0 60x40 1', '90 40x60 1'] },
  { name: 'a rectangle that turns by half', part: { turns: [0, 180] }, lies: ['0 60x40 1'] },
  {
    name: 'a rectangle with either face up',
    part: { face: 'either', turns: [0] },
    lies: ['0 60x40 1'],
  },
  { name: 'a square', part: { width: 60, height: 60 }, lies: ['0 60x60 1'] },
  { name: 'grain along', part: { grain: 'along' }, stocks: [GRAIN_X], lies: ['0 60x40 1'] },
  { name: 'grain across', part: { grain: 'across' }, stocks: [GRAIN_X], lies: ['90 40x60 1'] },
  {
    name: 'grain along, the other way',
    part: { grain: 'along' },
    stocks: [GRAIN_Y],
    lies: ['90 40x60 1'],
  },
  {
    name: 'grain along, on a sheet without grain',
    part: { grain: 'along' },
    lies: ['0 60x40 1', '90 40x60 1'],
  },
  {
    name: 'grain along, on stocks that differ',
    part: { grain: 'along' },
    stocks: [GRAIN_X, GRAIN_Y, SHEET],
    lies: ['0 60x40 101', '90 40x60 011'],
  },
  {
    name: 'a square with grain, on stocks that differ',
    part: { width: 60, height: 60, grain: 'along' },
    stocks: [GRAIN_X, GRAIN_Y],
    lies: ['0 60x60 10', '90 60x60 01'],
  },
  {
    name: 'grain that no allowed turn satisfies',
    part: { grain: 'across', turns: [90] },
    stocks: [GRAIN_X],
    lies: [],
  },
  {
    name: 'grain along without a turn, on stocks that differ',
    part: { grain: 'along', turns: [0] },
    stocks: [GRAIN_X, GRAIN_Y, SHEET],
    lies: ['0 60x40 101', '90 40x60 010'],
  },
  {
    name: 'a hook across the grain that turns by half, on stocks that differ',
    part: { shape: HOOK, grain: 'across', turns: [0, 180] },
    stocks: [GRAIN_X, GRAIN_Y, SHEET],
    lies: ['0 60x40 011', '90 40x60 100', '180 60x40 011', '270 40x60 100'],
  },
  {
    name: 'a hook',
    part: { shape: HOOK },
    lies: ['0 60x40 1', '90 40x60 1', '180 60x40 1', '270 40x60 1'],
  },
  {
    name: 'a hook with either face up',
    part: { shape: HOOK, face: 'either', turns: [0, 180] },
    lies: ['0 60x40 1', '0m 60x40 1', '180 60x40 1', '180m 60x40 1'],
  },
  {
    name: 'a gable with either face up',
    part: { shape: GABLE, face: 'either', turns: [0, 180] },
    lies: ['0 60x40 1', '180 60x40 1'],
  },
  {
    name: 'a disc at any turn',
    part: { shape: DISC, width: 50, height: 50, face: 'either', turns: [0, 30, 90, 135] },
    lies: ['0 50x50 1'],
  },
  {
    name: 'a frame whose window counts as material',
    part: { shape: FRAME },
    lies: ['0 60x40 1', '90 40x60 1'],
  },
  {
    name: 'a frame whose window is for other pieces',
    part: { shape: FRAME, nestInside: true },
    lies: ['0 60x40 1', '90 40x60 1', '180 60x40 1', '270 40x60 1'],
  },
  {
    name: 'askew, where it fits straight as well',
    part: { width: 1000, height: 10, turns: [0, 45] },
    lies: ['0 1000x10 1'],
  },
  {
    name: 'askew, where it fits not otherwise',
    part: { width: 1200, height: 10, turns: [0, 45] },
    lies: ['0 1200x10 1', '45 856x856 1'],
  },
];

describe('the lies of a body', () => {
  it.each(CASES)('$name', ({ part, stocks = [SHEET], lies }) => {
    const [body] = packingTask(jobOf(stocks, [{ width: 60, height: 40, ...part }]), 0).bodies;
    expect(liesOf(body)).toEqual(lies);
  });

  it('fill their boxes only where the part is a rectangle that lies straight', () => {
    const parts = [{}, { shape: HOOK }, { width: 1200, height: 10, turns: [45] }];
    const { bodies } = packingTask(
      jobOf(
        [SHEET],
        parts.map((part) => ({ width: 60, height: 40, ...part })),
      ),
      0,
    );
    const fills = bodies.map(({ orientations }) => orientations.every((lie) => lie.rectangular));
    expect(fills).toEqual([true, false, false]);
  });
});

describe('a matched set', () => {
  const row = { width: 30, height: 40, count: 3, matched: 'x' } as const;
  const bodyAt = (turns: readonly number[], part: PartSketch = row) =>
    packingTask(jobOf([SHEET], [{ ...part, turns }], 5), 0).bodies;

  /** Where the origins of the three pieces come to lie, each with its own turn. */
  const TURNED = [
    { turn: 0, box: '100x40', at: ['0,0', '35,0', '70,0'] },
    { turn: 90, box: '40x100', at: ['40,0', '40,35', '40,70'] },
    { turn: 180, box: '100x40', at: ['100,40', '65,40', '30,40'] },
    { turn: 270, box: '40x100', at: ['0,100', '0,65', '0,30'] },
  ];

  it.each(TURNED)('runs on in order at $turn degrees', ({ turn, box, at }) => {
    const [body, ...others] = bodyAt([turn]);
    expect(others).toEqual([]);
    const [lie] = body!.orientations;
    expect(`${lie!.width}x${lie!.height}`).toBe(box);
    expect(lie!.placements.map(({ x, y }) => `${x},${y}`)).toEqual(at);
    expect(lie!.placements.map(({ piece }) => piece)).toEqual([0, 1, 2]);
    expect(lie!.placements.every((placement) => placement.turn === turn)).toBe(true);
  });

  it('may run upwards', () => {
    const [body] = bodyAt([0], { ...row, matched: 'y' });
    expect(liesOf(body)).toEqual(['0 30x130 1']);
  });

  it('is never mirrored or askew', () => {
    const [body] = bodyAt([0, 45], { ...row, face: 'either' });
    expect(liesOf(body)).toEqual(['0 100x40 1']);
  });

  it('turns only as all of its pieces may', () => {
    const job = jobOf(
      [SHEET],
      [
        { width: 30, height: 40, turns: [0, 90] },
        { width: 30, height: 50, turns: [0, 180] },
      ],
    );
    const pieces = job.pieces.map((piece, k) => ({ ...piece, set: 0, setOrder: k + 1 }));
    const set = { index: 0, name: 'pair', number: 1, axis: 'x', pieces: [0, 1] } as const;
    const { bodies } = packingTask({ ...job, pieces, sets: [set] }, 0);
    expect(bodies.map(liesOf)).toEqual([['0 60x50 1']]);
    // Their lower edges are aligned, so the shorter one leaves a corner of the box free.
    expect(bodies[0]!.orientations[0]!.rectangular).toBe(false);
  });
});

describe('kinds', () => {
  const TWINS: readonly { name: string; parts: readonly Partial<PartSketch>[]; kinds: number[] }[] =
    [
      { name: 'copies', parts: [{ count: 3 }], kinds: [0, 0, 0] },
      { name: 'parts of one size', parts: [{}, { width: 61 }, {}], kinds: [0, 1, 0] },
      {
        name: 'another turn of the same look',
        parts: [{ turns: [0] }, { turns: [180] }],
        kinds: [0, 0],
      },
      { name: 'a part that may not turn', parts: [{}, { turns: [0] }], kinds: [0, 1] },
      { name: 'another shape in the same box', parts: [{}, { shape: HOOK }], kinds: [0, 1] },
      {
        name: 'a contour that starts elsewhere',
        parts: [
          { shape: HOOK },
          { shape: { ...HOOK, outer: [...HOOK.outer.slice(2), ...HOOK.outer.slice(0, 2)] } },
        ],
        kinds: [0, 0],
      },
      {
        name: 'a set as large as a piece',
        parts: [{ width: 30, height: 40, count: 2, matched: 'x' }, {}],
        kinds: [0, 0],
      },
    ];

  it.each(TWINS)('$name', ({ parts, kinds }) => {
    const sketches = parts.map((part) => ({ width: 60, height: 40, ...part }));
    const { bodies } = packingTask(jobOf([SHEET], sketches), 0);
    expect(bodies.map(({ kind }) => kind)).toEqual(kinds);
    expect(bodies.map(({ index }) => index)).toEqual([...bodies.keys()]);
  });
});

describe('the task', () => {
  const priced = { ...SHEET, priceCents: 100 };
  it.each([
    { name: 'one stock', stocks: [priced], objective: 'sheets' },
    { name: 'two stocks, one without a price', stocks: [priced, SHEET], objective: 'sheets' },
    { name: 'two stocks with prices', stocks: [priced, priced], objective: 'cost' },
  ])('$name: $objective', ({ stocks, objective }) => {
    expect(packingTask(jobOf(stocks, []), 0).objective).toBe(objective);
  });

  it('holds the pieces of its own material only', () => {
    const job = jobOf(
      [SHEET],
      [
        { width: 60, height: 40 },
        { width: 50, height: 50 },
      ],
    );
    const other = { ...job.materials[0]!, index: 1, id: 'mdf' };
    const parts = job.parts.map((part) => ({ ...part, material: part.index }));
    const two = { ...job, parts, materials: [job.materials[0]!, other] };
    expect(packingTask(two, 0).bodies.map(({ pieces }) => pieces)).toEqual([[0]]);
    expect(packingTask(two, 1).bodies.map(({ pieces }) => pieces)).toEqual([[1]]);
  });
});

function liesOf(body: Body | undefined): string[] {
  return (body?.orientations ?? []).map(
    ({ turn, mirrored, width, height, allowedOn }) =>
      `${turn}${mirrored ? 'm' : ''} ${width}x${height} ${allowedOn.map(Number).join('')}`,
  );
}
