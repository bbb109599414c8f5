/**
 * How much push and turning moment friction can take together.
 *
 * A piece pressed evenly on the table slides at mu N and turns on the spot at mu N times the mean
 * distance of its area from the centre of pressure; together the two follow closely an ellipse (the
 * limit surface). The mean distance of a polygon comes in closed form, edge by edge: the triangle
 * from the centre to an edge is integrated in polar coordinates and signed by the side on which the
 * centre lies, so holes and hollows need no cutting into triangles.
 * Sources: Goyal, Ruina & Papadopoulos 1991, "Planar sliding with dry friction", Wear 143 (from
 * memory); the integral by hand.
 * Cost: one pass over the edges. Degenerate: a region without area has mean distance 0.
 */
import type { Point } from '../geometry/point.ts';
import type { Region, Ring } from '../geometry/shape.ts';

/** Mean distance of the points of the regions from `centre`, in the length unit of the points. */
export function meanRadius(regions: readonly Region[], centre: Point): number {
  const rings = regions.flatMap(({ outer, holes }) => [outer, ...holes]);
  const area = rings.reduce((sum, ring) => sum + sumOfEdges(ring, centre, triangleArea), 0);
  if (area <= 0) return 0;
  return rings.reduce((sum, ring) => sum + sumOfEdges(ring, centre, radiusIntegral), 0) / area;
}

/** The same for a rectangle about its middle. */
export function rectangleMeanRadius(a: number, b: number): number {
  const diagonal = Math.sqrt(a * a + b * b);
  return (2 * diagonal + (a * a * Math.asinh(b / a)) / b + (b * b * Math.asinh(a / b)) / a) / 12;
}

/** The same for a disc about its middle. */
export function discMeanRadius(radius: number): number {
  return (2 * radius) / 3;
}

/**
 * How many times the load may grow before the piece slips; below 1 it slips. A load that is within
 * the ellipse (force / most force)^2 + (moment / most moment)^2 = 1 is held.
 */
export function slipMargin(load: Wrench, most: Wrench): number {
  if (most.forceN <= 0) return 0;
  const push = load.forceN / most.forceN;
  const turn = load.momentNmm === 0 ? 0 : load.momentNmm / most.momentNmm;
  return 1 / Math.sqrt(push * push + turn * turn);
}

/** A push and a turning moment, both without sign. */
export interface Wrench {
  readonly forceN: number;
  readonly momentNmm: number;
}

type EdgeSum = (ax: number, ay: number, bx: number, by: number) => number;

function sumOfEdges(ring: Ring, centre: Point, term: EdgeSum): number {
  let sum = 0;
  let from = ring[ring.length - 1] as Point;
  for (const to of ring) {
    sum += term(from.x - centre.x, from.y - centre.y, to.x - centre.x, to.y - centre.y);
    from = to;
  }
  return sum;
}

function triangleArea(ax: number, ay: number, bx: number, by: number): number {
  return (ax * by - ay * bx) / 2;
}

/** Integral of the distance from the origin over the triangle of the origin and the edge a-b, signed as its area. */
function radiusIntegral(ax: number, ay: number, bx: number, by: number): number {
  const length = Math.sqrt((bx - ax) ** 2 + (by - ay) ** 2);
  const cross = ax * by - ay * bx;
  if (cross === 0 || length === 0) return 0;
  const height = Math.abs(cross) / length;
  const start = (ax * (bx - ax) + ay * (by - ay)) / length;
  const end = (bx * (bx - ax) + by * (by - ay)) / length;
  const upTo = (along: number): number =>
    along * Math.sqrt(along * along + height * height) +
    height * height * Math.asinh(along / height);
  return (Math.sign(cross) * height * (upTo(end) - upTo(start))) / 6;
}
