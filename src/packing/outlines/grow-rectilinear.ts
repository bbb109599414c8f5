import type { Point } from '../../geometry/point.ts';
import type { Ring } from '../../geometry/shape.ts';
import { firstCrossing } from '../../geometry/simple.ts';

/**
 * A ring of level and upright sides, each side moved out of the material: left and lower sides by `below`, right and upper ones by `above`.
 *
 * Idea: with the material to the left of its direction, a side's direction says which way is out, and a corner takes its x from the
 * upright side and its y from the level one. So it is exact on the grid, also when an odd spacing cannot be halved: two such rings
 * that touch are exactly `below + above` apart.
 * Works for an outer ring (counter-clockwise) and for a hole (clockwise), which shrinks.
 * Cost: linear, and quadratic for the last check; meant for notched rectangles.
 * Degenerate cases: null where a side is slanted, and where a notch or hole is too narrow, so that a side would turn round or cross another.
 */
export function growRectilinear(ring: Ring, below: number, above: number): Ring | null {
  const corners = withoutStraightCorners(ring);
  if (corners === null) return null;
  const grown: Point[] = corners.map((corner, i) => {
    const before = corners[(i + corners.length - 1) % corners.length] as Point;
    const after = corners[(i + 1) % corners.length] as Point;
    const [level, upright] =
      before.y === corner.y
        ? [corner.x - before.x, after.y - corner.y]
        : [after.x - corner.x, corner.y - before.y];
    return {
      x: corner.x + (upright > 0 ? above : -below),
      y: corner.y + (level > 0 ? -below : above),
    };
  });
  return keepsDirections(corners, grown) && firstCrossing(grown) === null ? grown : null;
}

/** The corners where a level side meets an upright one; null where any side is slanted. */
function withoutStraightCorners(ring: Ring): Ring | null {
  const corners: Point[] = [];
  for (let i = 0; i < ring.length; i++) {
    const before = ring[(i + ring.length - 1) % ring.length] as Point;
    const corner = ring[i] as Point;
    const after = ring[(i + 1) % ring.length] as Point;
    if (corner.x !== after.x && corner.y !== after.y) return null;
    const straight =
      (before.x === corner.x && corner.x === after.x) ||
      (before.y === corner.y && corner.y === after.y);
    if (!straight) corners.push(corner);
  }
  return corners;
}

function keepsDirections(before: Ring, after: Ring): boolean {
  return before.every((from, i) => {
    const to = before[(i + 1) % before.length] as Point;
    const newFrom = after[i] as Point;
    const newTo = after[(i + 1) % after.length] as Point;
    return (
      Math.sign(to.x - from.x) === Math.sign(newTo.x - newFrom.x) &&
      Math.sign(to.y - from.y) === Math.sign(newTo.y - newFrom.y)
    );
  });
}
