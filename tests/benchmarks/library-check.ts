import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import type Polygon from 'jsts/org/locationtech/jts/geom/Polygon.js';
import DistanceOp from 'jsts/org/locationtech/jts/operation/distance/DistanceOp.js';
import OverlayOp from 'jsts/org/locationtech/jts/operation/overlay/OverlayOp.js';
import SnapIfNeededOverlayOp from 'jsts/org/locationtech/jts/operation/overlay/snap/SnapIfNeededOverlayOp.js';
import type { Box } from '../../src/geometry/box.ts';
import type { Contour } from '../../src/geometry/shape.ts';
import type { Job } from '../../src/model/job.ts';
import type { Layout, Placement } from '../../src/model/layout.ts';
import { type SheetStock, usableBox } from '../../src/model/stock.ts';
import { UNITS_PER_MM } from '../../src/model/units.ts';

/** How far pieces may reach over an edge or into one another, and how much may be missing of the spacing: rounded corners of turned pieces, and two arcs in straight parts. */
export const SLACK_MM = 0.001;

/** Most distance of an arc from its straight parts. */
const CHORD_MM = 0.0004;

interface Laid {
  readonly piece: number;
  readonly polygon: Polygon;
}

/**
 * Everything wrong with a layout as a general geometry library sees it: the outlines of the job are turned and moved here, in plain doubles, and no geometry of the product is used.
 * An overlap is a fault where its area is more than the slack times the shorter border. Whether pieces may be left over, and how many sheets there are, is for other checks.
 */
export function libraryFaults(job: Job, layout: Layout): string[] {
  const spacing = job.machine.spacing / UNITS_PER_MM;
  const faults = countFaults(job, layout);
  for (const { stock, placements } of layout.sheets) {
    const sheet = job.materials[layout.material]!.sheets[stock]!;
    const room = roomOf(sheet);
    const keepOuts = sheet.keepOuts.map(({ box }) => boxPolygon(box));
    const laid = placements.map((placement) => laidPiece(job, placement));
    laid.forEach(({ piece, polygon }, i) => {
      if (!room.covers(polygon)) faults.push(`piece ${piece} is not inside`);
      for (const [k, keepOut] of keepOuts.entries())
        faults.push(...pairFaults(`piece ${piece} and keep-out ${k}`, [polygon, keepOut], spacing));
      for (const other of laid.slice(i + 1))
        faults.push(
          ...pairFaults(`pieces ${piece} and ${other.piece}`, [polygon, other.polygon], spacing),
        );
    });
  }
  return faults;
}

/** The distance of two pieces of one sheet as the library measures it, in mm. */
export function libraryGapMm(job: Job, one: Placement, other: Placement): number {
  return DistanceOp.distance(laidPiece(job, one).polygon, laidPiece(job, other).polygon);
}

function countFaults(job: Job, { material, sheets, unplaced }: Layout): string[] {
  const seen = new Map<number, number>();
  for (const { piece } of [...sheets.flatMap(({ placements }) => placements), ...unplaced])
    seen.set(piece, (seen.get(piece) ?? 0) + 1);
  return job.pieces
    .filter(({ part }) => job.parts[part]?.material === material)
    .filter(({ index }) => seen.get(index) !== 1)
    .map(({ index }) => `piece ${index} is there ${seen.get(index) ?? 0} times`);
}

interface Room {
  readonly covers: (polygon: Polygon) => boolean;
}

function roomOf(stock: SheetStock): Room {
  if (stock.boundary !== null) return oddRoomOf(stock.boundary, stock.trim.left / UNITS_PER_MM);
  const { minX, minY, maxX, maxY } = usableBox(stock);
  const [left, bottom, right, top] = [minX, minY, maxX, maxY].map((at) => at / UNITS_PER_MM) as [
    number,
    number,
    number,
    number,
  ];
  return {
    covers: (polygon) => {
      const box = polygon.getEnvelopeInternal();
      return (
        box.getMinX() >= left - SLACK_MM &&
        box.getMinY() >= bottom - SLACK_MM &&
        box.getMaxX() <= right + SLACK_MM &&
        box.getMaxY() <= top + SLACK_MM
      );
    },
  };
}

/** Inside an odd-shaped sheet: no corner lies outside, nor one of the sheet inside the piece, next to no area is beyond the edge, and the whole outline keeps the trim from it. */
function oddRoomOf(boundary: readonly Place[], trim: number): Room {
  const corners = boundary.map(inMm);
  const whole = factory.createPolygon(closedRing(corners), []);
  const edge = whole.getExteriorRing();
  const isWithin = (points: readonly Coordinate[], room: Polygon) =>
    points.every((point) => DistanceOp.distance(factory.createPoint(point), room) <= SLACK_MM);
  const isBeside = (points: readonly Coordinate[], polygon: Polygon) =>
    points.every((each) => {
      const point = factory.createPoint(each);
      const isOutside = DistanceOp.distance(point, polygon) > 0;
      return isOutside || DistanceOp.distance(point, polygon.getExteriorRing()) <= SLACK_MM;
    });
  return {
    covers: (polygon) =>
      isWithin(polygon.getExteriorRing().getCoordinates(), whole) &&
      isBeside(corners, polygon) &&
      polygon.getArea() - overlapArea(polygon, whole) <= SLACK_MM * polygon.getLength() &&
      DistanceOp.distance(polygon.getExteriorRing(), edge) >= trim - SLACK_MM,
  };
}

function pairFaults(names: string, [a, b]: readonly [Polygon, Polygon], spacing: number): string[] {
  const between = a.getEnvelopeInternal().distance(b.getEnvelopeInternal());
  if (between > spacing) return [];
  const faults: string[] = [];
  const most = SLACK_MM * Math.min(a.getLength(), b.getLength());
  if (overlapArea(a, b) > most) faults.push(`${names} overlap`);
  if (spacing > 0 && DistanceOp.distance(a, b) < spacing - SLACK_MM)
    faults.push(`${names} are too near`);
  return faults;
}

/** Infinite where the library gives up, so that nothing passes unseen. */
function overlapArea(a: Polygon, b: Polygon): number {
  try {
    return SnapIfNeededOverlayOp.overlayOp(a, b, OverlayOp.INTERSECTION).getArea();
  } catch {
    return Number.POSITIVE_INFINITY;
  }
}

const factory = new GeometryFactory();

/** In mm on its sheet. Cut-outs are open only where other pieces may lie in them. */
function laidPiece(job: Job, placement: Placement): Laid {
  const part = job.parts[job.pieces[placement.piece]!.part]!;
  const ring = (contour: Contour) =>
    closedRing(finePoints(contour).map((point) => laidPoint(point, placement)));
  const holes = part.nestInside ? part.shape.inner.map(ring) : [];
  return { piece: placement.piece, polygon: factory.createPolygon(ring(part.shape.outer), holes) };
}

function boxPolygon({ minX, minY, maxX, maxY }: Box): Polygon {
  const corners = [
    { x: minX, y: minY },
    { x: maxX, y: minY },
    { x: maxX, y: maxY },
    { x: minX, y: maxY },
  ];
  return factory.createPolygon(closedRing(corners.map(inMm)), []);
}

function closedRing(points: readonly Coordinate[]) {
  return factory.createLinearRing([...points, points[0]!.copy()]);
}

function inMm({ x, y }: Place): Coordinate {
  return new Coordinate(x / UNITS_PER_MM, y / UNITS_PER_MM);
}

interface Place {
  readonly x: number;
  readonly y: number;
}

function laidPoint({ x, y }: Place, pose: Placement): Coordinate {
  const [cos, sin] = directionOf(pose.turn);
  const across = pose.mirrored ? -x : x;
  return new Coordinate(
    (pose.x + cos * across - sin * y) / UNITS_PER_MM,
    (pose.y + sin * across + cos * y) / UNITS_PER_MM,
  );
}

/** Quarter turns without rounding, or the library may give up on sides that touch. */
function directionOf(turn: number): readonly [cos: number, sin: number] {
  const angle = (turn * Math.PI) / 180;
  const parts = [Math.cos(angle), Math.sin(angle)] as const;
  return turn % 90 === 0 ? [Math.round(parts[0]), Math.round(parts[1])] : parts;
}

/** The corners, and on each arc as many points as keep its straight parts near it. */
function finePoints(contour: Contour): Place[] {
  return contour.flatMap((from, i) => {
    const to = contour[(i + 1) % contour.length]!;
    return from.via === null ? [from] : arcPoints(from, from.via, to);
  });
}

/** From the first point up to, but without, the last. */
function arcPoints(from: Place, via: Place, to: Place): Place[] {
  const centre = centreOf(from, via, to);
  if (centre === null) return [from];
  const angleOf = ({ x, y }: Place) => Math.atan2(y - centre.y, x - centre.x);
  const full = 2 * Math.PI;
  const ahead = (angle: number) => (((angle - angleOf(from)) % full) + full) % full;
  const forward = ahead(angleOf(to));
  const sweep = ahead(angleOf(via)) < forward ? forward : forward - full;
  const radius = Math.hypot(from.x - centre.x, from.y - centre.y);
  const widest = 2 * Math.sqrt((2 * CHORD_MM * UNITS_PER_MM) / radius);
  const parts = Math.ceil(Math.abs(sweep) / widest);
  return Array.from({ length: parts }, (_, k) => {
    const angle = angleOf(from) + (sweep * k) / parts;
    return { x: centre.x + radius * Math.cos(angle), y: centre.y + radius * Math.sin(angle) };
  });
}

/** Null where the three points lie on one line. */
function centreOf(a: Place, b: Place, c: Place): Place | null {
  const [bx, by, cx, cy] = [b.x - a.x, b.y - a.y, c.x - a.x, c.y - a.y];
  const twice = 2 * (bx * cy - by * cx);
  if (twice === 0) return null;
  const [bb, cc] = [bx * bx + by * by, cx * cx + cy * cy];
  return { x: a.x + (cy * bb - by * cc) / twice, y: a.y + (bx * cc - cx * bb) / twice };
}
