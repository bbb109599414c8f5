import { ringArea } from '../../src/geometry/area.ts';
import { convexHull } from '../../src/geometry/hull.ts';
import type { Point } from '../../src/geometry/point.ts';
import type { Ring } from '../../src/geometry/shape.ts';
import { fromMm } from '../../src/model/units.ts';
import type { Random } from '../../src/packing/random.ts';

/** A side is cut at one of its ends or at one of these shares of it, where that is a whole number of base lengths. */
const SHARES = [0, 1 / 4, 2 / 5, 1 / 2, 3 / 5];

/** Sheets cut straight across into convex pieces without waste, the largest piece first; the pieces are where they lay. */
export function cutUp(length: number, width: number, count: number, random: Random): Ring[] {
  const [x, y] = [fromMm(length), fromMm(width)];
  const pieces: Ring[] = [
    [
      { x: 0, y: 0 },
      { x, y: 0 },
      { x, y },
      { x: 0, y },
    ],
  ];
  while (pieces.length < count) {
    pieces.sort((a, b) => ringArea(b) - ringArea(a));
    const halves = halvesOf(pieces[0] as Ring, random);
    if (halves !== null) pieces.splice(0, 1, ...halves);
  }
  return pieces;
}

function halvesOf(ring: Ring, random: Random): [Ring, Ring] | null {
  const from = Math.floor(random() * ring.length);
  const to = (from + 1 + Math.floor(random() * (ring.length - 1))) % ring.length;
  const [a, b] = [pointOn(ring, from, random), pointOn(ring, to, random)];
  const [first, last] = [Math.min(from, to), Math.max(from, to)];
  const halves: [Ring, Ring] = [
    convexHull([a, b, ...ring.slice(first + 1, last + 1)]),
    convexHull([a, b, ...ring.slice(last + 1), ...ring.slice(0, first + 1)]),
  ];
  const isClean = ringArea(halves[0]) + ringArea(halves[1]) === ringArea(ring);
  return isClean && halves.every((half) => ringArea(half) > 0.2 * ringArea(ring)) ? halves : null;
}

function pointOn(ring: Ring, side: number, random: Random): Point {
  const a = ring[side] as Point;
  const b = ring[(side + 1) % ring.length] as Point;
  const share = SHARES[Math.floor(random() * SHARES.length)] as number;
  const point = { x: a.x + share * (b.x - a.x), y: a.y + share * (b.y - a.y) };
  return Number.isInteger(point.x) && Number.isInteger(point.y) ? point : a;
}
