/**
 * The elliptical arc of a drawing, given by its two ends, as circular arcs.
 *
 * The ends are carried to the circle of which the ellipse is the image, where the centre lies on the middle line of the chord;
 * radii too short for the chord are grown to it. A circle then gives true arcs of at most half a turn each, an ellipse is
 * fitted quarter by quarter like any other curve.
 * Source: W3C 2011, "Scalable Vector Graphics (SVG) 1.1", second edition, appendix F.6.5 and F.6.6.
 * Cost: constant, and that of the fit. Degenerate: equal ends draw nothing, a radius of 0 draws a line.
 */
import { arcsFromCurve, type FinePoint, type FineSide } from './arcs-from-curves.ts';

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

/** Radii that differ by less than this share are those of a circle that went through a transform. */
const ROUND = 1e-9;

/** The lines and arcs of the elliptical arc; circular ones are exact, others lie within `distance`. */
export function ellipseSides(arc: EllipseArc, distance: number): FineSide[] {
  const { from, to } = arc;
  if (from.x === to.x && from.y === to.y) return [];
  if (arc.rx === 0 || arc.ry === 0) return [{ via: null, to }];
  const turn = turnOf(arc);
  const at = (share: number) => pointOn(turn, turn.start + share * turn.sweep);
  const circular = Math.abs(turn.rx - turn.ry) <= ROUND * turn.rx;
  const pieces = Math.ceil(Math.abs(turn.sweep) / (circular ? Math.PI : Math.PI / 2) - 1e-9);
  return Array.from({ length: pieces }, (_, i) => {
    const last = i + 1 === pieces;
    const end = last ? to : at((i + 1) / pieces);
    if (circular) return [{ via: at((i + 0.5) / pieces), to: end }];
    // The ends as written close the outline exactly.
    const curve = (t: number) => {
      if (t === 0 && i === 0) return from;
      return t === 1 ? end : at((i + t) / pieces);
    };
    return arcsFromCurve(curve, distance);
  }).flat();
}

interface Turn {
  readonly centre: FinePoint;
  readonly rx: number;
  readonly ry: number;
  readonly cos: number;
  readonly sin: number;
  /** Angle on the circle at the start, and how far it runs, in radians. */
  readonly start: number;
  readonly sweep: number;
}

function turnOf({ from, to, angleDeg, large, sweep, ...radii }: EllipseArc): Turn {
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
    rx,
    ry,
    cos,
    sin,
    start,
    sweep: sweep ? forward : forward - full,
  };
}

function pointOn({ centre, rx, ry, cos, sin }: Turn, angle: number): FinePoint {
  const x = rx * Math.cos(angle);
  const y = ry * Math.sin(angle);
  return { x: centre.x + cos * x - sin * y, y: centre.y + sin * x + cos * y };
}
