import { describe, expect, it } from 'vitest';
import type { Placement } from '../../src/model/layout.ts';
import { UNITS_PER_MM } from '../../src/model/units.ts';
import { packingTask } from '../../src/packing/bodies.ts';
import { spotFinder } from '../../src/packing/outlines/find-spot.ts';
import { setupOf } from '../../src/packing/outlines/setup.ts';
import { type Random, seededRandom } from '../../src/packing/random.ts';
import { toLayout } from '../../src/packing/to-layout.ts';
import { WorkBudget } from '../../src/packing/work.ts';
import { verifyLayout } from '../../src/verify/verify.ts';
import { libraryFaults, libraryGapMm, SLACK_MM } from '../benchmarks/library-check.ts';
import { jobOf, partOf, sheetOf } from '../helpers/jobs.ts';
import { disc, rect } from '../helpers/shapes.ts';
import { runTask } from '../packing-outlines/pack.ts';
import { ODD_SHAPES } from './odd-shapes.ts';

/** In mm: none, less than a base length on each side, what a cutter needs, and the widest. */
const SPACINGS = [0, 3 / UNITS_PER_MM, 3.175, 6.35, 8, 12.7, 20];

/**
 * How far two pieces at contact may be apart beyond the spacing. A corner of a form stands off at most twice as far as its sides, so half the spacing
 * more on each of the two; arcs are taken as tangents within 0.05 mm, hollows are filled by up to 0.8 mm, and rounding adds a few base lengths.
 */
const excessMm = (spacing: number) => spacing + 2 * (0.05 + 0.8) + 0.02;

describe('the gap between outlines, as a geometry library measures it', () => {
  it.each(ODD_SHAPES)('is never under the spacing asked for $what', ({ make }) => {
    const random = seededRandom(7);
    for (const spacing of SPACINGS) {
      const job = jobOf({
        spacing,
        sheets: [sheetOf(700, 500)],
        parts: [
          partOf(make(random), { count: 2, nestInside: true }),
          partOf(make(random), { count: 2, nestInside: true }),
          partOf(disc(30), { count: 3 }),
        ],
      });
      const task = packingTask(job, 0);
      const { candidate } = runTask(task, { work: 1e6, track: spacing > 7 ? 0 : 1 });
      const bound = { atLeast: 1, provedBy: 'area' } as const;
      const layout = toLayout(task, candidate, bound);
      expect(libraryFaults(job, layout)).toEqual([]);
      expect(verifyLayout(job, layout).faults).toEqual([]);
    }
  });

  it.each(ODD_SHAPES)('exceeds it at contact by no more than is stated for $what', ({ make }) => {
    const random = seededRandom(8);
    for (const spacing of SPACINGS)
      for (let trial = 0; trial < 3; trial++) {
        const gap = contactGapMm(make, random, spacing);
        expect(gap).toBeGreaterThan(spacing - SLACK_MM);
        expect(gap).toBeLessThan(spacing + excessMm(spacing));
      }
  });

  it.each(SPACINGS)('is exact between straight sides at contact: %d mm', (spacing) => {
    const square = () => rect(100, 60);
    const gap = contactGapMm(square, seededRandom(1), spacing);
    expect(gap).toBeCloseTo(spacing, 9);
  });

  it.each(SPACINGS)('is close between discs at contact: %d mm', (spacing) => {
    const gap = contactGapMm(() => disc(90), seededRandom(1), spacing);
    expect(gap).toBeGreaterThan(spacing - SLACK_MM);
    // Tangents stand off by 0.05 mm each, and their corners by 1 % of half the spacing more.
    expect(gap).toBeLessThan(spacing + 2 * 0.05 + 0.03 + 0.01 * spacing);
  });
});

/** One piece in the lower-left corner of a sheet as high as it, the next one as far left as it may come beside it, on the first's level. */
function contactGapMm(
  make: (random: Random) => ReturnType<typeof rect>,
  random: Random,
  spacing: number,
): number {
  const parts = [make(random), make(random)].map((shape) => partOf(shape, { turns: [0] }));
  const job = jobOf({ spacing, sheets: [sheetOf(1200, 400)], parts });
  const task = packingTask(job, 0);
  const setup = setupOf(task, 'circles', new WorkBudget(1e9));
  const [first = 0, second = 0] = setup.formsOfBody.map(([form]) => form ?? 0);
  // Above the first piece there is no room: a second one at contact in x lies within its reach in y.
  const maxY = Math.max(setup.forms[first]?.height ?? 0, setup.forms[second]?.height ?? 0);
  const low = { ...setup, rooms: setup.rooms.map((room) => ({ ...room, maxY })) };
  const ground = { stock: 0, fixed: [{ form: first, x: 0, y: 0 }] };
  const look = { fromX: 0, toX: Number.POSITIVE_INFINITY, isCoarse: false };
  const spot = spotFinder(low, new WorkBudget(1e9))(ground, second, look);
  if (spot === null) expect.fail('there is room on the right');
  const [one, other] = task.bodies.map(({ orientations: [lie] }) => lie?.placements[0]) as [
    Placement,
    Placement,
  ];
  return libraryGapMm(job, one, { ...other, x: other.x + spot.x, y: other.y + spot.y });
}
