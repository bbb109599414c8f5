import { ringArea } from '../../geometry/area.ts';
import { orientation, type Point } from '../../geometry/point.ts';
import { segmentsMeet } from '../../geometry/segments.ts';
import type { Region, Ring } from '../../geometry/shape.ts';

/** How far the border may move outwards, in base lengths, and how much area may come to it, as a share of what the ring encloses. */
export interface Growth {
  readonly distance: number;
  readonly areaShare: number;
}

/** The distances that are tried in turn, as shares of the one allowed: small changes come first. */
const SHARES = [1 / 8, 1 / 4, 1 / 2, 1];

/** Fewer corners than this are no burden. */
const FEWEST_CORNERS = 12;

/**
 * A region with fewer corners that is nowhere smaller: outer rings only grow, and cut-outs only shrink.
 *
 * Idea: an inward corner is dropped, which fills a hollow; a side between two outward corners is dropped by letting its neighbours run on until they
 * meet. Every side remembers how far it may stand off from the border it replaces, and changes come in the order of that distance, roughly.
 * Source: the collapse of edges of Guibas, Hershberger, Mitchell & Snoeyink 1993, "Approximating polygons and subdivisions with minimum-link
 * paths", Int. J. of Computational Geometry & Applications 3(4), as a one-sided tolerance; here greedy.
 * We let nothing be lost by rounding: a new corner is a grid point from which the dropped ones lie on the material's side, or there is no change.
 * Cost: for each change a pass over all corners; meant for some thousand.
 * Degenerate cases: a change whose new sides would meet another side is left out, so the rings stay simple and apart.
 */
export function simplifyOutline(region: Region, growth: Growth): Region {
  const rings = [region.outer, ...region.holes].map(linked);
  for (const share of SHARES)
    for (const ring of rings) shrinkCount(ring, rings, growth.distance * share, growth.areaShare);
  const [outer, ...holes] = rings.map(toRing);
  return { outer: outer ?? region.outer, holes };
}

/** A corner of a ring that changes; `standsOff` is a bound for the side that begins here. */
interface Corner {
  readonly x: number;
  readonly y: number;
  before: Corner;
  after: Corner;
  standsOff: number;
}

interface Linked {
  /** Any corner of the ring. */
  first: Corner;
  count: number;
  readonly area: number;
  added: number;
}

function linked(ring: Ring): Linked {
  const corners = ring.map(({ x, y }) => ({ x, y, standsOff: 0 }) as Corner);
  corners.forEach((corner, i) => {
    corner.after = corners[(i + 1) % corners.length] as Corner;
    corner.before = corners[(i + corners.length - 1) % corners.length] as Corner;
  });
  const area = Math.abs(ringArea(ring));
  return { first: corners[0] as Corner, count: corners.length, area, added: 0 };
}

function toRing({ first, count }: Linked): Ring {
  const ring: Point[] = [];
  let corner = first;
  for (let k = 0; k < count; k++) {
    ring.push({ x: corner.x, y: corner.y });
    corner = corner.after;
  }
  return ring;
}

/** Goes round the ring until no change is left within the distance. */
function shrinkCount(
  ring: Linked,
  rings: readonly Linked[],
  distance: number,
  areaShare: number,
): void {
  let idle = 0;
  let corner = ring.first;
  while (idle < ring.count && ring.count > FEWEST_CORNERS) {
    const change = changeAt(corner);
    const fits =
      change !== null &&
      change.standsOff <= distance &&
      ring.added + change.area <= areaShare * ring.area &&
      isClear(change, rings);
    corner = corner.after;
    if (!fits) {
      idle++;
      continue;
    }
    corner = applied(change, ring);
    idle = 0;
  }
}

/** The corners from `from` to `to` are to be replaced by those in `by`, one or none. */
interface Change {
  readonly from: Corner;
  readonly to: Corner;
  readonly by: Point | null;
  readonly standsOff: number;
  readonly area: number;
}

/** What could be done at a corner or at the side that begins there. */
function changeAt(b: Corner): Change | null {
  const { before: a, after: c } = b;
  const turn = orientation(a, b, c);
  if (turn <= 0) {
    const off = turn === 0 ? 0 : heightOver(a, c, b);
    const standsOff = Math.max(a.standsOff, b.standsOff) + off;
    return { from: a, to: c, by: null, standsOff, area: triangle(a, b, c) };
  }
  const d = c.after;
  if (orientation(b, c, d) <= 0 || a === d) return null;
  const by = meetingPoint(a, b, c, d);
  if (by === null) return null;
  const standsOff =
    Math.max(a.standsOff, b.standsOff, c.standsOff) + Math.max(heightOver(b, c, by), 1);
  const area = triangle(b, by, c) + triangle(a, by, b) + triangle(c, by, d);
  return { from: a, to: d, by, standsOff, area };
}

/** A grid point near where the lines ab and dc meet beyond bc, from which b and c lie on the inner side or on the new sides; null where there is none. */
function meetingPoint(a: Point, b: Point, c: Point, d: Point): Point | null {
  const [ux, uy] = [b.x - a.x, b.y - a.y];
  const [vx, vy] = [c.x - d.x, c.y - d.y];
  const cross = ux * vy - uy * vx;
  // Sides that turn by half a circle or more never meet.
  if (cross >= 0) return null;
  const along = ((d.x - a.x) * vy - (d.y - a.y) * vx) / cross;
  if (!(along >= 1)) return null;
  const [x, y] = [Math.round(a.x + along * ux), Math.round(a.y + along * uy)];
  for (const dx of ROUNDINGS)
    for (const dy of ROUNDINGS) {
      const point = { x: x + dx, y: y + dy };
      if (
        orientation(a, point, b) >= 0 &&
        orientation(point, d, c) >= 0 &&
        orientation(b, c, point) < 0
      )
        return point;
    }
  return null;
}

const ROUNDINGS = [0, 1, -1, 2, -2];

function heightOver(a: Point, b: Point, p: Point): number {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const length = Math.sqrt(dx * dx + dy * dy);
  return length === 0 ? 0 : Math.abs(dx * (p.y - a.y) - dy * (p.x - a.x)) / length;
}

function triangle(a: Point, b: Point, c: Point): number {
  return Math.abs((b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x)) / 2;
}

/** Whether the new sides meet no other side, and nothing lies in what they take in. */
function isClear({ from, to, by }: Change, rings: readonly Linked[]): boolean {
  const path = by === null ? [from, to] : [from, by, to];
  const replaced = replacedBy(from, to);
  const area = [...path, ...[...replaced].reverse()];
  const [minX, maxX] = [Math.min(...area.map(({ x }) => x)), Math.max(...area.map(({ x }) => x))];
  const [minY, maxY] = [Math.min(...area.map(({ y }) => y)), Math.max(...area.map(({ y }) => y))];
  for (const { first, count } of rings) {
    let p = first;
    for (let k = 0; k < count; k++, p = p.after) {
      const q = p.after;
      if (Math.max(p.x, q.x) < minX || Math.min(p.x, q.x) > maxX) continue;
      if (Math.max(p.y, q.y) < minY || Math.min(p.y, q.y) > maxY) continue;
      if (p === from || replaced.includes(p)) continue;
      const meets =
        q === from
          ? meetsFromEnd(p, path)
          : p === to
            ? meetsFromEnd(q, [...path].reverse())
            : meetsPath(p, q, path);
      if (meets) return false;
    }
  }
  return true;
}

function replacedBy(from: Corner, to: Corner): Corner[] {
  const corners: Corner[] = [];
  for (let corner = from.after; corner !== to; corner = corner.after) corners.push(corner);
  return corners;
}

function meetsPath(p: Point, q: Point, path: readonly Point[]): boolean {
  for (let i = 1; i < path.length; i++)
    if (segmentsMeet(p, q, path[i - 1] as Point, path[i] as Point)) return true;
  return false;
}

/** Whether a side from `p` to the first point of the path meets the path anywhere else. */
function meetsFromEnd(p: Point, path: readonly Point[]): boolean {
  const [first, second] = path as readonly [Point, Point];
  return (
    segmentsMeet(p, p, first, second) ||
    segmentsMeet(second, second, p, first) ||
    meetsPath(p, first, path.slice(1))
  );
}

/** Makes the change and returns the corner to go on from. */
function applied({ from, to, by, standsOff, area }: Change, ring: Linked): Corner {
  ring.count -= replacedBy(from, to).length;
  ring.added += area;
  from.standsOff = standsOff;
  if (by === null) {
    from.after = to;
    to.before = from;
  } else {
    const corner: Corner = { ...by, before: from, after: to, standsOff };
    from.after = corner;
    to.before = corner;
    ring.count++;
  }
  ring.first = from;
  return from;
}
