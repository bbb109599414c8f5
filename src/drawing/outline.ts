// Turns contours of the plane geometry into runs of a drawing, arcs kept as arcs.
// Idea: the circle through the three points of an arc gives radius and centre. An arc of a third of a turn or more is halved until it is shorter,
//   because near half a turn the radius alone hardly fixes an arc once its digits are rounded.
// Source: the circle through three points, school geometry.
// Cost: linear in the sides.
// Degenerate cases: three points on one line are a straight side.
import type { Box } from '../geometry/box.ts';
import { type Point, samePoint } from '../geometry/point.ts';
import type { Contour, Ring, Shape } from '../geometry/shape.ts';
import { UNITS_PER_MM } from '../model/units.ts';
import { closedRun, type DrawnPoint, type Run, type Side } from './display-list.ts';

/** The outer contour and the inner ones, in millimetres. */
export function shapeRuns(shape: Shape): readonly Run[] {
  return [shape.outer, ...shape.inner].map(contourRun);
}

export function contourRun(contour: Contour): Run {
  const sides = contour.flatMap((vertex, i) => {
    const end = contour[(i + 1) % contour.length] ?? vertex;
    return vertex.via === null
      ? [straight(drawnPoint(end))]
      : arcSides(drawnPoint(vertex), drawnPoint(vertex.via), drawnPoint(end));
  });
  const first = contour[0] ?? { x: 0, y: 0 };
  return { start: drawnPoint(first), sides: withoutClosingLine(sides), closed: true };
}

export function ringRun(ring: Ring): Run {
  return closedRun(ring.map(drawnPoint));
}

export function drawnPoint(point: Point): DrawnPoint {
  return { x: point.x / UNITS_PER_MM, y: point.y / UNITS_PER_MM };
}

/** A box in millimetres. */
export function drawnBox(box: Box): Box {
  return scaleBox(box, 1 / UNITS_PER_MM);
}

export function scaleBox(box: Box, by: number): Box {
  return { minX: box.minX * by, minY: box.minY * by, maxX: box.maxX * by, maxY: box.maxY * by };
}

export function middleOf(box: Box): DrawnPoint {
  return { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 };
}

/** A closed run ends with a line of its own accord; only a last arc has to be said. */
function withoutClosingLine(sides: readonly Side[]): readonly Side[] {
  return sides.at(-1)?.bend === null ? sides.slice(0, -1) : sides;
}

function straight({ x, y }: DrawnPoint): Side {
  return { x, y, bend: null };
}

interface Arc {
  readonly from: DrawnPoint;
  readonly to: DrawnPoint;
  readonly centre: DrawnPoint;
  readonly radius: number;
  readonly left: boolean;
}

function arcSides(from: DrawnPoint, via: DrawnPoint, to: DrawnPoint): readonly Side[] {
  const found = arcCircle(from, via, to);
  return found === null ? [straight(to)] : halved({ from, to, ...found });
}

/** Less than a unit of the grid, so that only rounding bends it. */
const STRAIGHT_MM = 1e-4;

/** The circle through three points; null where they lie on one line. */
export function arcCircle(
  from: DrawnPoint,
  via: DrawnPoint,
  to: DrawnPoint,
): Pick<Arc, 'centre' | 'radius' | 'left'> | null {
  const a = { x: via.x - from.x, y: via.y - from.y };
  const b = { x: to.x - from.x, y: to.y - from.y };
  const cross = a.x * b.y - a.y * b.x;
  const a2 = a.x * a.x + a.y * a.y;
  const b2 = b.x * b.x + b.y * b.y;
  if (samePoint(from, to) || Math.abs(cross) < STRAIGHT_MM * Math.sqrt(b2)) return null;
  const x = (a2 * b.y - b2 * a.y) / (2 * cross);
  const y = (b2 * a.x - a2 * b.x) / (2 * cross);
  const centre = { x: from.x + x, y: from.y + y };
  return { centre, radius: Math.sqrt(x * x + y * y), left: cross > 0 };
}

function halved(arc: Arc): readonly Side[] {
  const { from, to, centre, radius, left } = arc;
  const f = { x: from.x - centre.x, y: from.y - centre.y };
  const t = { x: to.x - centre.x, y: to.y - centre.y };
  const side = left ? 1 : -1;
  const sine = side * (f.x * t.y - f.y * t.x);
  const cosine = f.x * t.x + f.y * t.y;
  if (sine > 0 && cosine > -radius * radius * 0.5) {
    return [{ x: to.x, y: to.y, bend: { radius, left } }];
  }
  const chord = { x: to.x - from.x, y: to.y - from.y };
  const reach = (side * radius) / Math.sqrt(chord.x * chord.x + chord.y * chord.y);
  const middle = { x: centre.x + chord.y * reach, y: centre.y - chord.x * reach };
  return [...halved({ ...arc, to: middle }), ...halved({ ...arc, from: middle })];
}
