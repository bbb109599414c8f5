import { describe, expect, it } from 'vitest';
import type { Shape } from '../../src/geometry/shape.ts';
import { packingTask } from '../../src/packing/bodies.ts';
import { construct } from '../../src/packing/outlines/construct.ts';
import { spotFinder } from '../../src/packing/outlines/find-spot.ts';
import { setupOf } from '../../src/packing/outlines/setup.ts';
import type { Candidate, PackingTask } from '../../src/packing/task.ts';
import { WorkBudget } from '../../src/packing/work.ts';
import { type JobInput, jobOf, partOf, sheetOf } from '../helpers/jobs.ts';
import { disc, hollow, polygon } from '../helpers/shapes.ts';
import { faultsOf } from './second-look.ts';

const PLENTY = 1e12;

/** Four full sheets between the first one, which has room, and the last disc. */
const ROOM_ON_THE_FIRST = [partOf(disc(200)), partOf(disc(390), { count: 4 }), partOf(disc(150))];

const DIAGONAL = polygon([0, 0], [520, 0], [520, 60], [0, 60]);

describe('a construction in a hurry', () => {
  it.each([
    { what: 'opens a sheet where only an old one has room', onHand: null, sheets: 6 },
    { what: 'takes the old one where no other is on hand', onHand: 5, sheets: 5 },
  ])('$what', ({ onHand, sheets }) => {
    const sheet = sheetOf(400, 400, { onHand });
    const { task, candidate } = construction({ sheets: [sheet], parts: ROOM_ON_THE_FIRST }, true);
    expect(faultsOf(task, candidate)).toEqual([]);
    expect([candidate.sheets.length, candidate.unplaced.length]).toEqual([sheets, 0]);
  });

  it('still finds the only orientation that fits, however late it comes', () => {
    const turns = [0, 30, 60, 90, 120, 135];
    const job = { sheets: [sheetOf(420, 420)], parts: [partOf(DIAGONAL, { turns })] };
    const { task, candidate } = construction(job, true);
    expect(faultsOf(task, candidate)).toEqual([]);
    expect(candidate.unplaced).toEqual([]);
  });

  it('does a small part of the work on a job of many sheets', () => {
    const parts = Array.from({ length: 60 }, (_, k) => partOf(triangle(300 - k), { turns: [0] }));
    const job = { sheets: [sheetOf(350, 350)], parts };
    const [slow, hurried] = [false, true].map((inHurry) => construction(job, inHurry));
    expect(faultsOf(hurried?.task as PackingTask, hurried?.candidate as Candidate)).toEqual([]);
    expect(hurried?.candidate.unplaced).toEqual([]);
    expect(hurried?.work).toBeLessThan(0.5 * (slow?.work ?? 0));
  });

  it('looks at hulls where all outlines differ, and still leaves none out', () => {
    const parts = Array.from({ length: 40 }, (_, k) => partOf(hollow(300 - k, 120, 40, 8)));
    const job = { sheets: [sheetOf(700, 500)], parts };
    const [slow, hurried] = [false, true].map((inHurry) => construction(job, inHurry));
    expect(faultsOf(hurried!.task, hurried!.candidate)).toEqual([]);
    expect(hurried?.candidate.unplaced).toEqual([]);
    expect(hurried?.work).toBeLessThan(0.2 * (slow?.work ?? 0));
  });

  it('finds room that hulls do not see where no sheet is left', () => {
    const notched = polygon([0, 0], [150, 0], [195, 20], [240, 0], [390, 0], [390, 200], [0, 200]);
    const parts = [partOf(notched), partOf(polygon([0, 0], [90, 0], [45, 20]))];
    const job = { spacing: 0, sheets: [sheetOf(390, 200, { onHand: 1 })], parts };
    const { task, candidate } = construction(job, true);
    expect(faultsOf(task, candidate)).toEqual([]);
    expect(candidate.unplaced).toEqual([]);
  });

  it('without it, takes the first sheet that has room', () => {
    const job = { sheets: [sheetOf(400, 400)], parts: ROOM_ON_THE_FIRST };
    const { task, candidate } = construction(job, false);
    expect(faultsOf(task, candidate)).toEqual([]);
    expect(candidate.sheets.map(({ spots }) => spots.length)).toEqual([2, 1, 1, 1, 1]);
  });
});

function triangle(side: number): Shape {
  return polygon([0, 0], [side, 0], [side, side]);
}

interface Built {
  readonly task: PackingTask;
  readonly candidate: Candidate;
  readonly work: number;
}

/** The bodies in the order of the job, without a search. */
function construction(job: JobInput, inHurry: boolean): Built {
  const task = packingTask(jobOf(job), 0);
  const budget = new WorkBudget(PLENTY);
  const setup = setupOf(task, 'circles', budget);
  const tools = { setup, findSpot: spotFinder(setup, budget), inHurry: () => inHurry };
  const candidate = construct(tools, {
    order: task.bodies.map(({ index }) => index),
    held: task.bodies.map(() => -1),
    stocks: [[0]],
  });
  return { task, candidate, work: PLENTY - budget.left };
}
