/**
 * A polygon with holes as a few convex parts, exactly.
 *
 * Every hollow corner needs a cut that ends there. Cuts run from corner to corner and are taken shortest first: first
 * those that make two hollow corners convex at once, then those that make one, at last those that only narrow one.
 * Then cuts are taken out again wherever the parts on both sides are convex as one.
 * Source: Chazelle & Dobkin 1985, "Optimal convex decompositions", in Toussaint (ed.), Computational Geometry
 * (a cut for each hollow corner); Hertel & Mehlhorn 1983, "Fast triangulation of simple polygons", FCT 83 (taking
 * out cuts).
 * We look at all cuts instead of drawing each from its corner, because its far end must be a corner too for the parts
 * to be exact. Holes need no care of their own: a ring of hollow corners ends up cut to its surroundings. Only
 * orientations decide, so the parts tile the region exactly for spans up to 2^26. Cost: hollow corners times corners
 * for the list of cuts, and a pass over the edges for each one tried; meant for some hundred corners.
 * Degenerate: rings may touch themselves or one another; spikes are dropped; no area gives no parts.
 */
import { insideCorner, withoutStraightCorners } from './corners.ts';
import { mergeParts } from './merge-parts.ts';
import { orientation, type Point, samePoint } from './point.ts';
import { distance2, type Edge, edgesOf, segmentsMeet } from './segments.ts';
import type { Region, Ring } from './shape.ts';
import { traceEdges, traceRings } from './trace-rings.ts';

/** Convex rings, counter-clockwise and without corners on their sides, that tile the region. */
export function convexParts(region: Region): Ring[] {
  const rings = traceRings([region.outer, ...region.holes].map(withoutStraightCorners));
  const edges = rings.flatMap(edgesOf);
  const cuts = chooseCuts(rings, edges);
  const bothWays = cuts.flatMap(({ from, to }) => [
    { from, to },
    { from: to, to: from },
  ]);
  return mergeParts(traceEdges([...edges, ...bothWays])).map(withoutStraightCorners);
}

/** What is left of a corner of the material: cuts narrow it from one side or the other while it stays hollow. */
interface Corner {
  readonly at: Point;
  before: Point;
  after: Point;
  hollow: boolean;
}

interface Cut {
  readonly from: Corner;
  readonly to: Corner;
  readonly length2: number;
}

function chooseCuts(rings: readonly Ring[], edges: readonly Edge[]): Edge[] {
  const walls = [...edges];
  const chosen: Edge[] = [];
  let possible = possibleCuts(rings);
  for (const useful of [makesBothConvex, makesOneConvex, narrows]) {
    possible = possible.filter((cut) => {
      if (!useful(cut)) return cut.from.hollow || cut.to.hollow;
      const edge = { from: cut.from.at, to: cut.to.at };
      const wall = walls.findIndex((other) => blocks(other, edge));
      if (wall >= 0) {
        // What blocked one cut is likely to block the next: it is looked at first.
        walls.unshift(...walls.splice(wall, 1));
        return false;
      }
      walls.push(edge);
      chosen.push(edge);
      narrowCorner(cut.from, edge.to);
      narrowCorner(cut.to, edge.from);
      return false;
    });
  }
  return chosen;
}

/** Every cut that begins in a hollow corner and leaves both its corners through the material, shortest first. */
function possibleCuts(rings: readonly Ring[]): Cut[] {
  const corners = rings.flatMap(cornersOf);
  const cuts = corners.flatMap((from, i) => {
    if (!from.hollow) return [];
    return corners
      .filter((to, k) => (k > i || !to.hollow) && opensTo(from, to.at) && opensTo(to, from.at))
      .map((to) => ({ from, to, length2: distance2(from.at, to.at) }));
  });
  return cuts.sort((a, b) => a.length2 - b.length2);
}

function cornersOf(ring: Ring): Corner[] {
  return ring.map((at, i) => {
    const before = ring.at(i - 1) as Point;
    const after = ring[(i + 1) % ring.length] as Point;
    return { at, before, after, hollow: orientation(before, at, after) < 0 };
  });
}

function opensTo({ before, at, after }: Corner, toward: Point): boolean {
  return insideCorner(before, at, after, toward);
}

function makesBothConvex({ from, to }: Cut): boolean {
  return isMadeConvex(from, to.at) && isMadeConvex(to, from.at);
}

function makesOneConvex({ from, to }: Cut): boolean {
  return isMadeConvex(from, to.at) || isMadeConvex(to, from.at);
}

function narrows({ from, to }: Cut): boolean {
  return (from.hollow && opensTo(from, to.at)) || (to.hollow && opensTo(to, from.at));
}

function isMadeConvex({ before, at, after, hollow }: Corner, toward: Point): boolean {
  return hollow && orientation(before, at, toward) >= 0 && orientation(toward, at, after) >= 0;
}

function narrowCorner(corner: Corner, toward: Point): void {
  if (!corner.hollow || !opensTo(corner, toward)) return;
  if (orientation(corner.before, corner.at, toward) < 0) corner.after = toward;
  else if (orientation(toward, corner.at, corner.after) < 0) corner.before = toward;
  else corner.hollow = false;
}

/** Whether the wall meets the cut elsewhere than in a common end. */
function blocks({ from, to }: Edge, cut: Edge): boolean {
  if (!segmentsMeet(from, to, cut.from, cut.to)) return false;
  const isEnd = (p: Point) => samePoint(p, cut.from) || samePoint(p, cut.to);
  return !isEnd(from) && !isEnd(to);
}
