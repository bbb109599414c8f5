/**
 * Circular arcs through three grid points: how far they bulge, their middle, their box.
 *
 * An arc over its chord is described by its bulge, the tangent of a quarter of its sweep: positive to the left turn, 1
 * for a half circle. The bulge, its halves and the middle need only square roots, and stay accurate where the centre
 * is far away. The box is decided in BigInt: centre and squared radius are fractions with one common divisor. Where
 * the three points lie on one line the arc is the straight segment.
 */
import type { Box } from './box.ts';
import { orientation, type Point } from './point.ts';

/** Whether the three points bend at all. */
export function isArc(from: Point, via: Point, to: Point): boolean {
  return orientation(from, via, to) !== 0;
}

/**
 * Tangent of a quarter of the sweep, positive where the arc turns left (counter-clockwise).
 * Seen from `via` the ends stand at half a turn less half the sweep, and the bulge is the cotangent of half that angle.
 */
export function arcBulge(from: Point, via: Point, to: Point): number {
  const ax = from.x - via.x;
  const ay = from.y - via.y;
  const bx = to.x - via.x;
  const by = to.y - via.y;
  const cross = bx * ay - by * ax;
  const dot = ax * bx + ay * by;
  const lengths = Math.sqrt(ax * ax + ay * ay) * Math.sqrt(bx * bx + by * by);
  return dot < 0 ? cross / (lengths - dot) : (lengths + dot) / cross;
}

/** The bulge of each half of an arc. */
export function halfBulge(bulge: number): number {
  return bulge / (1 + Math.sqrt(1 + bulge * bulge));
}

/** The grid point nearest to the middle of the arc. */
export function arcMiddle(from: Point, via: Point, to: Point): Point {
  if (!isArc(from, via, to)) return via;
  const bulge = arcBulge(from, via, to);
  const dx = to.x - from.x;
  const dy = to.y - from.y;
  return {
    x: from.x + Math.round((dx + bulge * dy) / 2),
    y: from.y + Math.round((dy - bulge * dx) / 2),
  };
}

/** The smallest box on the grid around a true arc (`isArc`), exactly. */
export function arcBox(from: Point, via: Point, to: Point): Box {
  const [start, end] = orientation(from, via, to) > 0 ? [from, to] : [to, from];
  const circle = circleThrough(start, via, end);
  const passes = (x: bigint, y: bigint) => sweeps(circle, { x, y });
  const lift = (centre: bigint, divisor: bigint) => ceilDiv(centre + circle.radius, divisor);
  const { cx, cy, divisor } = circle;
  return {
    minX: passes(-1n, 0n) ? start.x - lift(-cx, divisor) : Math.min(from.x, to.x),
    minY: passes(0n, -1n) ? start.y - lift(-cy, divisor) : Math.min(from.y, to.y),
    maxX: passes(1n, 0n) ? start.x + lift(cx, divisor) : Math.max(from.x, to.x),
    maxY: passes(0n, 1n) ? start.y + lift(cy, divisor) : Math.max(from.y, to.y),
  };
}

/**
 * A counter-clockwise arc, all times `divisor`: its centre as seen from its start, its radius rounded up to a whole
 * number, and the vectors from the centre to its start and to its end.
 */
interface WholeArc {
  readonly divisor: bigint;
  readonly cx: bigint;
  readonly cy: bigint;
  readonly radius: bigint;
  readonly start: BigVector;
  readonly end: BigVector;
}

interface BigVector {
  readonly x: bigint;
  readonly y: bigint;
}

function circleThrough(start: Point, via: Point, end: Point): WholeArc {
  const ux = BigInt(via.x - start.x);
  const uy = BigInt(via.y - start.y);
  const vx = BigInt(end.x - start.x);
  const vy = BigInt(end.y - start.y);
  const divisor = 2n * (ux * vy - uy * vx);
  const u2 = ux * ux + uy * uy;
  const v2 = vx * vx + vy * vy;
  const cx = u2 * vy - v2 * uy;
  const cy = v2 * ux - u2 * vx;
  return {
    divisor,
    cx,
    cy,
    radius: ceilSqrt(cx * cx + cy * cy),
    start: { x: -cx, y: -cy },
    end: { x: vx * divisor - cx, y: vy * divisor - cy },
  };
}

/** Whether the arc passes the given direction as seen from its centre. */
function sweeps({ start, end }: WholeArc, direction: BigVector): boolean {
  const fromStart = cross(start, direction) >= 0n;
  const toEnd = cross(direction, end) >= 0n;
  return cross(start, end) > 0n ? fromStart && toEnd : fromStart || toEnd;
}

function cross(a: BigVector, b: BigVector): bigint {
  return a.x * b.y - a.y * b.x;
}

function ceilDiv(dividend: bigint, divisor: bigint): number {
  const floor = dividend / divisor;
  return Number(dividend > floor * divisor ? floor + 1n : floor);
}

/** Newton's iteration from above, which falls until it stands on the whole root. */
function ceilSqrt(square: bigint): bigint {
  if (square === 0n) return 0n;
  let root = 1n << BigInt((square.toString(2).length + 1) >> 1);
  for (;;) {
    const next = (root + square / root) >> 1n;
    if (next >= root) break;
    root = next;
  }
  return root * root === square ? root : root + 1n;
}
