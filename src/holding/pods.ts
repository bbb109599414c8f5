/**
 * The vacuum pods that fit under a piece.
 *
 * A pod has to lie whole under the piece, a cutter's width inside every edge, or the cut would go through it. Pods are
 * tried on a grid over the piece, both ways round; of the places that fit, the one farthest from another is taken first
 * and then each that is farthest from those taken.
 * Source: common practice, no source. Cost: that of the grid, twice.
 * Degenerate: a piece that is smaller than a pod gets none.
 */
import { type Box, boxesOverlap } from '../geometry/box.ts';
import { boxRegion, type Region } from '../geometry/shape.ts';
import type { Seal } from '../model/machine.ts';
import { fittingBoxes } from './fitting-boxes.ts';

type Pods = Extract<Seal, { readonly kind: 'pods' }>;

/** As the piece lies. At most `perPiece`; they never overlap. */
export function podsUnder(region: Region, pods: Pods, clear: number): Region[] {
  const { length, width, perPiece } = pods;
  const along = spreadOut(fittingBoxes(region, { length, width }, clear), perPiece);
  const across = spreadOut(fittingBoxes(region, { length: width, width: length }, clear), perPiece);
  return (across.length > along.length ? across : along).map(boxRegion);
}

/** The place farthest from another, then always the one farthest from those taken; the first of equals. */
function spreadOut(places: readonly Box[], most: number): Box[] {
  const taken: Box[] = [];
  while (taken.length < most) {
    let [best, farthest]: [Box | null, number] = [null, -1];
    for (const place of places) {
      if (taken.some((each) => boxesOverlap(each, place))) continue;
      const others = taken.length === 0 ? places : taken;
      const reach = taken.length === 0 ? Math.max : Math.min;
      const away = others.map((each) => gap2(each, place)).reduce((a, b) => reach(a, b));
      if (away > farthest) [best, farthest] = [place, away];
    }
    if (best === null) break;
    taken.push(best);
  }
  return taken;
}

/** Squared distance between two places of one size. */
function gap2(a: Box, b: Box): number {
  return (a.minX - b.minX) ** 2 + (a.minY - b.minY) ** 2;
}
