import { describe, expect, it } from 'vitest';
import { regionArea } from '../../src/geometry/area.ts';
import { holdSheets } from '../../src/holding/hold.ts';
import { layPieces } from '../../src/holding/laid-pieces.ts';
import { skeletonOf, slugsOf } from '../../src/holding/loose-waste.ts';
import type { RouterJob } from '../../src/model/job.ts';
import type { Placement } from '../../src/model/layout.ts';
import type { Hole } from '../../src/model/part.ts';
import { fromMm, toMm2 } from '../../src/model/units.ts';
import { at, layoutOf, type PartInput, partOf, sheetOf } from '../helpers/jobs.ts';
import { cutOut, disc, frame, rect } from '../helpers/shapes.ts';
import { shopJob } from './jobs.ts';

describe('slugs', () => {
  it('are the inside of a cut-out less the kerf', () => {
    const [slug, ...others] = slugsIn([partOf(frame(400, 300, 50))], [at(0, 100, 100)]);
    expect(others).toEqual([]);
    expect(slug!.opening.kind).toBe('cut-out');
    // The kerf is 6.35 mm wide; curves may take a little more.
    expect(toMm2(regionArea(slug!.region))).toBeCloseTo((300 - 12.7) * (200 - 12.7), -2);
  });

  it('are not left by a cut-out that the cutter clears, nor by small holes', () => {
    const small = cutOut(rect(200, 200), rect(18, 18), 90, 90);
    expect(slugsIn([partOf(small)], [at(0, 100, 100)])).toEqual([]);
    expect(slugsIn(drilled(8, null), [at(0, 100, 100)])).toEqual([]);
  });

  it('are left by a through hole that is large, and not by one that stops in the stock', () => {
    const [slug] = slugsIn(drilled(60, null), [at(0, 100, 100)]);
    expect(slug!.opening.kind).toBe('hole');
    expect(toMm2(regionArea(slug!.region))).toBeCloseTo(Math.PI * (30 - 6.35) ** 2, -2);
    expect(slugsIn(drilled(60, fromMm(10)), [at(0, 100, 100)])).toEqual([]);
  });

  it('lack the pieces that are cut out of them', () => {
    const parts = [partOf(frame(400, 300, 50), { nestInside: true }), partOf(rect(100, 80))];
    const [slug] = slugsIn(parts, [at(0, 100, 100), at(1, 200, 200)]);
    const whole = (300 - 12.7) * (200 - 12.7);
    expect(toMm2(regionArea(slug!.region))).toBeCloseTo(whole - 112.7 * 92.7, -2);
    expect(slug!.region.holes).toHaveLength(1);
  });
});

describe('slivers', () => {
  it('are looked for on the sheet as it is, not in the box round it', () => {
    const boundary = [
      [0, 0],
      [600, 0],
      [600, 400],
      [300, 700],
      [0, 700],
    ] as const;
    const job = shopJob([partOf(rect(100, 100))], { sheet: { ...sheetOf(600, 700), boundary } });
    const { firm, slivers } = skeletonOf(job.materials[0]!.sheets[0]!, [], 50_800);
    expect(slivers).toEqual([]);
    expect(firm.map((region) => toMm2(regionArea(region)))).toEqual([600 * 700 - 45_000]);
  });

  it('are the islands that pieces close in, and not the frame of the sheet', () => {
    // Four pieces around a gap of 60 x 40 mm.
    const ring = gapRing(60, 40);
    const { firm, slivers } = skeletonIn(ring.parts, ring.placements);
    expect(firm).toHaveLength(1);
    expect(slivers).toHaveLength(1);
    expect(toMm2(regionArea(slivers[0]!))).toBeCloseTo((60 - 12.7) * (40 - 12.7), -2);
  });

  it('are left out where they are dust: smaller than two cutter diameters square, or under a millimetre wide', () => {
    for (const [width, height] of [
      [24, 24],
      [300, 13.4],
    ] as const) {
      const ring = gapRing(width, height);
      expect(skeletonIn(ring.parts, ring.placements).slivers).toEqual([]);
    }
  });

  it('do not arise between pieces up to two cutter diameters apart', () => {
    const parts = [partOf(rect(300, 200), { count: 4 })];
    const placements = [at(0, 50, 50), at(1, 362.7, 50), at(2, 50, 262.7), at(3, 362.7, 262.7)];
    expect(skeletonIn(parts, placements).slivers).toEqual([]);
  });

  it('count a large separate part of the sheet as skeleton', () => {
    // A strip over the whole width of an untrimmed sheet parts it in two.
    const { firm, slivers } = skeletonIn([partOf(rect(200, 1220))], [at(0, 1000, 0)]);
    expect([firm.length, slivers.length]).toEqual([2, 0]);
  });

  it('come free with the last outline beside them', () => {
    const ring = gapRing(60, 40);
    const job = jobOf(ring.parts);
    const [held] = holdSheets(job, [layoutOf([{ stock: 0, placements: ring.placements }])]);
    const sliver = held!.loose.find(({ kind }) => kind === 'sliver')!;
    const last = Math.max(...held!.loose.map(({ cutOrder }) => cutOrder));
    expect([sliver.piece, sliver.cutOrder]).toEqual([null, last]);
    expect(sliver.verdict).toBe('moves');
    expect(sliver.outline!.length).toBeGreaterThanOrEqual(4);
  });

  it.each([
    [150, false],
    [700, true],
  ])(
    'between pieces %d mm deep hang on tabs: %s, as only what is large and stays is firm',
    (deep, isTied) => {
      const ring = gapRing(200, 60, deep);
      const job = jobOf(ring.parts);
      const [held] = holdSheets(job, [layoutOf([{ stock: 0, placements: ring.placements }])]);
      const sliver = held!.loose.find(({ kind }) => kind === 'sliver')!;
      expect(sliver.tabs.length > 0).toBe(isTied);
    },
  );

  it('show with slugs and pieces in one list, by the cut that frees them', () => {
    const job = jobOf([partOf(frame(400, 300, 50)), partOf(disc(150))]);
    const placements = [at(0, 100, 100), at(1, 700, 100)];
    const [held] = holdSheets(job, [layoutOf([{ stock: 0, placements }])]);
    expect(held!.loose.map(({ kind, piece, cutOrder }) => `${kind} ${piece} ${cutOrder}`)).toEqual([
      'piece 1 1',
      'slug 0 2',
      'piece 0 3',
    ]);
  });
});

function jobOf(parts: readonly PartInput[]): RouterJob {
  return shopJob(parts, { sheet: sheetOf(2440, 1220) });
}

function slugsIn(parts: readonly PartInput[] | RouterJob, placements: readonly Placement[]) {
  const job = 'machine' in parts ? parts : jobOf(parts);
  return slugsOf(layPieces(job, { stock: 0, placements, cuts: [] }), job.machine.cutter.diameter);
}

function skeletonIn(parts: readonly PartInput[], placements: readonly Placement[]) {
  const job = jobOf(parts);
  const laid = layPieces(job, { stock: 0, placements, cuts: [] });
  return skeletonOf(job.materials[0]!.sheets[0]!, laid, job.machine.cutter.diameter);
}

/** A plate with one hole in its middle. */
function drilled(diameter: number, depth: number | null): RouterJob {
  const job = jobOf([partOf(rect(300, 200))]);
  const hole: Hole = { x: fromMm(150), y: fromMm(100), diameter: fromMm(diameter), depth };
  return { ...job, parts: job.parts.map((part) => ({ ...part, holes: [hole] })) };
}

/** Four pieces set like the sails of a windmill around a gap, one kerf apart from one another. */
function gapRing(
  width: number,
  height: number,
  deep = 150,
): { readonly parts: PartInput[]; readonly placements: Placement[] } {
  const [kerf, x, y] = [6.35, 750, 750];
  const flat = partOf(rect(width + deep - kerf, deep));
  const tall = partOf(rect(deep, height + deep - kerf));
  return {
    parts: [flat, tall, flat, tall],
    placements: [
      at(0, x - deep, y - deep),
      at(1, x + width, y - deep),
      at(2, x + kerf, y + height),
      at(3, x - deep, y + kerf),
    ],
  };
}
