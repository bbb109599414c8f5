import { arcsFromCurve, type FinePoint, type FineSide } from './arcs-from-curves.ts';
import { FARTHEST } from './fine-path.ts';

/** A stretch of an ellipse: centre + u cos t + v sin t for t from `start` over `sweep`, in radians. Any affine image of it is one too. */
export interface ConicArc {
  readonly centre: FinePoint;
  readonly u: FinePoint;
  readonly v: FinePoint;
  readonly start: number;
  readonly sweep: number;
}

/** Radii that differ by less than this share are those of a circle that went through a transform. */
const ROUND = 1e-9;

/** The lines and arcs from `from` to `to`, which are the ends of the stretch as written: circular ones are exact, others lie within `distance`. */
export function conicSides(
  conic: ConicArc,
  from: FinePoint,
  to: FinePoint,
  distance: number,
): FineSide[] {
  const at = (share: number) => conicPoint(conic, share);
  // Its middle tells whether it is nearly straight, or too large to be drawn.
  if (!isInReach(conic)) return [{ via: at(0.5), to }];
  const circular = isCircular(conic);
  const pieces = Math.ceil(Math.abs(conic.sweep) / (circular ? Math.PI : Math.PI / 2) - 1e-9);
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

/** The point after the given share of the stretch. */
export function conicPoint({ centre, u, v, start, sweep }: ConicArc, share: number): FinePoint {
  const cos = Math.cos(start + share * sweep);
  const sin = Math.sin(start + share * sweep);
  return { x: centre.x + u.x * cos + v.x * sin, y: centre.y + u.y * cos + v.y * sin };
}

/** Whether it can be fitted: no number so large, and none that is no number. */
function isInReach({ centre, u, v }: ConicArc): boolean {
  return [centre, u, v].every(({ x, y }) => Math.abs(x) < FARTHEST && Math.abs(y) < FARTHEST);
}

function isCircular({ u, v }: ConicArc): boolean {
  const uu = u.x * u.x + u.y * u.y;
  const vv = v.x * v.x + v.y * v.y;
  return Math.abs(uu - vv) <= 2 * ROUND * uu && Math.abs(u.x * v.x + u.y * v.y) <= ROUND * uu;
}
