// Covers what a box has outside a polygon, and nearer to the polygon's edges than a clearance, with convex polygons.
// Idea: every edge moves inwards by the clearance, and each new corner is where two of them meet. What is left of the box round that smaller polygon is
//   taken apart by cuts from corner to corner.
// Source: the offset polygon by lines that move inwards is common practice, no source; the cover is that of convex-parts.ts.
// Where we are careful: a slanted edge moves two base lengths further, which is more than the rounding of its corners, while edges along the axes stay
//   exact; and the smaller polygon is measured against the edges once more by whole numbers.
// Cost: corners times corners; meant for polygons of some dozens of corners.
// Degenerate cases: an inward corner is covered as a square or a point; edges that vanish are left out; null where the polygon falls apart or what is
//   left of it cannot be told this way. A polygon that fills the box gives no parts.
import { ringArea } from './area.ts';
import { type Box, boxOf, growBox } from './box.ts';
import { convexParts } from './convex-parts.ts';
import { withoutStraightCorners } from './corners.ts';
import { closerThan } from './distance.ts';
import type { Point } from './point.ts';
import { type Edge, edgesOf } from './segments.ts';
import { boxRegion, type Ring } from './shape.ts';
import { firstCrossing } from './simple.ts';

/** A slanted edge moves further by this, so that whole corners are never too near to it. */
const ROUNDING = 2;

/** Any width will do for the frame that is put round the polygon. */
const RIM = 8000;

/** `ring` runs counter-clockwise and lies in the box grown by the clearance, a whole number of base lengths. */
export function partsOutside(ring: Ring, box: Box, clearance: number): Ring[] | null {
  const inner = movedIn(ring, clearance);
  if (inner === null || !keepsClear(inner, ring, clearance)) return null;
  return convexParts({ outer: boxRegion(box).outer, holes: [inner.toReversed()] });
}

/** The polygon with its edges moved inwards; null where none is left. */
function movedIn(ring: Ring, clearance: number): Ring | null {
  if (clearance === 0) return ring;
  let lines = edgesOf(withoutStraightCorners(ring)).map((edge) => lineOf(edge, clearance));
  while (lines.length > 2) {
    const corners = lines.map((line, i) => meetingOf(lines.at(i - 1) as Line, line));
    const vanished = lines.findIndex(({ edge: { from, to } }, i) => {
      const start = corners[i] as Point;
      const end = corners[(i + 1) % corners.length] as Point;
      return (end.x - start.x) * (to.x - from.x) + (end.y - start.y) * (to.y - from.y) <= 0;
    });
    if (vanished < 0) return corners;
    lines = lines.toSpliced(vanished, 1);
  }
  return null;
}

/** An edge, the unit vector to its inner side, and how far it moves that way. */
interface Line {
  readonly edge: Edge;
  readonly x: number;
  readonly y: number;
  readonly by: number;
}

function lineOf(edge: Edge, clearance: number): Line {
  const dx = edge.to.x - edge.from.x;
  const dy = edge.to.y - edge.from.y;
  const length = Math.sqrt(dx * dx + dy * dy);
  const isSlanted = dx !== 0 && dy !== 0;
  return {
    edge,
    x: (0 - dy) / length,
    y: dx / length,
    by: clearance + (isSlanted ? ROUNDING : 0),
  };
}

/** Where two moved lines meet, rounded; not finite where they run alongside. */
function meetingOf(before: Line, after: Line): Point {
  const { from: origin } = after.edge;
  const { from } = before.edge;
  // Seen from a point of the second line, so that the products stay small.
  const first = before.by + (from.x - origin.x) * before.x + (from.y - origin.y) * before.y;
  const across = before.x * after.y - before.y * after.x;
  const x = (first * after.y - after.by * before.y) / across;
  const y = (after.by * before.x - first * after.x) / across;
  return { x: Math.round(origin.x + x), y: Math.round(origin.y + y) };
}

/** Whether the ring lies in the other one and keeps the distance from it. */
function keepsClear(inner: Ring, ring: Ring, clearance: number): boolean {
  if (inner.some(({ x, y }) => !Number.isFinite(x) || !Number.isFinite(y))) return false;
  if (ringArea(inner) <= 0 || firstCrossing(inner) !== null) return false;
  const frame = { outer: boxRegion(growBox(boxOf(ring), RIM)).outer, holes: [ring.toReversed()] };
  return !closerThan({ outer: inner, holes: [] }, frame, clearance);
}
