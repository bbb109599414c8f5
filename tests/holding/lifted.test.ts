import { describe, expect, it } from 'vitest';
import { holdSheets } from '../../src/holding/hold.ts';
import { bareWidthMm, type Gap, gapFlowM3h } from '../../src/holding/lifted.ts';
import { tableWarnings } from '../../src/holding/table-warnings.ts';
import type { Holding } from '../../src/model/holding.ts';
import type { RouterJob } from '../../src/model/job.ts';
import type { Seal } from '../../src/model/machine.ts';
import { SIDES } from '../../src/model/part.ts';
import type { LiftedEdge } from '../../src/model/stock.ts';
import { fromMm } from '../../src/model/units.ts';
import { at, layoutOf, partOf, sheetOf } from '../helpers/jobs.ts';
import { rect } from '../helpers/shapes.ts';
import { shopJob } from './jobs.ts';

const SEA_LEVEL_PA = 101_325;
const BOARD_PER_M = 0.018 / 3e-13;
/** 200 x 200 x 18 mm of birch plywood. */
const WEIGHT_N = 4.8;
const CORD: Seal = { kind: 'gasket', around: 'pieces', inset: 0, grooveShare: 0, leakMm2: 50 };

describe('the air under an edge that stands up', () => {
  it.each([
    [0.05, 30],
    [0.1, 150],
    [0.3, 150],
    [1, 300],
  ])(
    'of %d mm in to %d mm agrees with finite differences over a spoilboard',
    (heightMm, depthMm) => {
      const width = bareWidthMm({ lengthMm: 1, heightMm, depthMm }, BOARD_PER_M);
      const plain = widthByDifferences({ heightMm, depthMm });
      expect(Math.abs(width / plain - 1)).toBeLessThan(0.002);
      expect(width).toBeLessThanOrEqual(depthMm);
    },
  );

  it('is never more than the slot lets through, nor than a bare strip', () => {
    const gap: Gap = { lengthMm: 1000, heightMm: 3, depthMm: 20 };
    const flow = (boardPerM: number) => gapFlowM3h([gap], boardPerM, 40, SEA_LEVEL_PA);
    expect(flow(0)).toBeLessThan(2200);
    expect(flow(BOARD_PER_M)).toBeLessThan(flow(0) / 50);
  });

  it('grows with the gap and with the vacuum', () => {
    for (const boardPerM of [0, BOARD_PER_M]) {
      const flows = [0.02, 0.1, 0.5, 2].flatMap((heightMm) =>
        [2, 20, 60].map((kpa) =>
          gapFlowM3h([{ lengthMm: 1000, heightMm, depthMm: 100 }], boardPerM, kpa, SEA_LEVEL_PA),
        ),
      );
      for (const [i, flow] of flows.entries()) {
        if (i % 3 > 0) expect(flow).toBeGreaterThan(flows[i - 1]!);
        if (i >= 3) expect(flow).toBeGreaterThan(flows[i - 3]!);
      }
    }
  });
});

describe('a sheet with an edge that stands up', () => {
  const edge: LiftedEdge = { side: 'right', gap: fromMm(0.5), depth: fromMm(300) };

  it.each(SIDES)('does not hold the strip along its %s edge', (side) => {
    const [near, far] = held([{ ...edge, side }]);
    const isNear = side === 'left' || side === 'bottom';
    const piece = isNear ? near! : far!;
    expect(piece.holdingForceN).toBe(WEIGHT_N);
    expect(piece.why).toContain('press the edge down');
    expect((isNear ? far! : near!).holdingForceN).toBeGreaterThan(10 * WEIGHT_N);
  });

  it('gives no skin to what reaches into it: that would be cut through, or left too thick', () => {
    const small = [partOf(rect(120, 120), { count: 2 })];
    const byEdge = (lifted: readonly LiftedEdge[]): Holding =>
      heldOf(jobWith(lifted, null, small)).find(({ piece }) => piece === 1)!;
    expect(byEdge([]).action).toBe('skin');
    expect(byEdge([edge]).action).not.toBe('skin');
    expect(byEdge([{ ...edge, depth: fromMm(150) }]).skin).toBe(0);
    expect(byEdge([{ ...edge, depth: fromMm(100) }]).action).toBe('skin');
  });

  it('is tied by a last pass only as far as that is thicker than the gap', () => {
    const marginWith = (gapMm: number): number => {
      const job = jobWith([{ ...edge, gap: fromMm(gapMm) }], CORD);
      const machine = { ...job.machine, lastPass: fromMm(1) };
      return heldOf({ ...job, machine }).find(({ piece }) => piece === 1)!.margin;
    };
    expect(marginWith(0.99)).toBeLessThan(marginWith(0.05));
    expect(marginWith(1.5)).toBeLessThanOrEqual(marginWith(0.99));
  });

  it('has less vacuum elsewhere, on a spoilboard and inside cords', () => {
    for (const seal of [null, CORD]) {
      const [flat] = held([], seal);
      const [lifted] = held([edge], seal);
      expect(lifted!.vacuumKpa).toBeLessThan(flat!.vacuumKpa);
    }
  });

  it('is warned of', () => {
    const job = jobWith([edge], null);
    const layout = layoutOf([{ stock: 0, placements: [at(0, 40, 40)] }]);
    expect(tableWarnings(job, [layout])).toEqual([
      'Sheets of 2440 × 1220 mm: nothing is held where an edge stands up (right); press it down or screw it down in the waste before the run.',
    ]);
    expect(tableWarnings(jobWith([], null), [layout])).toEqual([]);
  });
});

/** A piece in the lower-left corner of the sheet and one in the upper-right. */
function held(lifted: readonly LiftedEdge[], seal: Seal | null = null): readonly Holding[] {
  return heldOf(jobWith(lifted, seal));
}

function heldOf(job: RouterJob): readonly Holding[] {
  const placements = [at(0, 20, 20), at(1, 2220, 1000)];
  const { loose } = holdSheets(job, [layoutOf([{ stock: 0, placements }])])[0]!;
  return loose.filter(({ kind }) => kind === 'piece').toSorted((a, b) => a.piece! - b.piece!);
}

function jobWith(
  lifted: readonly LiftedEdge[],
  seal: Seal | null,
  parts = [partOf(rect(200, 200), { count: 2 })],
): RouterJob {
  return shopJob(parts, { sheet: sheetOf(2440, 1220, { lifted }), table: { seal } });
}

/** The squared pressure along the gap, from 1 at the edge to a closed end, in a thousand steps. */
function widthByDifferences({ heightMm, depthMm }: Omit<Gap, 'lengthMm'>): number {
  const steps = 1000;
  const step = depthMm / steps;
  // g^3 / 12 phi'' = phi / R, with lengths in mm.
  const sink = (12 * 1000 * step * step) / (heightMm ** 3 * BOARD_PER_M);
  // From the closed end backwards; scaled afterwards, as the equation is linear.
  let [inner, phi] = [1, 1 + sink / 2];
  let sum = 0.5 + phi;
  for (let i = 2; i <= steps; i++) {
    [inner, phi] = [phi, (2 + sink) * phi - inner];
    sum += i === steps ? phi / 2 : phi;
  }
  return (sum * step) / phi;
}
