import { closerThan } from '../geometry/distance.ts';
import { CHECKING_CHORD_ERROR, flattenShape } from '../geometry/flatten.ts';
import type { Shape } from '../geometry/shape.ts';
import type { LaidPiece } from './laid-piece.ts';

/** A finer ring would hardly show more than the rounding of its corners to the grid. */
const FINEST_CHORD_ERROR = CHECKING_CHORD_ERROR / 16;

/**
 * Whether two shapes overlap or lie closer to one another than `distance`.
 *
 * Straight-sided shapes are decided exactly. Arcs are decided between two rings: where the rings never smaller than the
 * shapes keep the distance, so do the shapes; where the rings never larger do not, neither do the shapes. Between the two
 * the rings are made finer. What stays undecided at the end keeps the distance within less than a micrometre and counts
 * as touching, which is legal. Either answer may be wrong by `ROUNDING_SHORTFALL` a shape, where an arc has no corner on the grid.
 */
export function shapesCloserThan(a: Shape, b: Shape, distance: number): boolean {
  for (let chord = CHECKING_CHORD_ERROR; chord >= FINEST_CHORD_ERROR; chord /= 4) {
    const outside = [flattenShape(a, 'outside', chord), flattenShape(b, 'outside', chord)] as const;
    if (!closerThan(...outside, distance)) return false;
    const inside = [flattenShape(a, 'inside', chord), flattenShape(b, 'inside', chord)] as const;
    if (closerThan(...inside, distance)) return true;
  }
  return false;
}

/** What of a laid piece others must keep clear of: its cut-outs count as material unless its part opens them to smaller pieces. */
export function closedShape({ part, shape }: LaidPiece): Shape {
  return part.nestInside ? shape : { outer: shape.outer, inner: [] };
}
