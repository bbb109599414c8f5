/**
 * The elliptical arc of a drawing, given by its two ends, as circular arcs.
 *
 * The ends are carried to the circle of which the ellipse is the image, where the centre lies on the middle line of the chord;
 * radii too short for the chord are grown to it. A circle then gives true arcs of at most half a turn each, an ellipse is
 * fitted quarter by quarter like any other curve.
 * Source: W3C 2011, "Scalable Vector Graphics (SVG) 1.1", second edition, appendix F.6.5 and F.6.6.
 * Cost: constant, and that of the fit. Degenerate: equal ends draw nothing, a radius of 0 draws a line.
 */
import type { FinePoint, FineSide } from './arcs-from-curves.ts';
import { type ConicArc, conicSides } from './conic-arcs.ts';

/** The ends of an arc and the ellipse that it is on. */
export interface EllipseEnds {
  readonly from: FinePoint;
  readonly to: FinePoint;
  readonly rx: number;
  readonly ry: number;
  readonly angleDeg: number;
}

/** As the path command `A` gives it, after all transforms. */
export interface EllipseArc extends EllipseEnds {
  readonly large: boolean;
  readonly sweep: boolean;
}

/** The lines and arcs of the elliptical arc; circular ones are exact, others lie within `distance`. */
export function ellipseSides(arc: EllipseArc, distance: number): FineSide[] {
  const { from, to } = arc;
  if (from.x === to.x && from.y === to.y) return [];
  if (arc.rx === 0 || arc.ry === 0) return [{ via: null, to }];
  return conicSides(conicOf(arc), from, to, distance);
}

/** How many times as large the ellipse would have its ends just opposite each other; above 1 it is too small to reach both. Transforms leave it as it is. */
export function spanOf(arc: EllipseEnds): number {
  const { x, y } = halfChord(arc);
  return Math.sqrt((x / arc.rx) ** 2 + (y / arc.ry) ** 2);
}

/** From the middle of the chord to its beginning, along the axes of the ellipse. */
function halfChord({ from, to, angleDeg }: EllipseEnds): FinePoint {
  const cos = Math.cos((angleDeg * Math.PI) / 180);
  const sin = Math.sin((angleDeg * Math.PI) / 180);
  const halfX = (from.x - to.x) / 2;
  const halfY = (from.y - to.y) / 2;
  return { x: cos * halfX + sin * halfY, y: cos * halfY - sin * halfX };
}

function conicOf(arc: EllipseArc): ConicArc {
  const { from, to, angleDeg, large, sweep } = arc;
  const cos = Math.cos((angleDeg * Math.PI) / 180);
  const sin = Math.sin((angleDeg * Math.PI) / 180);
  const { x, y } = halfChord(arc);
  const size = spanOf(arc);
  const rx = Math.abs(arc.rx) * Math.max(1, size);
  const ry = Math.abs(arc.ry) * Math.max(1, size);
  const u = { x: x / rx, y: y / ry };
  const square = u.x * u.x + u.y * u.y;
  const toCentre = Math.sqrt(Math.max(0, 1 / square - 1)) * (large === sweep ? -1 : 1);
  const c = { x: toCentre * u.y, y: -toCentre * u.x };
  const start = Math.atan2(u.y - c.y, u.x - c.x);
  const end = Math.atan2(-u.y - c.y, -u.x - c.x);
  const full = 2 * Math.PI;
  const forward = (((end - start) % full) + full) % full;
  return {
    centre: {
      x: cos * c.x * rx - sin * c.y * ry + (from.x + to.x) / 2,
      y: sin * c.x * rx + cos * c.y * ry + (from.y + to.y) / 2,
    },
    u: { x: cos * rx, y: sin * rx },
    v: { x: -sin * ry, y: cos * ry },
    start,
    sweep: sweep ? forward : forward - full,
  };
}
