import type { Contour } from '../../src/geometry/shape.ts';

/** The area of lines and arcs in mm2, positive counter-clockwise, by the circle through three points of each arc. */
export function exactAreaMm2(contour: Contour): number {
  const MM = 8000;
  const twice = contour.reduce((sum, { x, y, via }, i) => {
    const to = contour[(i + 1) % contour.length]!;
    const flat = (x * to.y - to.x * y) / (MM * MM);
    return via === null ? sum + flat : sum + flat + segment({ x, y }, via, to) / (MM * MM);
  }, 0);
  return twice / 2;
}

export function contourAreaMm2(contour: Contour): number {
  return Math.abs(exactAreaMm2(contour));
}

interface Place {
  readonly x: number;
  readonly y: number;
}

/** Twice the area between an arc and its chord, positive where it turns left. */
function segment(a: Place, via: Place, b: Place): number {
  const [ux, uy, vx, vy] = [via.x - a.x, via.y - a.y, b.x - a.x, b.y - a.y];
  const turn = 2 * (ux * vy - uy * vx);
  if (turn === 0) return 0;
  const [u, v] = [ux * ux + uy * uy, vx * vx + vy * vy];
  const [cx, cy] = [(vy * u - uy * v) / turn, (ux * v - vx * u) / turn];
  const radius2 = cx * cx + cy * cy;
  const sweep = (Math.atan2(vy - cy, vx - cx) - Math.atan2(-cy, -cx) + 4 * Math.PI) % (2 * Math.PI);
  const forward = turn > 0 ? sweep : sweep - 2 * Math.PI;
  return radius2 * (forward - Math.sin(forward));
}
