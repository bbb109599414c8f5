import { arcBox, arcMiddle, isArc } from './arc.ts';
import { type Box, boxOf } from './box.ts';
import type { Point } from './point.ts';
import { type Contour, type Region, type Ring, reverseContour, type Shape } from './shape.ts';
import { cosDeg, sinDeg } from './trigonometry.ts';

/**
 * How a body lies: mirrored first (x becomes -x) where `mirrored`, then turned by `turn` degrees counter-clockwise
 * about the origin, then moved so that the origin comes to (x, y).
 */
export interface Pose {
  readonly x: number;
  readonly y: number;
  readonly turn: number;
  readonly mirrored: boolean;
}

/** Exact for quarter turns; for other turns rounded to the nearest grid point. */
export function placePoint(point: Point, pose: Pose): Point {
  return placer(pose)(point);
}

/** The outer contour stays counter-clockwise and each inner one clockwise: mirrored contours are run the other way. */
export function placeShape(shape: Shape, pose: Pose): Shape {
  return {
    outer: placeContour(shape.outer, pose),
    inner: shape.inner.map((contour) => placeContour(contour, pose)),
  };
}

/** Keeps the direction of the contour, and the arcs as arcs. */
export function placeContour(contour: Contour, pose: Pose): Contour {
  const place = placer(pose);
  const rounds = pose.turn % 90 !== 0;
  const placed = contour.map((corner, i) => {
    const next = contour[(i + 1) % contour.length] as Point;
    const { x, y } = place(corner);
    if (corner.via === null) return { x, y, via: null };
    // Rounding bends an arc least where its middle carries it.
    const via = rounds ? arcMiddle(corner, corner.via, next) : corner.via;
    return { x, y, via: place(via) };
  });
  return pose.mirrored ? reverseContour(placed) : placed;
}

/** Keeps the direction of every ring. */
export function placeRegion(region: Region, pose: Pose): Region {
  const place = placer(pose);
  const placeRing = (ring: Ring): Ring => {
    const placed = ring.map(place);
    return pose.mirrored ? placed.reverse() : placed;
  };
  return { outer: placeRing(region.outer), holes: region.holes.map(placeRing) };
}

/**
 * The smallest box on the grid around the shape with its arcs: exact, rounded outwards where an arc ends off the grid.
 */
export function boxOfShape(shape: Shape): Box {
  const corners = shape.outer.flatMap((corner, i) => {
    const next = shape.outer[(i + 1) % shape.outer.length] as Point;
    if (corner.via === null || !isArc(corner, corner.via, next)) return [corner];
    const { minX, minY, maxX, maxY } = arcBox(corner, corner.via, next);
    return [
      { x: minX, y: minY },
      { x: maxX, y: maxY },
    ];
  });
  return boxOf(corners);
}

function placer({ x, y, turn, mirrored }: Pose): (point: Point) => Point {
  const sign = mirrored ? -1 : 1;
  const cos = cosDeg(turn);
  const sin = sinDeg(turn);
  return (point) => ({
    x: Math.round(cos * sign * point.x - sin * point.y) + x,
    y: Math.round(sin * sign * point.x + cos * point.y) + y,
  });
}
