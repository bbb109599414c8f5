import { describe, expect, it } from 'vitest';
import { packingTask } from '../../src/packing/bodies.ts';
import { type Crowd, crowdOf, moveEntry } from '../../src/packing/outlines/crowd.ts';
import { leastPlaces, type Quest } from '../../src/packing/outlines/least-places.ts';
import { type Measure, rootAt } from '../../src/packing/outlines/overlap.ts';
import { lossAt, rangeOf } from '../../src/packing/outlines/probe.ts';
import { type RootGrid, type RootGrids, rootGrids } from '../../src/packing/outlines/root-grids.ts';
import { setupOf } from '../../src/packing/outlines/setup.ts';
import { type Random, seededRandom } from '../../src/packing/random.ts';
import type { PackingTask } from '../../src/packing/task.ts';
import { WorkBudget } from '../../src/packing/work.ts';
import { jobOf, partOf, sheetOf } from '../helpers/jobs.ts';
import { disc, lShape, polygon } from '../helpers/shapes.ts';
import { randomParts } from './random-parts.ts';
import { smallSetup } from './small-setup.ts';

const MEASURES: readonly Measure[] = ['depth', 'circles'];

const PARTS = [
  partOf(lShape(250, 250, 80), { count: 3 }),
  partOf(disc(120), { count: 3 }),
  partOf(polygon([0, 0], [200, 0], [0, 200]), { count: 3, turns: [0, 90, 180, 270] }),
];

function taskOn(length: number, width: number): PackingTask {
  return packingTask(jobOf({ spacing: 5, sheets: [sheetOf(length, width)], parts: PARTS }), 0);
}

/** All bodies at random points of the grid, with random weights. */
function scattered(task: PackingTask, measure: Measure, random: Random): Crowd {
  const setup = setupOf(task, measure, new WorkBudget(1e9));
  const spots = task.bodies.map(({ index }) => ({ body: index, orientation: 0, x: 0, y: 0 }));
  const crowd = crowdOf(setup, { sheets: [{ stock: 0, spots }], unplaced: [] });
  for (let i = 0; i < crowd.count; i++) {
    const point = pick(pointsOf(gridsOf(crowd), questOf(crowd, i)), random);
    moveEntry(crowd, i, { sheet: 0, orientation: 0, ...point });
  }
  crowd.weight.forEach((_, k) => {
    crowd.weight[k] = 1 + 5 * random();
  });
  return crowd;
}

function pick<T>(list: readonly T[], random: Random): T {
  return list[Math.floor(random() * list.length)] as T;
}

function gridsOf({ setup }: Crowd): RootGrids {
  if (setup.grids === null) throw new Error('no grids');
  return setup.grids;
}

function questOf(crowd: Crowd, i: number): Quest {
  const range = rangeOf(crowd, i, 0, 0);
  if (range === null) throw new Error('no range');
  return { form: crowd.form[i] as number, sheet: 0, range };
}

/** All points of the grid in the range. */
function pointsOf({ pitch }: RootGrids, { range }: Quest): { x: number; y: number }[] {
  const along = (from: number, to: number) =>
    Array.from({ length: Math.floor((to - from) / pitch) + 1 }, (_, k) =>
      Math.round(from + k * pitch),
    );
  return along(range.minX, range.maxX).flatMap((x) =>
    along(range.minY, range.maxY).map((y) => ({ x, y })),
  );
}

function lossOf(crowd: Crowd, i: number, { x, y }: { x: number; y: number }): number {
  return lossAt(crowd, i, crowd.form[i] as number, 0, x, y, Number.POSITIVE_INFINITY);
}

describe('the least places of a grid', () => {
  it.each(MEASURES)('begin with the one that asking at every point gives, by %s', (measure) => {
    const random = seededRandom(5);
    const task = taskOn(900, 600);
    for (let round = 0; round < 5; round++) {
      const crowd = scattered(task, measure, random);
      for (let i = 0; i < crowd.count; i++) {
        const quest = questOf(crowd, i);
        const losses = pointsOf(gridsOf(crowd), quest).map((at) => lossOf(crowd, i, at));
        const least = losses.reduce((a, b) => Math.min(a, b));
        const most = losses.reduce((a, b) => Math.max(a, b));
        const [first] = leastPlaces(crowd, gridsOf(crowd), i, quest, random);
        expect(most).toBeGreaterThan(0);
        // Bodies on the grid lie at whole places, up to half a base length beside its points.
        expect(lossOf(crowd, i, first ?? { x: 0, y: 0 }) - least).toBeLessThanOrEqual(0.001 * most);
      }
    }
  });

  it('lie apart from one another, and within the range', () => {
    const random = seededRandom(6);
    const crowd = scattered(taskOn(900, 600), 'circles', random);
    for (let i = 0; i < crowd.count; i++) {
      const quest = questOf(crowd, i);
      const [one, other] = leastPlaces(crowd, gridsOf(crowd), i, quest, random);
      if (one === undefined || other === undefined) throw new Error('no two places');
      const apart = Math.max(Math.abs(one.x - other.x), Math.abs(one.y - other.y));
      expect(apart).toBeGreaterThan(2 * gridsOf(crowd).pitch);
      for (const { x, y } of [one, other]) expect(isIn(quest, x, y)).toBe(true);
    }
  });

  it('are looked for through a window where a sheet has more points, and at another place each time', () => {
    const random = seededRandom(7);
    const crowd = scattered(taskOn(9000, 6000), 'circles', random);
    const quest = questOf(crowd, 0);
    const found = Array.from({ length: 60 }, () =>
      leastPlaces(crowd, gridsOf(crowd), 0, quest, random),
    ).flat();
    for (const { x, y } of found) expect(isIn(quest, x, y)).toBe(true);
    const { minX, minY, maxX, maxY } = quest.range;
    expect(spread(found.map(({ x }) => x))).toBeGreaterThan((maxX - minX) / 2);
    expect(spread(found.map(({ y }) => y))).toBeGreaterThan((maxY - minY) / 4);
  });

  it('are one place where a body has no choice', () => {
    const task = packingTask(
      jobOf({ spacing: 0, sheets: [sheetOf(250, 250)], parts: [partOf(lShape(250, 250, 80))] }),
      0,
    );
    const spots = [{ body: 0, orientation: 0, x: 0, y: 0 }];
    const setup = setupOf(task, 'depth', new WorkBudget(1e9));
    const crowd = crowdOf(setup, { sheets: [{ stock: 0, spots }], unplaced: [] });
    const places = leastPlaces(crowd, gridsOf(crowd), 0, questOf(crowd, 0), seededRandom(1));
    expect(places).toEqual([{ x: 0, y: 0 }]);
  });
});

function spread(values: readonly number[]): number {
  return Math.max(...values) - Math.min(...values);
}

function isIn({ range }: Quest, x: number, y: number): boolean {
  return x >= range.minX && x <= range.maxX && y >= range.minY && y <= range.maxY;
}

describe('the grids of roots', () => {
  it.each(MEASURES)('have every root that is not 0 at a point, by %s', (measure) => {
    const random = seededRandom(8);
    for (let round = 0; round < 10; round++) {
      const { overlaps, grids } = smallSetup(
        [randomParts(random, 90), randomParts(random, 60)],
        300,
        300,
        measure,
      );
      if (grids === null) throw new Error('no grids');
      const one = grids.of(0, 1);
      const { fromColumn, fromRow, columns, rows } = one;
      // The other way round the grid is made from the first one, by its points.
      const other = grids.of(1, 0);
      for (let row = fromRow - 5; row < fromRow + rows + 5; row++)
        for (let column = fromColumn - 5; column < fromColumn + columns + 5; column++) {
          const [x, y] = [Math.round(column * grids.pitch), Math.round(row * grids.pitch)];
          const root = rootAt(overlaps, 0, 0, 1, x, y, Number.POSITIVE_INFINITY);
          expect(rootOn(one, column, row)).toBe(Math.fround(root));
          expect(rootOn(other, -column, -row)).toBe(Math.fround(root));
        }
    }
  });

  it('are coarser for many forms, and not made of very many or for little work', () => {
    const { forms, overlaps } = smallSetup([randomParts(seededRandom(9), 60)], 300, 300);
    const pitchOf = (count: number, work: number) =>
      rootGrids(forms, overlaps, { work, count })?.pitch;
    const least = pitchOf(1, 1e9) ?? 0;
    expect(pitchOf(160, 1e9)).toBe(least);
    expect(pitchOf(320, 1e9)).toBe(2 * least);
    expect(pitchOf(321, 1e9)).toBeUndefined();
    expect(pitchOf(160, 1e8)).toBeUndefined();
    expect(pitchOf(100, 1e8)).toBe(least);
  });
});

function rootOn({ fromColumn, fromRow, columns, rows, roots }: RootGrid, x: number, y: number) {
  const [column, row] = [x - fromColumn, y - fromRow];
  const isOn = column >= 0 && column < columns && row >= 0 && row < rows;
  return isOn ? roots[row * columns + column] : 0;
}
