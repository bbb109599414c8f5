/**
 * A B-spline, rational or not, as circular arcs.
 *
 * Between two knots the curve is one polynomial (or quotient of two), which has a Bézier form of its own; each is fitted
 * with arcs like any other curve. A control point of that form is the spline's blossom at the two knots, each taken as often as the
 * point's place says, which is what inserting the knots again and again would come to. Weights are carried along as a third coordinate.
 * Source: Ramshaw 1989, "Blossoms are polar forms", Computer Aided Geometric Design 6(4).
 * Cost: the cube of the degree for each span, and that of the fit. Degenerate: a knot as often as the degree is a corner; one that comes
 * more often would part the curve and makes the spline none; spans without length draw nothing.
 */
import { arcsFromCurve, type Curve, type FinePoint, type FineSide } from './arcs-from-curves.ts';
import type { FinePath } from './fine-path.ts';

export interface Spline {
  readonly degree: number;
  readonly knots: readonly number[];
  readonly controls: readonly FinePoint[];
  /** One for each control point; null where all weigh the same. */
  readonly weights: readonly number[] | null;
}

/** More no drawing program offers, and work grows with its cube. */
export const HIGHEST_DEGREE = 10;

/** What is wrong with the numbers of a spline, or null. */
export function splineFault({ degree, knots, controls, weights }: Spline): string | null {
  if (!(Number.isInteger(degree) && 1 <= degree && degree <= HIGHEST_DEGREE))
    return `its degree is ${degree}; it must be 1 to ${HIGHEST_DEGREE}`;
  if (controls.length <= degree)
    return `it has ${controls.length} control points, too few for its degree ${degree}`;
  const needed = controls.length + degree + 1;
  if (knots.length !== needed) return `it has ${knots.length} knots; it must have ${needed}`;
  if (knots.some((knot, i) => knot < (knots[i - 1] ?? knot))) return 'its knots fall';
  const parts = knots.some(
    (knot, i) => 0 < i && i + degree + 1 < knots.length && knots[i + degree] === knot,
  );
  if (parts) return 'one of its knots comes too often';
  if (weights === null) return null;
  if (weights.length !== controls.length)
    return `it has ${weights.length} weights for ${controls.length} control points`;
  return weights.every((weight) => 0 < weight) ? null : 'one of its weights is not above 0';
}

/** The arcs of a sound spline, within `distance` of it; no more spans once there are over `mostSides`. */
export function splinePath(spline: Spline, distance: number, mostSides: number): FinePath {
  const { degree, knots, controls } = spline;
  const sides: FineSide[] = [];
  let start: FinePoint | null = null;
  for (let span = degree; span < controls.length && sides.length <= mostSides; span++) {
    if (knots[span] === knots[span + 1]) continue;
    const curve = bezierOf(spline, span);
    start ??= curve(0);
    for (const side of arcsFromCurve(curve, distance)) sides.push(side);
  }
  return { start: start ?? (controls[0] as FinePoint), sides, closed: false };
}

/** A point times its weight, and the weight. */
type Weighted = readonly [number, number, number];

function bezierOf(spline: Spline, span: number): Curve {
  const { degree, knots } = spline;
  const [from, to] = [knots[span] as number, knots[span + 1] as number];
  const points = Array.from({ length: degree + 1 }, (_, k) =>
    blossom(
      spline,
      span,
      Array.from({ length: degree }, (_, r) => (r < k ? to : from)),
    ),
  );
  return (t) => {
    let row: readonly Weighted[] = points;
    while (1 < row.length) row = row.slice(1).map((b, i) => between(row[i] as Weighted, b, t));
    const [x, y, weight] = row[0] as Weighted;
    return { x: x / weight, y: y / weight };
  };
}

/** De Boor's scheme with an argument of its own in every round. */
function blossom(
  { degree, knots, controls, weights }: Spline,
  span: number,
  args: readonly number[],
): Weighted {
  let row: readonly Weighted[] = controls
    .slice(span - degree, span + 1)
    .map(({ x, y }, i): Weighted => {
      const weight = weights?.[span - degree + i] ?? 1;
      return [x * weight, y * weight, weight];
    });
  args.forEach((arg, round) => {
    row = row.slice(1).map((b, i) => {
      const low = knots[span - degree + round + 1 + i] as number;
      const high = knots[span + 1 + i] as number;
      return between(row[i] as Weighted, b, (arg - low) / (high - low));
    });
  });
  return row[0] as Weighted;
}

function between(a: Weighted, b: Weighted, share: number): Weighted {
  const at = (i: 0 | 1 | 2) => a[i] + share * (b[i] - a[i]);
  return [at(0), at(1), at(2)];
}
