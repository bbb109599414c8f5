import { describe, expect, it } from 'vitest';
import { holdSheets } from '../../src/holding/hold.ts';
import type { Holding } from '../../src/model/holding.ts';
import type { RouterJob } from '../../src/model/job.ts';
import { fromMm } from '../../src/model/units.ts';
import { partOf } from '../helpers/jobs.ts';
import { disc, rect } from '../helpers/shapes.ts';
import { FULL_DEPTH, rows, type Shop, shopJob, singleRectangle } from './jobs.ts';

// Facts of the trade, common practice without a source.

describe('the cautious defaults, for 18 mm plywood cut free in one full-depth pass', () => {
  it.each([
    [300, 'stays'],
    [200, 'marginal'],
    [150, 'moves'],
  ] as const)('say that a square of %d mm %s', (side, verdict) => {
    const [job, layouts] = singleRectangle(side, side);
    expect(holdSheets(job, layouts)[0]!.loose.map((loose) => loose.verdict)).toEqual([verdict]);
  });
});

describe('a kitchen carcass in 3/4 inch plywood', () => {
  /** 19.05 mm stock, a quarter-inch cutter: two passes, or one at half the feed with a compression cutter. */
  const shops: readonly (readonly [string, Shop])[] = [
    ['in two passes', { machine: { passDepth: fromMm(10), feedMmPerMin: 9000 } }],
    [
      'in one pass of a compression cutter at half the feed',
      {
        machine: { passDepth: fromMm(20), feedMmPerMin: 4500 },
        cutter: { spiral: 'compression', helixDeg: 30, upcutLength: fromMm(5) },
      },
    ],
  ];

  it.each(shops)(
    '%s needs nothing for at least 80 of 100 pieces, and its small ones are flagged',
    (_, shop) => {
      const job = carcass(shop);
      const pieces = piecesOf(job);
      expect(pieces).toHaveLength(job.pieces.length);
      const calm = pieces.filter(({ action }) => action === 'none');
      expect(calm.length / pieces.length).toBeGreaterThanOrEqual(0.8);
      for (const small of pieces.filter((loose) => SMALL.includes(nameOf(job, loose))))
        expect([nameOf(job, small), small.verdict, small.action]).not.toContain('none');
      for (const large of pieces.filter((loose) => LARGE.includes(nameOf(job, loose))))
        expect([nameOf(job, large), large.verdict]).toEqual([nameOf(job, large), 'stays']);
    },
  );

  it('has few pieces that a remedy does not make stay', () => {
    const job = carcass(shops[0]![1]);
    const pieces = piecesOf(job);
    expect(pieces.filter(({ verdictAfter }) => verdictAfter === 'moves')).toEqual([]);
    expect(
      pieces.filter(({ verdictAfter }) => verdictAfter === 'marginal').length,
    ).toBeLessThanOrEqual(2);
  });
});

const LARGE = ['Side', 'Bottom', 'Shelf', 'Door', 'Drawer bottom'];
const SMALL = ['Corner block', 'Glue block', 'Knob'];

function carcass(shop: Shop): RouterJob {
  const parts = [
    partOf(rect(720, 560), { name: 'Side', count: 8 }),
    partOf(rect(764, 540), { name: 'Bottom', count: 4 }),
    partOf(rect(762, 500), { name: 'Shelf', count: 6 }),
    partOf(rect(396, 716), { name: 'Door', count: 8 }),
    partOf(rect(700, 460), { name: 'Drawer bottom', count: 4 }),
    partOf(rect(764, 110), { name: 'Rail', count: 8 }),
    partOf(rect(500, 150), { name: 'Drawer side', count: 8 }),
    partOf(rect(700, 150), { name: 'Drawer end', count: 8 }),
    partOf(rect(60, 60), { name: 'Corner block', count: 4 }),
    partOf(rect(90, 40), { name: 'Glue block', count: 3 }),
    partOf(disc(70), { name: 'Knob', count: 1 }),
  ];
  return shopJob(parts, {
    ...shop,
    material: { thickness: fromMm(19.05) },
    machine: { ...FULL_DEPTH, ...shop.machine },
  });
}

function piecesOf(job: RouterJob): readonly Holding[] {
  return holdSheets(job, [rows(job)])
    .flatMap((sheet) => sheet.loose)
    .filter(({ kind }) => kind === 'piece');
}

function nameOf(job: RouterJob, { piece }: Holding): string {
  return job.parts[job.pieces[piece!]!.part]!.name;
}
