import { boxOf } from '../../geometry/box.ts';
import type { Point } from '../../geometry/point.ts';
import { orientation } from '../../geometry/point.ts';
import type { Region, Ring } from '../../geometry/shape.ts';

/** As many inward corners as a region may keep without any filling. */
const ENOUGH_CORNERS = 10;

/** Depths of filling that are tried in turn, in base lengths: 0.05 mm to 0.8 mm. */
const DEPTHS = [400, 800, 1600, 3200, 6400];

/**
 * A region never smaller than `region`, with few inward corners: shallow hollows are filled by straight sides.
 *
 * Idea: an inward corner costs a convex part, and the pairwise sums of parts grow with the product of both counts, so a finely
 * flattened hollow arc is far dearer than a bulging one. Along a run of inward corners every chord runs outside the material, so corners
 * between the ends of a chord can go while none of them lies deeper than the allowed depth. The depth doubles until few corners are left.
 * Source: the chord test of Douglas & Peucker 1973, "Algorithms for the reduction of the number of points", here greedy and one-sided.
 * Cost: for each depth about corners times the length of a run; meant for rings of some hundred corners.
 * Degenerate cases: a chord that meets another corner of the region is not taken, so the rings stay simple.
 */
export function fillConcave(region: Region): Region {
  let filled = region;
  for (const depth of DEPTHS) {
    if (inwardCorners(filled) <= ENOUGH_CORNERS) break;
    const points = [...region.outer, ...region.holes.flat()];
    filled = {
      outer: fillRing(region.outer, depth, points),
      holes: region.holes.map((hole) => fillRing(hole, depth, points)),
    };
  }
  return filled;
}

function inwardCorners(region: Region): number {
  let count = 0;
  for (const ring of [region.outer, ...region.holes])
    for (let i = 0; i < ring.length; i++) if (isInward(ring, i)) count++;
  return count;
}

function isInward(ring: Ring, i: number): boolean {
  return orientation(cornerAt(ring, i - 1), cornerAt(ring, i), cornerAt(ring, i + 1)) < 0;
}

function cornerAt(ring: Ring, i: number): Point {
  return ring[(i + ring.length) % ring.length] as Point;
}

function fillRing(ring: Ring, depth: number, points: readonly Point[]): Ring {
  // The walk starts at an outward corner, so that no run is cut in two; a round hole has none and may start anywhere.
  const first = Math.max(
    0,
    ring.findIndex((_, i) => !isInward(ring, i)),
  );
  const kept: Point[] = [];
  let i = 0;
  while (i < ring.length) {
    kept.push(cornerAt(ring, first + i));
    i = furthestChord(ring, first, i, { depth, points });
  }
  return kept.length >= 3 ? kept : ring;
}

interface Chord {
  readonly depth: number;
  readonly points: readonly Point[];
}

/** The last corner that one chord from corner `from` may reach, over inward corners only. */
function furthestChord(ring: Ring, first: number, from: number, chord: Chord): number {
  let reach = from + 1;
  while (reach < ring.length && isInward(ring, first + reach)) {
    if (!chordAllowed(ring, first + from, first + reach + 1, chord)) break;
    reach++;
  }
  return reach;
}

function chordAllowed(ring: Ring, from: number, to: number, { depth, points }: Chord): boolean {
  const a = cornerAt(ring, from);
  const b = cornerAt(ring, to);
  const length2 = (b.x - a.x) * (b.x - a.x) + (b.y - a.y) * (b.y - a.y);
  const filled: Point[] = [a];
  for (let i = from + 1; i < to; i++) {
    const corner = cornerAt(ring, i);
    const turn = orientation(a, b, corner);
    // The corner must lie on the material's side of the chord, and not too deep.
    if (turn < 0 || turn * turn > depth * depth * length2) return false;
    filled.push(corner);
  }
  filled.push(b);
  const { minX, maxX, minY, maxY } = boxOf(filled);
  return !points.some(
    // Nearly all points are told apart by the box.
    (p) =>
      p.x >= minX &&
      p.x <= maxX &&
      p.y >= minY &&
      p.y <= maxY &&
      !filled.includes(p) &&
      liesInFan(p, filled),
  );
}

/** Whether `p` lies in or on the area between a chord and the run under it, taken as a fan of triangles. */
function liesInFan(p: Point, run: readonly Point[]): boolean {
  const a = run[0] as Point;
  for (let i = 1; i + 1 < run.length; i++) {
    const b = run[i] as Point;
    const c = run[i + 1] as Point;
    // The run turns to the right, so that a fan triangle runs clockwise.
    if (orientation(a, b, p) <= 0 && orientation(b, c, p) <= 0 && orientation(c, a, p) <= 0)
      return true;
  }
  return false;
}
