import type { Point } from '../geometry/point.ts';
import { UNITS_PER_MM } from '../model/units.ts';
import type { FinePoint } from './arcs-from-curves.ts';
import type { FinePath } from './fine-path.ts';

/** A drilled hole that a drawing shows as a circle. */
export interface DrawnHole extends Point {
  readonly diameter: number;
}

/** Circles up to 16 mm (and so 5/8 in) are drilled, wider ones are cut out. Common practice, no source: routers carry drills about so far. */
export const WIDEST_DRILLED = 16 * UNITS_PER_MM;

/** How far the corners of a circle may lie from it, 1 µm: drawings are written with six decimals or fewer. */
const ROUND = 8;

/** The circle that the loop of the given area is, whatever number of arcs it was drawn with; null for any other loop, and for a wider one. */
export function drilledHole({ sides }: FinePath, area: number): DrawnHole | null {
  if (sides.length < 2 || sides.some(({ via }) => via === null)) return null;
  const points = sides.flatMap(({ via, to }) => [via as FinePoint, to]);
  const [a, b, c] = [0, 1, 2].map((k) => points[Math.floor((k * points.length) / 3)] as FinePoint);
  const centre = centreOf(a!, b!, c!);
  if (centre === null) return null;
  const spokes = points.map(({ x, y }) => Math.sqrt((x - centre.x) ** 2 + (y - centre.y) ** 2));
  const radius = spokes.reduce((sum, spoke) => sum + spoke, 0) / spokes.length;
  const diameter = Math.round(2 * radius);
  if (diameter < 2 || WIDEST_DRILLED < diameter) return null;
  if (spokes.some((spoke) => ROUND < Math.abs(spoke - radius))) return null;
  // Once round: an arc forth and back has its corners on a circle as well.
  if (Math.abs(Math.abs(area) / (Math.PI * radius * radius) - 1) > 0.05) return null;
  return { x: Math.round(centre.x) + 0, y: Math.round(centre.y) + 0, diameter };
}

/** Of the circle through three points; null where they lie on a line. */
function centreOf(a: FinePoint, b: FinePoint, c: FinePoint): FinePoint | null {
  const [ux, uy, vx, vy] = [b.x - a.x, b.y - a.y, c.x - a.x, c.y - a.y];
  const turn = 2 * (ux * vy - uy * vx);
  const [u, v] = [ux * ux + uy * uy, vx * vx + vy * vy];
  if (Math.abs(turn) < 1e-6 * (u + v)) return null;
  return { x: a.x + (vy * u - uy * v) / turn, y: a.y + (ux * v - vx * u) / turn };
}
