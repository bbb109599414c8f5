import { costPlan } from '../../src/costing/cost-plan.ts';
import { boxOfShape, placeShape } from '../../src/geometry/pose.ts';
import { holdJob } from '../../src/holding/hold.ts';
import type { RouterJob } from '../../src/model/job.ts';
import type { Placement } from '../../src/model/layout.ts';
import type { Plan } from '../../src/model/plan.ts';
import { fromMm } from '../../src/model/units.ts';
import { verifyLayout } from '../../src/verify/verify.ts';
import { layoutOf } from './jobs.ts';

/** A piece of the part of this name, the lower left corner of its box at a place in millimetres, turned and mirrored. */
export type LaidByHand = readonly [
  name: string,
  x: number,
  y: number,
  turn?: number,
  mirrored?: boolean,
];

/** The plan of a router's job whose only material is laid out on one sheet by hand; all else is reckoned by the product. */
export function laidPlan(job: RouterJob, pieces: readonly LaidByHand[]): Plan {
  const counts = new Map<string, number>();
  const placements = pieces.map(([name, x, y, turn = 0, mirrored = false]): Placement => {
    const nth = counts.get(name) ?? 0;
    counts.set(name, nth + 1);
    const piece = job.pieces.filter(({ part }) => job.parts[part]!.name === name)[nth]!;
    const pose = { x: 0, y: 0, turn, mirrored };
    const { minX, minY } = boxOfShape(placeShape(job.parts[piece.part]!.shape, pose));
    return { ...pose, piece: piece.index, x: fromMm(x) - minX, y: fromMm(y) - minY };
  });
  const layout = layoutOf([{ stock: 0, placements }]);
  const fault = verifyLayout(job, layout).faults[0];
  if (fault !== undefined) throw new Error(fault.message);
  const held = holdJob(job, [layout]);
  return {
    job,
    options: { effort: 'quick', seed: 1, seconds: null },
    stopped: null,
    layouts: [layout],
    ...held,
    cutWarnings: [],
    costs: costPlan(job, [layout], held.holding),
  };
}
