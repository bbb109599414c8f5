/**
 * Circular arcs in place of a smooth curve, within a given distance of it.
 *
 * A stretch of the curve is replaced by two arcs that share a tangent where they meet and have the curve's own points and
 * tangents at their ends, so the outline stays smooth where the curve was. If a sample of the curve lies too far from the
 * arcs the stretch is halved and each half is tried again.
 * Source: Bolton 1975, "Biarc curves", Computer-Aided Design 7(2), with the joint of equal tangent lengths.
 * Different here: the distance is sampled at 16 places a stretch and held to 0.8 of what is allowed, instead of bounded in closed
 * form; the rest pays for the rounding of ends to the grid and for what lies between the samples of so short a stretch.
 * Cost: pieces grow with the cube root of 1/distance; a quarter of an ellipse of 300 by 100 mm within 0.01 mm takes 26 arcs.
 * Degenerate: a straight stretch is one line; where the curve has no tangent (a cusp, a repeated control point) the
 * direction to a nearby point is taken; after 12 halvings a stretch becomes a line whatever it is.
 */

/** A point or a vector off the grid. */
export interface FinePoint {
  readonly x: number;
  readonly y: number;
}

/** A curve over the parameter 0 to 1. */
export type Curve = (t: number) => FinePoint;

/** A line to `to`, or the arc through `via` to `to`. */
export interface FineSide {
  readonly via: FinePoint | null;
  readonly to: FinePoint;
}

const SAMPLES = 16;
const SHARE_FOR_FIT = 0.8;
const MOST_HALVINGS = 12;

/** A stretch as straight as this becomes a line; a flat arc is smoother than its chord. */
const STRAIGHT = 1;

/** How far from an end, in the parameter, its direction is taken. */
const DIRECTION_STEP = 1e-5;

/** The lines and arcs from `curve(0)` to `curve(1)`, nowhere farther than `distance` from the curve. */
export function arcsFromCurve(curve: Curve, distance: number): FineSide[] {
  const sides: FineSide[] = [];
  fitStretch({ curve, distance: distance * SHARE_FOR_FIT, sides }, 0, 1, MOST_HALVINGS);
  return sides;
}

interface Fit {
  readonly curve: Curve;
  readonly distance: number;
  readonly sides: FineSide[];
}

function fitStretch(fit: Fit, from: number, to: number, halvings: number): void {
  const { curve, distance, sides } = fit;
  const samples = Array.from({ length: SAMPLES + 1 }, (_, i) =>
    curve(from + ((to - from) * i) / SAMPLES),
  );
  const start = samples[0] as FinePoint;
  const end = samples[SAMPLES] as FinePoint;
  if (samples.every((p) => nearSegment(p, start, end, STRAIGHT)) && runsForward(samples)) {
    sides.push({ via: null, to: end });
    return;
  }
  const step = (to - from) * DIRECTION_STEP;
  const startDirection = direction(start, curve(from + step));
  const endDirection = direction(curve(to - step), end);
  const biarc =
    startDirection === null || endDirection === null
      ? null
      : biarcBetween(start, startDirection, end, endDirection);
  if (biarc !== null && samples.every((p) => nearBiarc(p, biarc, distance))) {
    sides.push({ via: biarc.first.middle, to: biarc.joint }, { via: biarc.second.middle, to: end });
    return;
  }
  if (halvings === 0) {
    sides.push({ via: null, to: end });
    return;
  }
  const middle = (from + to) / 2;
  fitStretch(fit, from, middle, halvings - 1);
  fitStretch(fit, middle, to, halvings - 1);
}

interface Arc {
  readonly middle: FinePoint;
  readonly centre: FinePoint | null;
  readonly radius: number;
  readonly from: FinePoint;
  readonly to: FinePoint;
}

interface Biarc {
  readonly first: Arc;
  readonly joint: FinePoint;
  /** Direction at the joint: it tells which of the two arcs a point belongs to. */
  readonly heading: FinePoint;
  readonly second: Arc;
}

/** The two arcs from `a` in direction `u` to `b` in direction `v`; null where they would turn back or sweep more than half a circle. */
function biarcBetween(a: FinePoint, u: FinePoint, b: FinePoint, v: FinePoint): Biarc | null {
  const chord = minus(b, a);
  const length = tangentLength(chord, u, v);
  if (length === null) return null;
  const joint = {
    x: (a.x + b.x + length * (u.x - v.x)) / 2,
    y: (a.y + b.y + length * (u.y - v.y)) / 2,
  };
  const heading = direction(plus(a, u, length), plus(b, v, -length));
  const first = arcFrom(a, u, joint);
  const second = heading === null ? null : arcFrom(joint, heading, b);
  if (heading === null || first === null || second === null) return null;
  return { first, joint, heading, second };
}

/** The one length of both end tangents at which the two arcs meet smoothly. */
function tangentLength(chord: FinePoint, u: FinePoint, v: FinePoint): number | null {
  const sum = { x: u.x + v.x, y: u.y + v.y };
  const bend = 2 * (1 - dot(u, v));
  const along = dot(chord, sum);
  const square = dot(chord, chord);
  if (bend < 1e-12) return along <= 0 ? null : square / (2 * along);
  return (Math.sqrt(along * along + bend * square) - along) / bend;
}

/** The arc that leaves `from` in direction `u` and ends at `to`. */
function arcFrom(from: FinePoint, u: FinePoint, to: FinePoint): Arc | null {
  const chord = minus(to, from);
  const length = Math.sqrt(dot(chord, chord));
  const forward = dot(u, chord);
  if (length === 0 || forward <= 0) return null;
  const aside = cross(u, chord);
  // The arc stands over its chord by half the chord times the tangent of a quarter of its sweep, to the right of a left turn.
  const rise = aside / (2 * (length + forward));
  const middle = {
    x: from.x + chord.x / 2 + chord.y * rise,
    y: from.y + chord.y / 2 - chord.x * rise,
  };
  if (Math.abs(aside) < 1e-9 * length) return { middle, centre: null, radius: 0, from, to };
  const radius = (length * length) / (2 * aside);
  const centre = { x: from.x - u.y * radius, y: from.y + u.x * radius };
  return { middle, centre, radius: Math.abs(radius), from, to };
}

function nearBiarc(
  p: FinePoint,
  { first, joint, heading, second }: Biarc,
  distance: number,
): boolean {
  const arc = dot(minus(p, joint), heading) < 0 ? first : second;
  if (arc.centre === null) return nearSegment(p, arc.from, arc.to, distance);
  const spoke = minus(p, arc.centre);
  return Math.abs(Math.sqrt(dot(spoke, spoke)) - arc.radius) <= distance;
}

function nearSegment(p: FinePoint, a: FinePoint, b: FinePoint, distance: number): boolean {
  const chord = minus(b, a);
  const square = dot(chord, chord);
  const offset = minus(p, a);
  const share = square === 0 ? 0 : Math.max(0, Math.min(1, dot(offset, chord) / square));
  const away = { x: offset.x - share * chord.x, y: offset.y - share * chord.y };
  return dot(away, away) <= distance * distance;
}

/** Whether the samples never turn back along their chord, as a flat curve that overshoots its end does. */
function runsForward(samples: readonly FinePoint[]): boolean {
  const chord = minus(samples[SAMPLES] as FinePoint, samples[0] as FinePoint);
  return samples.every((p, i) => i === 0 || 0 <= dot(minus(p, samples[i - 1] as FinePoint), chord));
}

function direction(from: FinePoint, to: FinePoint): FinePoint | null {
  const step = minus(to, from);
  const length = Math.sqrt(dot(step, step));
  return length === 0 ? null : { x: step.x / length, y: step.y / length };
}

function plus(p: FinePoint, u: FinePoint, length: number): FinePoint {
  return { x: p.x + length * u.x, y: p.y + length * u.y };
}

function minus(a: FinePoint, b: FinePoint): FinePoint {
  return { x: a.x - b.x, y: a.y - b.y };
}

function dot(a: FinePoint, b: FinePoint): number {
  return a.x * b.x + a.y * b.y;
}

function cross(a: FinePoint, b: FinePoint): number {
  return a.x * b.y - a.y * b.x;
}
