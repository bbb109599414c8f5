/**
 * Rings that touch themselves or one another, traced anew so that no two corners of the material lie over one another.
 *
 * Edges are split wherever a corner touches them, and edges that run along one another in opposite directions cancel
 * out. In every corner the trace goes on along the edge that turns most to the left, material being on the left: rings
 * that touch become one ring where material lies on both sides of the place, and a ring pinched in a corner becomes
 * two.
 * Cost: corners times edges. Rings must not cross.
 */
import { assert } from './assert.ts';
import { insideCorner } from './corners.ts';
import { type Point, samePoint } from './point.ts';
import { type Edge, edgesOf, pointsOn } from './segments.ts';
import type { Ring } from './shape.ts';

/** Counter-clockwise rings around material and clockwise ones around holes, in the order of their first edges. */
export function traceRings(rings: readonly Ring[]): Ring[] {
  return traceEdges(withoutOpposites(splitEdges(rings)));
}

/** The rings that the edges form; edges that run along one another in opposite directions are borders on both sides. */
export function traceEdges(edges: readonly Edge[]): Ring[] {
  const leaving = fileEdges(edges);
  const traced: Ring[] = [];
  for (const edge of edges) {
    if (takeEdge(leaving, edge)) traced.push(trace(leaving, edge));
  }
  return traced;
}

function splitEdges(rings: readonly Ring[]): Edge[] {
  const corners = rings.flat();
  return rings.flatMap(edgesOf).flatMap(({ from, to }) => {
    const stops = [from, ...pointsOn(from, to, corners), to];
    const parts = stops.slice(1).map((stop, k) => ({ from: stops[k] as Point, to: stop }));
    return parts.filter((part) => !samePoint(part.from, part.to));
  });
}

function withoutOpposites(edges: readonly Edge[]): Edge[] {
  const kept = new Map<string, Edge>();
  for (const edge of edges) {
    const [from, to] = [keyOf(edge.from), keyOf(edge.to)];
    if (!kept.delete(`${to} ${from}`)) kept.set(`${from} ${to}`, edge);
  }
  return [...kept.values()];
}

/** The edges that leave each corner. */
function fileEdges(edges: readonly Edge[]): Map<string, Edge[]> {
  const leaving = new Map<string, Edge[]>();
  for (const edge of edges) {
    const others = leaving.get(keyOf(edge.from));
    if (others === undefined) leaving.set(keyOf(edge.from), [edge]);
    else others.push(edge);
  }
  return leaving;
}

function takeEdge(leaving: Map<string, Edge[]>, edge: Edge): boolean {
  const edges = leaving.get(keyOf(edge.from)) ?? [];
  const index = edges.findIndex((other) => samePoint(other.to, edge.to));
  if (index >= 0) edges.splice(index, 1);
  return index >= 0;
}

function keyOf(p: Point): string {
  return `${p.x} ${p.y}`;
}

function trace(leaving: Map<string, Edge[]>, first: Edge): Ring {
  const ring = [first.from];
  let edge = first;
  for (;;) {
    const open = leaving.get(keyOf(edge.to)) ?? [];
    const choices = samePoint(edge.to, first.from) ? [first, ...open] : open;
    const next = mostLeft(edge, choices);
    if (next === first) return ring;
    takeEdge(leaving, next);
    ring.push(next.from);
    edge = next;
  }
}

function mostLeft({ from, to }: Edge, choices: readonly Edge[]): Edge {
  const [first, ...others] = choices.filter((choice) => !samePoint(choice.to, from));
  assert(first !== undefined, 'rings must close');
  return others.reduce(
    (best, other) => (insideCorner(from, to, best.to, other.to) ? other : best),
    first,
  );
}
