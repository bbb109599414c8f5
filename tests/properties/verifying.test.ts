import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Job } from '../../src/model/job.ts';
import type { Placement } from '../../src/model/layout.ts';
import { fromMm } from '../../src/model/units.ts';
import { verifyLayout } from '../../src/verify/verify.ts';
import { at, jobOf, layoutOf, type PartInput, sheetOf } from '../helpers/jobs.ts';
import { distanceBetween } from '../helpers/second-check.ts';
import { mirrorScene, type Scene, turnScene } from '../helpers/symmetry.ts';
import { placedOutline, secondComplaints } from './placed-sheets.ts';
import { anyPart, curvedPart, lengths, straightPart } from './random-jobs.ts';

const SEED = 20_011;

/** Two or three pieces strewn over a sheet so that about as many layouts are legal as are not. */
const strewn: fc.Arbitrary<Scene> = fc
  .record({
    spacing: lengths(0, 20),
    keepOut: fc.tuple(lengths(0, 600), lengths(0, 400), lengths(1, 100), lengths(1, 100)),
    parts: fc.array(anyPart, { minLength: 2, maxLength: 3 }),
    spots: fc.array(fc.tuple(lengths(100, 500), lengths(100, 350), fc.nat(7), fc.boolean()), {
      minLength: 3,
      maxLength: 3,
    }),
  })
  .map(({ spacing, keepOut, parts, spots }) => {
    const job = jobOf({
      spacing,
      sheets: [sheetOf(700, 500, { trim: 5, keepOuts: [keepOut] })],
      parts: parts.map((part) => ({
        ...part,
        count: 1,
        grain: 'any' as const,
        face: 'either' as const,
      })),
    });
    const placements = job.parts.map(({ index, turns }) => {
      const [x, y, turn, mirrored] = spots[index]!;
      return {
        piece: index,
        x: fromMm(x),
        y: fromMm(y),
        turn: turns[turn % turns.length]!,
        mirrored,
      };
    });
    return { job, layout: layoutOf([{ stock: 0, placements }]) };
  });

describe('verifying', () => {
  it('agrees with the second check', () => {
    let legal = 0;
    const agrees = fc.property(strewn, ({ job, layout }) => {
      const { valid, faults } = verifyLayout(job, layout);
      if (valid) legal++;
      const complaints = secondComplaints(job, layout);
      expect(complaints.length === 0, `${complaints} / ${JSON.stringify(faults)}`).toBe(valid);
    });
    fc.assert(agrees, { seed: SEED, numRuns: 1500 });
    // Without cases of both kinds the agreement would mean nothing.
    expect(legal).toBeGreaterThan(200);
    expect(legal).toBeLessThan(1300);
  });

  // Straight sides are decided exactly; the outlines of the second check stray from arcs by 0.01 mm each.
  it.each([
    ['straight sides', straightPart, 1e-9],
    ['arcs', curvedPart, 0.0201],
  ])('draws the line between %s where the second check does', (_, part, slackMm) => {
    let found = 0;
    const job = (parts: readonly PartInput[], spacing: number) =>
      jobOf({ spacing, sheets: [sheetOf(900, 900)], parts: parts.map(freely) });
    const agrees = fc.property(
      fc.tuple(part, part),
      fc.oneof(fc.constant(0), lengths(0, 20)),
      fc.tuple(lengths(0, 150), fc.nat(7), fc.nat(7)),
      (parts, spacing, [y, turn, otherTurn]) => {
        const flip = findFlip(job(parts, spacing), y, [turn, otherTurn]);
        if (flip === null) return;
        found++;
        expect(flip.legalMm).toBeGreaterThanOrEqual(spacing - slackMm);
        expect(flip.faultyMm).toBeLessThan(spacing + slackMm);
      },
    );
    fc.assert(agrees, { seed: SEED, numRuns: 200 });
    expect(found).toBeGreaterThan(60);
  });

  it('says the same of a layout seen from another side', () => {
    const same = fc.property(strewn, ({ job, layout }) => {
      // Only quarter turns are exact, so only they stay exact when the whole is turned.
      const placements = layout.sheets[0]!.placements.map((p) => ({
        ...p,
        turn: p.turn - (p.turn % 90),
      }));
      const scene = { job, layout: layoutOf([{ stock: 0, placements }]) };
      const codes = codesOf(scene);
      expect(codesOf(turnScene(scene))).toEqual(codes);
      expect(codesOf(mirrorScene(scene))).toEqual(codes);
    });
    fc.assert(same, { seed: SEED, numRuns: 500 });
  });
});

/** One piece of the part, which may lie in any way. */
function freely(part: PartInput): PartInput {
  return { ...part, count: 1, grain: 'any', face: 'either' };
}

interface Flip {
  /** Distances by the second check just before and just after a layout becomes faulty. */
  readonly legalMm: number;
  readonly faultyMm: number;
}

/** Moves the second piece left onto the first by the smallest step that makes a legal layout faulty; null where it never is. */
function findFlip(job: Job, y: number, turnIndices: readonly [number, number]): Flip | null {
  const [turn, otherTurn] = job.parts.map(({ turns }, i) => turns[turnIndices[i]! % turns.length]!);
  const first: Placement = { ...at(0, 300, 300), turn: turn! };
  const second = (x: number): Placement => ({ ...at(1, 0, 300 + y), x, turn: otherTurn! });
  const isLegal = (x: number) =>
    verifyLayout(job, layoutOf([{ stock: 0, placements: [first, second(x)] }])).faults.every(
      ({ code }) => code === 'outside',
    );
  const distance = (x: number) =>
    distanceBetween(placedOutline(job, first), placedOutline(job, second(x)));
  let [faulty, legal] = [first.x, fromMm(1000)];
  if (isLegal(faulty)) return null;
  while (legal - faulty > 1) {
    const middle = Math.floor((faulty + legal) / 2);
    if (isLegal(middle)) legal = middle;
    else faulty = middle;
  }
  return { legalMm: distance(legal), faultyMm: distance(faulty) };
}

function codesOf({ job, layout }: Scene): string[] {
  return verifyLayout(job, layout).faults.map(
    ({ code, piece, other }) => `${code} ${piece} ${other}`,
  );
}
