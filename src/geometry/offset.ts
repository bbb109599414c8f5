/**
 * Growing and shrinking of polygons with holes, by the clipping library.
 *
 * Every edge moves outwards by `by` (inwards where negative) and corners are joined by an arc or to a point. The arcs
 * are chords whose number the library rounds, so an arc falls short by up to 2.25 times the tolerance asked for: the
 * border is moved by that much more, and so moves by at least |by| everywhere. Source of the method: Chen & McMains
 * 2005, "Polygon offsetting by computing winding numbers", ASME DETC2005-85513.
 *
 * Growing is thus never smaller, and shrinking never larger, than the true offset, but for `OFFSET_SHORTFALL`; with
 * joins 'round' the border may move up to `ROUND_EXCESS` further than asked. With joins 'mitre' a corner sharper than
 * 60 degrees is cut off square at the distance `by`, and an outline parallel to the axes is exact. Degenerate: a hole
 * that closes disappears, a body that vanishes gives no region, a body that is pinched off gives several.
 */
import ClipperLib from 'clipper-lib';
import { toPaths, toRegions } from './clipping.ts';
import type { Region } from './shape.ts';

/** How far the border may stay behind the true offset because corners are rounded to the grid, in base lengths. */
export const OFFSET_SHORTFALL = 2;

/** How far the border may run ahead of the true offset with joins 'round', in base lengths. */
export const ROUND_EXCESS = 186;

/** `by` in base lengths; joins 'mitre' keep sharp corners up to twice the distance, 'round' are arcs. */
export function offsetRegion(region: Region, by: number, join: 'mitre' | 'round'): Region[] {
  if (by === 0) return [region];
  const tolerance = Math.min(ARC_TOLERANCE, Math.abs(by) / 8);
  const offset = new ClipperLib.ClipperOffset(MITRE_LIMIT, tolerance);
  const { jtMiter, jtRound } = ClipperLib.JoinType;
  offset.AddPaths(
    toPaths([region]),
    join === 'mitre' ? jtMiter : jtRound,
    ClipperLib.EndType.etClosedPolygon,
  );
  const extra = join === 'round' ? Math.ceil(tolerance * TRUE_SHORTFALL) : 0;
  const tree = new ClipperLib.PolyTree();
  offset.Execute(tree, by + Math.sign(by) * extra);
  return toRegions(tree);
}

/** 0.01 mm. */
const ARC_TOLERANCE = 80;

/** The library's shortfall in tolerances, 2.25 rounded up for the slightly larger radius. */
const TRUE_SHORTFALL = 2.3;

const MITRE_LIMIT = 2;
