/**
 * How far the points of an area are from a point on average: times the friction that is the moment
 * a piece pressed evenly on the table takes before it turns about that point.
 *
 * The mean distance of a polygon comes in closed form, edge by edge: the triangle from the point to
 * an edge is integrated in polar coordinates and signed by the side on which the point lies, so
 * holes and hollows need no cutting into triangles.
 * Source: the integral by hand.
 * Cost: one pass over the edges. Degenerate: a region without area has mean distance 0.
 */
import type { Point } from '../geometry/point.ts';
import type { Region } from '../geometry/shape.ts';

/** Mean distance of the points of the regions from `centre`, in the length unit of the points. */
export function meanRadius(regions: readonly Region[], centre: Point): number {
  return meanDistance(sidesOf(regions), centre);
}

/** The sides of some regions as a list of numbers, for many points to be asked about: x and y of each end, one after the other. */
export interface Sides {
  readonly ends: Float64Array;
  /** Sum of the signed areas. */
  readonly area: number;
}

export function sidesOf(regions: readonly Region[]): Sides {
  const rings = regions.flatMap(({ outer, holes }) => [outer, ...holes]);
  const ends = new Float64Array(4 * rings.reduce((sum, ring) => sum + ring.length, 0));
  let at = 0;
  for (const ring of rings) {
    let from = ring[ring.length - 1] as Point;
    for (const to of ring) {
      ends.set([from.x, from.y, to.x, to.y], at);
      at += 4;
      from = to;
    }
  }
  return { ends, area: areaOf(ends) };
}

/** As `meanRadius`, of regions whose sides are known. */
export function meanDistance({ ends, area }: Sides, { x, y }: Point): number {
  if (area <= 0) return 0;
  let sum = 0;
  for (let i = 0; i < ends.length; i += 4)
    sum += radiusIntegral(
      (ends[i] as number) - x,
      (ends[i + 1] as number) - y,
      (ends[i + 2] as number) - x,
      (ends[i + 3] as number) - y,
    );
  return sum / area;
}

/** About the first corner, so that no large numbers are taken from one another. */
function areaOf(ends: Float64Array): number {
  const [x, y] = [ends[0] as number, ends[1] as number];
  let sum = 0;
  for (let i = 0; i < ends.length; i += 4)
    sum +=
      ((ends[i] as number) - x) * ((ends[i + 3] as number) - y) -
      ((ends[i + 1] as number) - y) * ((ends[i + 2] as number) - x);
  return sum / 2;
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

/** Integral of the distance from the origin over the triangle of the origin and the edge a-b, signed as its area. */
function radiusIntegral(ax: number, ay: number, bx: number, by: number): number {
  const length = Math.sqrt((bx - ax) ** 2 + (by - ay) ** 2);
  const cross = ax * by - ay * bx;
  if (cross === 0 || length === 0) return 0;
  const height = Math.abs(cross) / length;
  const start = (ax * (bx - ax) + ay * (by - ay)) / length;
  const end = start + length;
  const [near, far] = [Math.sqrt(ax * ax + ay * ay), Math.sqrt(bx * bx + by * by)];
  const turn = asinhBetween(start, end, near, far, height);
  return (Math.sign(cross) * height * (end * far - start * near + height * height * turn)) / 6;
}

/** asinh(end / height) - asinh(start / height) by one logarithm, in forms that never take nearly equal numbers from one another; `near` and `far` are the distances of both ends. */
function asinhBetween(
  start: number,
  end: number,
  near: number,
  far: number,
  height: number,
): number {
  if (start >= 0) return Math.log((end + far) / (start + near));
  if (end <= 0) return Math.log((near - start) / (far - end));
  return Math.log(((end + far) / height) * ((near - start) / height));
}
