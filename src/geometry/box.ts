import type { Point } from './point.ts';

/** An axis-parallel rectangle, minimum corner and maximum corner, both part of it. */
export interface Box {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** The smallest box around `points`; of no points an empty box (minimum above maximum). */
export function boxOf(points: Iterable<Point>): Box {
  let minX = Number.POSITIVE_INFINITY;
  let minY = Number.POSITIVE_INFINITY;
  let maxX = Number.NEGATIVE_INFINITY;
  let maxY = Number.NEGATIVE_INFINITY;
  for (const { x, y } of points) {
    if (x < minX) minX = x;
    if (x > maxX) maxX = x;
    if (y < minY) minY = y;
    if (y > maxY) maxY = y;
  }
  return { minX, minY, maxX, maxY };
}

/** Whether the insides share a point: boxes that only touch do not overlap. */
export function boxesOverlap(a: Box, b: Box): boolean {
  return a.minX < b.maxX && b.minX < a.maxX && a.minY < b.maxY && b.minY < a.maxY;
}

/** Whether `inner` lies in `outer`; touching the border from inside counts. */
export function boxContains(outer: Box, inner: Box): boolean {
  return (
    outer.minX <= inner.minX &&
    inner.maxX <= outer.maxX &&
    outer.minY <= inner.minY &&
    inner.maxY <= outer.maxY
  );
}

export function growBox(box: Box, by: number): Box {
  return { minX: box.minX - by, minY: box.minY - by, maxX: box.maxX + by, maxY: box.maxY + by };
}

export function moveBox(box: Box, x: number, y: number): Box {
  return { minX: box.minX + x, minY: box.minY + y, maxX: box.maxX + x, maxY: box.maxY + y };
}

export function sameBox(a: Box, b: Box): boolean {
  return a.minX === b.minX && a.minY === b.minY && a.maxX === b.maxX && a.maxY === b.maxY;
}

/** Whether nothing is inside. */
export function isEmptyBox({ minX, minY, maxX, maxY }: Box): boolean {
  return minX >= maxX || minY >= maxY;
}

export function boxArea({ minX, minY, maxX, maxY }: Box): number {
  return (maxX - minX) * (maxY - minY);
}
