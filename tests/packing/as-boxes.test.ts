import { describe, expect, it } from 'vitest';
import type { Job } from '../../src/model/job.ts';
import type { Effort } from '../../src/model/plan.ts';
import { asBoxes } from '../../src/packing/as-boxes.ts';
import { packingTask } from '../../src/packing/bodies.ts';
import { searchTurns } from '../../src/packing/pack.ts';
import type { Candidate, PackingTask } from '../../src/packing/task.ts';
import { runTurn, type Turn, type TurnResult } from '../../src/packing/turns.ts';
import { verifyLayout } from '../../src/verify/verify.ts';
import { type JobInput, jobOf, partOf, setOf, sheetOf } from '../helpers/jobs.ts';
import { disc, frame, lShape, polygon, rect } from '../helpers/shapes.ts';
import { runTask } from '../packing-outlines/pack.ts';
import { faultsOf } from '../packing-outlines/second-look.ts';
import { PLAIN_SAW } from '../packing-panelsaw/saws.ts';
import { packCounted } from './counted-pack.ts';
import { compareScores, scoreOf } from './layout-score.ts';
import { boxedInput, mixedInput, STOCKS } from './mixed-outlines.ts';

const SHEET = sheetOf(1200, 1200, { grain: 'x' });
const ODD_SHEET = sheetOf(1200, 1200, {
  boundary: [
    [0, 0],
    [1200, 0],
    [1200, 700],
    [700, 1200],
    [0, 1200],
  ],
  keepOuts: [[200, 200, 50, 90]],
});
const EITHER = { face: 'either', count: 3 } as const;
const EVERY_15 = Array.from({ length: 24 }, (_, k) => 15 * k);
const WATCH = { shouldStop: () => false, report: () => {} };
const TRIANGLE = polygon([0, 0], [300, 0], [0, 200]);

describe('a mixed job', () => {
  // A share of the work for boxes made a sheet more of the first, and 262.00 in place of 220.00 of the second.
  it.each([
    [20, 2, 'single'],
    [26, 5, 'priced'],
    [26, 2, 'packs'],
    [14, 8, 'packs'],
    [14, 1, 'priced'],
    [20, 5, 'single'],
  ] as const)('is never worse than as boxes: %i rectangles (%i), %s', (count, seed, stocks) => {
    const input = mixedInput(count, seed, STOCKS[stocks]);
    const [own, boxed] = [input, boxedInput(input)].map((one) => {
      const job = jobOf(one);
      const layout = packCounted(job);
      expect(verifyLayout(job, layout).faults).toEqual([]);
      return scoreOf(job, layout);
    });
    expect(compareScores(own!, boxed!), `${own} against ${boxed}`).toBeGreaterThanOrEqual(0);
  });

  it('has the turns of the job of boxes, and then as many for its shapes', () => {
    const input = mixedInput(14, 1, STOCKS.priced);
    const [own, boxed] = [input, boxedInput(input)].map((one) => turnsOf(jobOf(one)));
    const searches = own!.filter(({ kind }) => kind === 'search');
    expect(searches.map(({ aspect }) => aspect)).toEqual(['boxes', 'boxes', 'shapes', 'shapes']);
    const told = (turns: readonly Turn[]) =>
      turns.flatMap((turn) =>
        turn.kind === 'search'
          ? [[turn.seed, turn.stage, turn.track, turn.work, turn.atLeast]]
          : [],
      );
    expect(told(searches.slice(0, 2))).toEqual(told(boxed!));
  });
});

describe('the boxes of a mixed job', () => {
  it('are not searched again once its shapes need less than boxes can', () => {
    const rectangles = partOf(rect(300, 200), { count: 4, turns: [0] });
    const triangles = partOf(TRIANGLE, { count: 4, turns: [0, 180] });
    const job = jobOf({ spacing: 0, sheets: [sheetOf(600, 600)], parts: [rectangles, triangles] });
    const aspects = turnsOf(job, 'normal', 1e5).map(({ aspect }) => aspect);
    const shapes = new Array(6).fill('shapes');
    expect(aspects).toEqual(['boxes', 'boxes', ...shapes]);
  });

  it.each(Object.entries(STOCKS))('are those of the job that has no outlines: %s', (_, sheets) => {
    const input = mixedInput(20, 3, sheets);
    const boxes = asBoxes(packingTask(jobOf(input), 0));
    expect(looks(boxes!.task)).toEqual(looks(packingTask(jobOf(boxedInput(input)), 0)));
  });

  it.each<readonly [string, JobInput]>([
    ['outlines of which some lie mirrored', mixedOf([partOf(lShape(300, 200, 80), EITHER)])],
    [
      'one that stands askew, among others that leave it no play',
      {
        spacing: 9.175,
        sheets: [sheetOf(2440, 1525, { trim: 12.7 })],
        parts: [
          partOf(polygon([183, 0], [300, 119], [117, 299], [0, 179]), { turns: [0, 180] }),
          partOf(polygon([0, 0], [743, 101], [693, 372], [50, 322]), { turns: [0, 180] }),
          setOf([rect(395, 225), rect(359, 225), rect(372, 225)], 'x', { count: 2, turns: [90] }),
          setOf([rect(483, 155), rect(483, 259)], 'y', { turns: [90] }),
          partOf(rect(341, 24)),
          partOf(disc(88), { count: 2 }),
        ],
      },
    ],
    ['rows of unequal pieces', mixedOf([setOf([rect(300, 200), rect(300, 260)], 'x')])],
    ['a cut-out for others', mixedOf([partOf(frame(600, 600, 50), { nestInside: true })])],
    ['outlines along the grain', mixedOf([partOf(TRIANGLE, { grain: 'along', count: 4 })])],
    ['outlines at any angle', mixedOf([partOf(TRIANGLE, { turns: EVERY_15, count: 3 })])],
    [
      'an odd-shaped sheet with a keep-out',
      { ...mixedOf([partOf(disc(250), { count: 3 })]), sheets: [ODD_SHEET] },
    ],
  ])('hold the outlines: %s', (_, input) => {
    const task = packingTask(jobOf(input), 0);
    const boxes = asBoxes(task);
    const laid = boxes!.unboxed(boxesOf(task));
    expect(laid.unplaced).toEqual([]);
    expect(faultsOf(task, laid)).toEqual([]);
    // Forms may reach over the boxes, so the shapes do not go on from them as they are.
    expect(faultsOf(task, runTask(task, { start: laid, work: 16_000 }).candidate)).toEqual([]);
  });

  it.each<readonly [string, Job]>([
    ['rectangles only', jobOf({ sheets: [SHEET], parts: [partOf(rect(300, 200), { count: 9 })] })],
    ['outlines only', jobOf({ sheets: [SHEET], parts: [partOf(TRIANGLE, { count: 9 })] })],
    ['hardly any rectangles', jobOf({ ...mixedOf([partOf(TRIANGLE, { count: 30 })]) })],
    ['a saw', { ...jobOf(mixedOf([partOf(TRIANGLE)])), machine: PLAIN_SAW }],
    [
      'an outline that fits a sheet only askew',
      jobOf(
        mixedOf([
          partOf(polygon([700, 0], [1400, 700], [700, 1400], [0, 700]), { turns: EVERY_15 }),
        ]),
      ),
    ],
  ])('are not looked at for %s', (_, job) => {
    expect(asBoxes(packingTask(job, 0))).toBeNull();
    expect(new Set(turnsOf(job).map(({ aspect }) => aspect))).toEqual(new Set(['all']));
  });
});

/** The turns of a search, each run with little work. */
function turnsOf(job: Job, effort: Effort = 'quick', work = 1000): Turn[] {
  const task = packingTask(job, 0);
  const turns: Turn[] = [];
  const search = searchTurns(task, { effort, seed: 1 });
  const run = (turn: Turn): TurnResult => {
    turns.push(turn);
    return runTurn(task, { ...turn, work }, WATCH);
  };
  let step = search.next();
  while (!step.done) step = search.next(step.value.map(run));
  return turns;
}

/** Nine rectangles and these. */
function mixedOf(others: JobInput['parts']): JobInput {
  const rectangles = [partOf(rect(250, 140), { count: 5 }), partOf(rect(90, 310), { count: 4 })];
  return { sheets: [SHEET], parts: [...rectangles, ...others] };
}

/** What the box engine makes of it with little work. */
function boxesOf(task: PackingTask): Candidate {
  const { candidate } = runTurn(
    task,
    {
      kind: 'search',
      aspect: 'boxes',
      stage: 0,
      track: 0,
      seed: 1,
      start: { sheets: [], unplaced: task.bodies.map(({ index }) => index) },
      work: 1e5,
      atLeast: 0,
      told: 0,
      leftBefore: 1,
      leftAfter: 0,
    },
    WATCH,
  );
  return candidate!;
}

/** All that the box engine and its bounds see of a task. */
function looks({ bodies, job, ...task }: PackingTask) {
  const lies = bodies.map(({ kind, pieces, orientations }) => ({
    kind,
    pieces,
    orientations: orientations.map(({ width, height, allowedOn, rectangular }) => ({
      width,
      height,
      allowedOn,
      rectangular,
    })),
  }));
  return { ...task, lies, shapes: job.parts.map(({ shape }) => shape) };
}
