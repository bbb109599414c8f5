/** A point on the integer grid; also a vector between two such points. */
export interface Point {
  readonly x: number;
  readonly y: number;
}

/**
 * The turn from `a` over `b` to `c`: positive to the left, negative to the right, 0 on one line.
 * Exact in plain doubles while the three points lie within a span of 2^26: both products then stay below 2^52.
 */
export function orientation(a: Point, b: Point, c: Point): number {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

export function samePoint(a: Point, b: Point): boolean {
  return a.x === b.x && a.y === b.y;
}
