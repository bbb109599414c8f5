import type { Box } from './box.ts';
import type { Point } from './point.ts';

/**
 * A corner of a closed contour and the side that leaves it: a straight line to the next corner where `via` is null,
 * else the circular arc from this corner through `via` to the next one. Three grid points fix an arc without an angle,
 * so quarter turns and mirroring keep it exact. A full circle is two arcs.
 */
export interface Vertex {
  readonly x: number;
  readonly y: number;
  readonly via: Point | null;
}

/** A closed run of lines and arcs; the last corner joins the first. */
export type Contour = readonly Vertex[];

/** A flat body: the outer contour runs counter-clockwise, each inner contour clockwise. */
export interface Shape {
  readonly outer: Contour;
  readonly inner: readonly Contour[];
}

/** A closed polygon; the last point joins the first and is not repeated. */
export type Ring = readonly Point[];

/** A polygon with holes: `outer` counter-clockwise, `holes` clockwise. */
export interface Region {
  readonly outer: Ring;
  readonly holes: readonly Ring[];
}

/** The rectangle from (x, y), counter-clockwise from its lower-left corner. */
export function rectangle(x: number, y: number, width: number, height: number): Contour {
  return [
    { x, y, via: null },
    { x: x + width, y, via: null },
    { x: x + width, y: y + height, via: null },
    { x, y: y + height, via: null },
  ];
}

/** The border of a box, counter-clockwise from its lower-left corner. */
export function boxContour({ minX, minY, maxX, maxY }: Box): Contour {
  return rectangle(minX, minY, maxX - minX, maxY - minY);
}

/** A box as a region. */
export function boxRegion(box: Box): Region {
  return { outer: boxContour(box), holes: [] };
}

/** The circle as two half-circle arcs, counter-clockwise from its right-most point. */
export function circle(centre: Point, radius: number): Contour {
  const { x, y } = centre;
  return [
    { x: x + radius, y, via: { x, y: y + radius } },
    { x: x - radius, y, via: { x, y: y - radius } },
  ];
}

/** The same contour run the other way round. */
export function reverseContour(contour: Contour): Contour {
  const n = contour.length;
  return contour.map((_, i) => {
    const corner = contour[(n - i) % n] as Vertex;
    const side = contour[(2 * n - 1 - i) % n] as Vertex;
    return { x: corner.x, y: corner.y, via: side.via };
  });
}

/** Every corner and every point that an arc passes through. */
export function contourPoints(contour: Contour): Point[] {
  return contour.flatMap((v) => (v.via === null ? [v] : [v, v.via]));
}
