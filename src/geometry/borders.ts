/**
 * How the borders of two bodies run through one another, exactly.
 *
 * Two edges cross properly where each has its ends strictly on both sides of the other. Where no edges do, borders
 * meet only in corners, and the corners of one border on an edge of the other cut that edge into runs with both ends
 * on the grid. Each run lies wholly inside, wholly outside or wholly on the other border, and its midpoint tells
 * which; a run that begins away from the other border is where the run before it was. Cost: the product of the numbers
 * of edges that meet the common box, at a few comparisons each.
 */
import { type Box, boxOf } from './box.ts';
import { midpointInRegion } from './inside.ts';
import type { Point } from './point.ts';
import { type Edge, edgesOf, liesOn, pointsOn, segmentsCross } from './segments.ts';
import type { Region, Ring } from './shape.ts';

/** Whether some edge of `a` properly crosses some edge of `b`: not in a corner, not along one another. */
export function edgesCross(a: readonly Ring[], b: readonly Ring[]): boolean {
  const edgesOfA = edgesIn(a, boxOf(b.flat()));
  const edgesOfB = edgesIn(b, boxOf(a.flat()));
  return edgesOfA.some((e) => edgesOfB.some((f) => segmentsCross(e.from, e.to, f.from, f.to)));
}

/**
 * Where a run of a border lies against another body: strictly inside, strictly outside, or along its border, with both
 * insides on the same side ('alike') or on opposite sides ('facing': the bodies touch).
 */
export type RunPlace = 'inside' | 'outside' | 'alike' | 'facing';

/**
 * The places of the runs of `rings` against `other`, none of whose edges may properly cross them.
 * Runs that are known to lie like the one before are left out.
 */
export function* runsAgainst(rings: readonly Ring[], other: Region): Generator<RunPlace> {
  const borders = [other.outer, ...other.holes];
  for (const ring of rings) {
    const box = boxOf(ring);
    const corners = borders.flat().filter((p) => within(box, p));
    const edges = edgesIn(borders, box);
    let first = true;
    for (const edge of edgesOf(ring)) {
      const stops = [...pointsOn(edge.from, edge.to, corners), edge.to];
      for (const [i, stop] of stops.entries()) {
        const start = i === 0 ? edge.from : (stops[i - 1] as Point);
        if (!first && i === 0 && !edges.some((f) => liesOn(start, f.from, f.to))) continue;
        first = false;
        yield placeOfRun(start, stop, other, edges);
      }
    }
  }
}

/** The edges whose boxes meet `box`. */
function edgesIn(rings: readonly Ring[], box: Box): Edge[] {
  return rings
    .flatMap(edgesOf)
    .filter(
      ({ from, to }) =>
        Math.min(from.x, to.x) <= box.maxX &&
        Math.max(from.x, to.x) >= box.minX &&
        Math.min(from.y, to.y) <= box.maxY &&
        Math.max(from.y, to.y) >= box.minY,
    );
}

function within(box: Box, p: Point): boolean {
  return box.minX <= p.x && p.x <= box.maxX && box.minY <= p.y && p.y <= box.maxY;
}

function placeOfRun(from: Point, to: Point, other: Region, edges: readonly Edge[]): RunPlace {
  const place = midpointInRegion(from, to, other);
  if (place !== 0) return place === 1 ? 'inside' : 'outside';
  const alike = edges.some(
    (f) =>
      (f.to.x - f.from.x) * (to.x - from.x) + (f.to.y - f.from.y) * (to.y - from.y) > 0 &&
      liesOn(from, f.from, f.to) &&
      liesOn(to, f.from, f.to),
  );
  return alike ? 'alike' : 'facing';
}
