import { type Point, samePoint } from '../geometry/point.ts';
import { type Contour, circle, rectangle, type Vertex } from '../geometry/shape.ts';
import type { FinePoint } from './arcs-from-curves.ts';
import type { FinePath } from './fine-path.ts';

/**
 * Contours on the grid, from the forms that a parts file knows.
 * The middle of an arc is rounded towards its chord: rounded outwards, an arc that only touches the side of its box would
 * leave the box by a unit, and a part of exactly the sheet's size would no longer fit it.
 */

/** Ends of a drawn path that are nearer than this, 0.01 mm, are meant to be one point. */
export const GAP = 80;

/** Corners joined by straight lines, without repeated ones. */
export function polygon(points: readonly Point[]): Contour {
  return points
    .filter((p, i) => !samePoint(p, points.at(i - 1) as Point))
    .map(({ x, y }) => ({ x, y, via: null }));
}

/** A disc with its box at the origin. An odd diameter loses one unit, because the centre must lie on the grid. */
export function disc(diameter: number): Contour {
  const radius = Math.floor(diameter / 2);
  return circle({ x: radius, y: radius }, radius);
}

/** A rectangle at the origin with round corners; the radius is at most half the shorter side. */
export function roundedRectangle(width: number, height: number, radius: number): Contour {
  if (radius === 0) return rectangle(0, 0, width, height);
  const reach = radius - radius * Math.SQRT1_2;
  const near = Math.ceil(reach);
  const farX = width - near;
  const farY = height - near;
  const corners: Vertex[] = [
    { x: radius, y: 0, via: null },
    { x: width - radius, y: 0, via: { x: farX, y: near } },
    { x: width, y: radius, via: null },
    { x: width, y: height - radius, via: { x: farX, y: farY } },
    { x: width - radius, y: height, via: null },
    { x: radius, y: height, via: { x: near, y: farY } },
    { x: 0, y: height - radius, via: null },
    { x: 0, y: radius, via: { x: near, y: near } },
  ];
  // Where the radius takes a whole side, the straight rest of it has no length.
  return corners.filter(
    (corner, i) => corner.via !== null || !samePoint(corner, corners[(i + 1) % 8] as Point),
  );
}

export function moveContour(contour: Contour, by: Point): Contour {
  return contour.map(({ x, y, via }) => ({
    x: x + by.x,
    y: y + by.y,
    via: via === null ? null : { x: via.x + by.x, y: via.y + by.y },
  }));
}

/** The closed path on the grid. */
export function contourOfPath({ start, sides }: FinePath): Contour {
  const begin = onGrid(start);
  const corners: Vertex[] = [];
  let pen = begin;
  sides.forEach((side, i) => {
    let to = onGrid(side.to);
    if (i === sides.length - 1 && near(to, begin)) to = begin;
    if (samePoint(pen, to)) return;
    const via = side.via === null ? null : towardsChord(side.via, pen, to);
    corners.push({ x: pen.x, y: pen.y, via });
    pen = to;
  });
  return samePoint(pen, begin) ? corners : [...corners, { x: pen.x, y: pen.y, via: null }];
}

function onGrid({ x, y }: FinePoint): Point {
  // Adding 0 makes the -0 that rounding may give an ordinary 0.
  return { x: Math.round(x) + 0, y: Math.round(y) + 0 };
}

function near(a: Point, b: Point): boolean {
  return (a.x - b.x) ** 2 + (a.y - b.y) ** 2 <= GAP * GAP;
}

function towardsChord(via: FinePoint, from: Point, to: Point): Point {
  return {
    x: roundTowards(via.x, (from.x + to.x) / 2),
    y: roundTowards(via.y, (from.y + to.y) / 2),
  };
}

function roundTowards(value: number, goal: number): number {
  const nearest = Math.round(value);
  // A value on the grid but for the last bits of its double stays there.
  if (Math.abs(value - nearest) < 1e-4) return nearest + 0;
  return (value < goal ? Math.ceil(value) : Math.floor(value)) + 0;
}
