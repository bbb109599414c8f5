/**
 * Whether rings cross themselves or one another.
 *
 * Edges sorted by their left ends are compared only while their x ranges meet, which for an ordinary ring is a few
 * neighbours each. Two edges that share a corner of the ring may meet in that corner only. Everything is decided by
 * orientations, exact for spans up to 2^26. Cost: the sort plus the pairs that overlap in x.
 */

import { ringArea } from './area.ts';
import { edgesCross, runsAgainst } from './borders.ts';
import { foldsBack } from './corners.ts';
import { orientation, type Point, samePoint } from './point.ts';
import { liesOn, segmentsMeet } from './segments.ts';
import type { Ring } from './shape.ts';

/**
 * A place where the ring crosses or touches itself, to the nearest grid point: the one that involves the earliest
 * edge; null for a simple ring. A repeated corner and a doubled-back spike are such places.
 */
export function firstCrossing(ring: Ring): Point | null {
  const order = sweepOrder(ring);
  let best: { readonly first: number; readonly second: number; readonly at: Point } | null = null;
  for (let i = 0; i < order.length; i++) {
    const one = order[i] as Span;
    for (let j = i + 1; j < order.length; j++) {
      const two = order[j] as Span;
      if (two.minX > one.maxX) break;
      const first = Math.min(one.index, two.index);
      const second = Math.max(one.index, two.index);
      if (best !== null && (first > best.first || (first === best.first && second > best.second)))
        continue;
      const at = meetingOfEdges(ring, first, second);
      if (at !== null) best = { first, second, at };
    }
  }
  return best === null ? null : best.at;
}

/** Whether the border of `a` runs both inside and outside `b`; rings that touch or lie in one another do not cross. */
export function ringsCross(a: Ring, b: Ring): boolean {
  if (edgesCross([a], [b])) return true;
  const places = new Set(runsAgainst([leftHanded(a)], { outer: leftHanded(b), holes: [] }));
  return places.has('inside') && places.has('outside');
}

interface Span {
  readonly index: number;
  readonly minX: number;
  readonly maxX: number;
}

function sweepOrder(ring: Ring): Span[] {
  const spans = ring.map((from, index) => {
    const to = corner(ring, index + 1);
    return { index, minX: Math.min(from.x, to.x), maxX: Math.max(from.x, to.x) };
  });
  return spans.sort((a, b) => a.minX - b.minX || a.index - b.index);
}

function corner(ring: Ring, index: number): Point {
  return ring[index % ring.length] as Point;
}

/** Where two edges of a ring meet against the rules; edges that follow one another may share their common corner. */
function meetingOfEdges(ring: Ring, first: number, second: number): Point | null {
  const a = corner(ring, first);
  const b = corner(ring, first + 1);
  const c = corner(ring, second);
  const d = corner(ring, second + 1);
  if (samePoint(a, b)) return a;
  if (samePoint(c, d)) return c;
  if (second === first + 1) return spikes(a, b, d) ? b : null;
  if (first === 0 && second === ring.length - 1) return spikes(c, a, b) ? a : null;
  return meetingOfSegments(a, b, c, d);
}

function spikes(a: Point, b: Point, c: Point): boolean {
  return orientation(a, b, c) === 0 && foldsBack(a, b, c);
}

/** A common point of two closed segments, to the nearest grid point. */
function meetingOfSegments(a: Point, b: Point, c: Point, d: Point): Point | null {
  if (!segmentsMeet(a, b, c, d)) return null;
  if (liesOn(a, c, d)) return a;
  if (liesOn(b, c, d)) return b;
  if (liesOn(c, a, b)) return c;
  if (liesOn(d, a, b)) return d;
  const sideA = orientation(c, d, a);
  const share = sideA / (sideA - orientation(c, d, b));
  return {
    x: a.x + Math.round(share * (b.x - a.x)),
    y: a.y + Math.round(share * (b.y - a.y)),
  };
}

function leftHanded(ring: Ring): Ring {
  return ringArea(ring) < 0 ? [...ring].reverse() : ring;
}
