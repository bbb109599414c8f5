/**
 * Union, difference and intersection of polygons with holes, by the clipping library.
 *
 * Corners that arise where edges cross are rounded to the grid, so an edge may shift by one unit; where every edge is
 * parallel to an axis the result is exact. Bodies that touch in a corner stay apart; rings of a result may touch.
 * Source of the library's method: Vatti 1992, "A generic solution to polygon clipping", Communications of the ACM
 * 35(7).
 */
import { clip } from './clipping.ts';
import type { Region } from './shape.ts';

/** What lies in any of the regions. */
export function unite(regions: readonly Region[]): Region[] {
  return clip('union', regions, []);
}

/** What lies in `from` and not in `cut`. */
export function subtract(from: readonly Region[], cut: readonly Region[]): Region[] {
  return clip('difference', from, cut);
}

/** What lies in both. */
export function intersect(a: readonly Region[], b: readonly Region[]): Region[] {
  return clip('intersection', a, b);
}
