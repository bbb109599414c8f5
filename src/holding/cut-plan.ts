/**
 * The cutting order of one sheet, by what the order does to the vacuum.
 *
 * Each piece is first reckoned as if it were cut first: those that do not stay even then are weak,
 * the others strong. With the order that follows, strong pieces that the fallen vacuum no longer
 * holds become early ones and the order is made anew, until no more do; the early ones only grow in
 * number, so this ends.
 * Cost: a few reckonings a piece, each of two operating points, and the ordering.
 */
import { boxOf } from '../geometry/box.ts';
import type { Body } from './body.ts';
import { cuttingOrder, type OrderedPiece, type Standing } from './cutting-order.ts';
import { type CutMoment, cutMoments, ownKerfMm } from './kerf-timeline.ts';
import type { LaidPiece } from './laid-pieces.ts';
import { type Reckoned, reckon, type Setting } from './stand.ts';

export interface CutPlan {
  readonly moments: readonly CutMoment[];
  /** How each early piece, by its index in the list, would stand at the place that it would have else. */
  readonly early: ReadonlyMap<number, Reckoned>;
}

/** `bodies` go with `laid`, one each. */
export function planCuts(
  setting: Setting,
  laid: readonly LaidPiece[],
  bodies: readonly Body[],
): CutPlan {
  const alone = laid.map((each, i) => reckon(setting, bodies[i]!, ownKerfMm(each)));
  const early = new Map<number, Reckoned>();
  const standingOf = (i: number): Standing => {
    if (alone[i]!.verdict !== 'stays') return 'weak';
    return early.has(i) ? 'early' : 'strong';
  };
  for (;;) {
    const ordered = laid.map((each, i) =>
      orderedPiece(each, standingOf(i), alone[i]!.nominal.margins.least),
    );
    const moments = cutMoments(laid, cuttingOrder(ordered));
    const failing = moments.flatMap(({ step, laid: i, openKerfMm }) => {
      if (step.kind !== 'outline' || standingOf(i) !== 'strong') return [];
      const reckoned = reckon(setting, bodies[i]!, openKerfMm);
      return reckoned.verdict === 'stays' ? [] : [[i, reckoned] as const];
    });
    if (failing.length === 0) return { moments, early };
    for (const [i, reckoned] of failing) early.set(i, reckoned);
  }
}

function orderedPiece(each: LaidPiece, standing: Standing, margin: number): OrderedPiece {
  const { minX, minY, maxX, maxY } = boxOf(each.region.outer);
  return {
    piece: each.piece,
    holes: each.part.holes.length,
    cutOuts: each.part.shape.inner.length,
    host: each.host,
    standing,
    margin,
    centre: { x: minX + maxX, y: minY + maxY },
  };
}
