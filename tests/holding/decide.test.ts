import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { costPlan } from '../../src/costing/cost-plan.ts';
import type { Ring } from '../../src/geometry/shape.ts';
import { holdSheets } from '../../src/holding/hold.ts';
import { adviceOf } from '../../src/model/holding.ts';
import type { RouterJob } from '../../src/model/job.ts';
import type { Layout } from '../../src/model/layout.ts';
import type { Router } from '../../src/model/machine.ts';
import { fromMm } from '../../src/model/units.ts';
import { at, layoutOf, partOf } from '../helpers/jobs.ts';
import { rect } from '../helpers/shapes.ts';
import { mirrorScene, turnScene } from '../helpers/symmetry.ts';
import { shopJob } from './jobs.ts';

const CUTTER = 6.35;
/** Passes of 6 mm, so that pieces of less than a square foot stay, which no tab may hang on. */
const GENTLE: Partial<Router> = { passDepth: fromMm(6) };

/** In millimetres: two pieces one above the other, and one at either end of them. */
interface Sizes {
  readonly middle: readonly [number, number];
  readonly gap: number;
  readonly ends: readonly [readonly [number, number], readonly [number, number]];
}

/** A strip of 560 by 27.3 mm is left between four pieces that stay by themselves. */
const FOUR: Sizes = {
  middle: [560, 150],
  gap: 40,
  ends: [
    [180, 340],
    [180, 340],
  ],
};

function strip(sizes: Partial<Sizes> = {}, machine = GENTLE): Scene {
  const { middle, gap, ends } = { ...FOUR, ...sizes };
  const job = shopJob(
    [partOf(rect(...middle), { count: 2 }), ...ends.map((end) => partOf(rect(...end)))],
    { machine },
  );
  const x = 100 + ends[0][0] + CUTTER;
  const placements = [
    at(0, x, 100),
    at(1, x, 100 + middle[1] + gap),
    at(2, 100, 100),
    at(3, x + middle[0] + CUTTER, 100),
  ];
  return { job, layout: layoutOf([{ stock: 0, placements }]) };
}

interface Scene {
  readonly job: RouterJob;
  readonly layout: Layout;
}

describe('a strip of waste on a skin', () => {
  const scene = strip();
  const held = holdSheets(scene.job, [scene.layout])[0]!;
  const sliver = held.loose.find(({ kind }) => kind === 'sliver')!;
  const pieces = held.loose.filter(({ kind }) => kind === 'piece');

  it('hangs on the skin of every cut beside it, as the plan says', () => {
    expect(sliver).toMatchObject({ action: 'skin', skinFor: 'itself', skinCuts: [1, 2, 3, 4] });
    for (const piece of pieces) {
      expect(piece).toMatchObject({ verdict: 'stays', action: 'skin', skinFor: 'waste' });
      expect(piece.skin).toBe(sliver.skin);
      expect(piece.skinCuts).toEqual([piece.cutOrder]);
      expect(piece.why).toContain('waste beside it hangs on this cut');
    }
    expect(sliver.why).toContain('the cuts beside it (1, 2, 3, 4)');
  });

  it('has these cuts gone round once more after all others, and none of its own', () => {
    expect(held.steps.filter(({ kind }) => kind === 'skin')).toEqual(
      pieces.map(({ piece, cutOrder }) => ({ kind: 'skin', thing: 'piece', piece, cutOrder })),
    );
  });

  it('costs the machine the way round those pieces, and five seconds for each', () => {
    // 2 x 1.42 m and 2 x 1.04 m at 9 m/min.
    const seconds = [1420, 1420, 1040, 1040].map((mm) => Math.round((mm * 60) / 9000 + 5));
    const byPiece = pieces.toSorted((a, b) => a.piece! - b.piece!);
    expect(byPiece.map(({ remedyS }) => remedyS)).toEqual(seconds);
    expect(sliver.remedyS).toBe(0);
    const plain = costPlan(scene.job, [scene.layout], []);
    const costs = costPlan(scene.job, [scene.layout], [held]);
    const more = seconds.reduce((a, b) => a + b, 0);
    expect(costs.cutTimeS! - plain.cutTimeS!).toBeCloseTo(more, 9);
  });

  it('is the same seen from below and turned', () => {
    const outcome = ({ job, layout }: Scene) =>
      holdSheets(job, [layout])[0]!.loose.map((each) => [
        each.kind,
        each.piece,
        each.action,
        each.skinFor,
        each.marginAfter,
        each.skinCuts,
      ]);
    const plain = outcome(scene);
    for (const other of [mirrorScene(scene), turnScene(scene)])
      expect(outcome(other)).toEqual(plain);
  });

  it('is given up where a piece beside it hangs on tabs', () => {
    const { job, layout } = strip({ ends: [FOUR.ends[0], [20, 340]] });
    const { loose } = holdSheets(job, [layout])[0]!;
    expect(loose.find(({ piece }) => piece === 3)!.action).toBe('tabs');
    expect(loose.find(({ kind }) => kind === 'sliver')!.action).not.toBe('skin');
    expect(loose.filter(({ skinFor }) => skinFor === 'waste')).toEqual([]);
  });

  it('is given up where the stock stands up beside it, as a skin would be cut through there', () => {
    const { job, layout } = strip();
    const edge = { side: 'left', gap: fromMm(0.3), depth: fromMm(110) } as const;
    const materials = job.materials.map((material) => ({
      ...material,
      sheets: material.sheets.map((sheet) => ({ ...sheet, lifted: [edge] })),
    }));
    const { loose } = holdSheets({ ...job, materials }, [layout])[0]!;
    expect(loose.find(({ kind }) => kind === 'sliver')!.action).not.toBe('skin');
    expect(loose.find(({ piece }) => piece === 2)!.skin).toBe(0);
  });

  it('hangs on all cuts beside it whatever the sizes, and brings a skin on no other', () => {
    let strips = 0;
    const length = (min: number, max: number) => fc.integer({ min, max });
    const sizes = fc.record({
      middle: fc.tuple(length(200, 700), length(60, 250)),
      gap: length(20, 60),
      ends: fc.tuple(
        fc.tuple(length(30, 250), length(200, 500)),
        fc.tuple(length(30, 250), length(200, 500)),
      ),
    });
    fc.assert(
      fc.property(sizes, (drawn) => {
        const { job, layout } = strip(drawn);
        const { loose } = holdSheets(job, [layout])[0]!;
        const slivers = loose.filter(({ kind, skin }) => kind === 'sliver' && skin > 0);
        strips += slivers.length;
        const hung = new Set(slivers.flatMap(({ outline }) => piecesAt({ job, layout }, outline!)));
        for (const each of loose.filter(({ kind }) => kind === 'piece')) {
          const isHung = hung.has(each.piece!);
          if (isHung) expect(each.skin > 0 || adviceOf(each) === 'leave').toBe(true);
          if (!isHung) expect(each.skinFor).not.toBe('waste');
          if (each.skinFor === 'waste') expect(each.verdictAfter).toBe('stays');
        }
      }),
      { seed: 55, numRuns: 60 },
    );
    expect(strips).toBeGreaterThan(10);
  });
});

/** The pieces whose outline has a corner of the ring, or the ring a corner of theirs, one kerf away. */
function piecesAt({ job, layout }: Scene, ring: Ring): number[] {
  const reach = fromMm(CUTTER + 0.5);
  return layout.sheets[0]!.placements.flatMap(({ piece, x, y }) => {
    const { width, height } = job.parts[job.pieces[piece]!.part]!;
    const away = (at: number, low: number, span: number) => Math.max(low - at, 0, at - low - span);
    const isNear = ring.some((p) => Math.hypot(away(p.x, x, width), away(p.y, y, height)) <= reach);
    return isNear ? [piece] : [];
  });
}
