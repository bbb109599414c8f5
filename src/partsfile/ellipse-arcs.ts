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

/** As the path command `A` gives it, after all transforms. */
export interface EllipseArc {
  readonly from: FinePoint;
  readonly to: FinePoint;
  readonly rx: number;
  readonly ry: number;
  readonly angleDeg: number;
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

function conicOf({ from, to, angleDeg, large, sweep, ...radii }: EllipseArc): ConicArc {
  const cos = Math.cos((angleDeg * Math.PI) / 180);
  const sin = Math.sin((angleDeg * Math.PI) / 180);
  const halfX = (from.x - to.x) / 2;
  const halfY = (from.y - to.y) / 2;
  const x = cos * halfX + sin * halfY;
  const y = cos * halfY - sin * halfX;
  const size = Math.sqrt((x / radii.rx) ** 2 + (y / radii.ry) ** 2);
  const rx = Math.abs(radii.rx) * Math.max(1, size);
  const ry = Math.abs(radii.ry) * Math.max(1, size);
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
