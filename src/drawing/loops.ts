// Lines and arcs as a machine takes them: a closed loop of sides with their bulges, gaps cut into it, marks across it.
// Idea: a place on a loop is the way from its start. A gap is a stretch of that way; what lies between the gaps are open runs, whose first and last
//   sides are parts of the loop's own, so that arcs stay arcs of the same circle.
// Source: the bulge, the tangent of a quarter of the sweep, school geometry.
// Cost: sides times gaps.
// Degenerate cases: gaps that meet are one; where they take the whole loop no run is left.
import { arcBulge, isArc } from '../geometry/arc.ts';
import { type Box, boxOf } from '../geometry/box.ts';
import type { Contour } from '../geometry/shape.ts';
import type { DrawnPoint } from './display-list.ts';
import { drawnPoint } from './outline.ts';

/** In millimetres; `bulge` is the tangent of a quarter of the sweep, positive to the left, 0 for a line. */
export interface LoopSide {
  readonly from: DrawnPoint;
  readonly to: DrawnPoint;
  readonly bulge: number;
}

/** Closed: each side begins where the one before it ends, the first where the last does. */
export type Loop = readonly LoopSide[];

/** A stretch of a loop with this place in its middle. */
export interface Gap {
  readonly at: DrawnPoint;
  readonly width: number;
}

export function contourLoop(contour: Contour): Loop {
  return contour.flatMap((vertex, i) => {
    const end = contour[(i + 1) % contour.length] ?? vertex;
    const { via } = vertex;
    const bulge = via !== null && isArc(vertex, via, end) ? arcBulge(vertex, via, end) : 0;
    return [{ from: drawnPoint(vertex), to: drawnPoint(end), bulge }];
  });
}

/** Counter-clockwise from its right-most point. */
export function circleLoop({ x, y }: DrawnPoint, radius: number): Loop {
  const [right, left] = [
    { x: x + radius, y },
    { x: x - radius, y },
  ];
  return [
    { from: right, to: left, bulge: 1 },
    { from: left, to: right, bulge: 1 },
  ];
}

/** The circle that two half-circles make, as they come from `circle` of the plane geometry and from turning it; null for any other loop. */
export function circleOf(loop: Loop): { centre: DrawnPoint; radius: number } | null {
  const [one, two] = loop;
  if (loop.length !== 2 || one === undefined || two === undefined) return null;
  const isHalf = ({ bulge }: LoopSide) => Math.abs(Math.abs(bulge) - 1) * chordOf(one) < ROUNDING;
  if (one.bulge * two.bulge < 0 || !isHalf(one) || !isHalf(two)) return null;
  const { from, to } = one;
  return {
    centre: { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 },
    radius: chordOf(one) / 2,
  };
}

/** The smallest box around the loop, or around a run of its sides. */
export function boxOfLoop(sides: Loop): Box {
  return boxOf(sides.flatMap(extremesOf));
}

/** What is left of the loop between its gaps, of which there is at least one; open, in the direction of the loop. */
export function runsBetween(loop: Loop, gaps: readonly Gap[]): readonly Loop[] {
  const length = loop.reduce((sum, side) => sum + lengthOf(side), 0);
  const closed = gaps
    .map(({ at, width }) => {
      const from = (nearestOn(loop, at).way - width / 2 + length) % length;
      return { from, to: from + width };
    })
    .sort((a, b) => a.from - b.from);
  let reached = Math.max(...closed.map(({ to }) => to)) - length;
  const runs: Loop[] = [];
  for (const { from, to } of closed) {
    if (reached < from) runs.push(stretch(loop, length, reached, from));
    reached = Math.max(reached, to);
  }
  return runs;
}

export interface OnLoop {
  readonly point: DrawnPoint;
  readonly distance: number;
  /** From the start of the loop. */
  readonly way: number;
  /** Unit vector along the loop. */
  readonly along: DrawnPoint;
  /** One over the radius of the side that it is on, positive where that turns left; 0 on a line. */
  readonly bend: number;
}

/** The place on the loop nearest to a point. */
export function nearestOn(loop: Loop, point: DrawnPoint): OnLoop {
  let best: OnLoop = {
    point,
    distance: Number.POSITIVE_INFINITY,
    way: 0,
    along: { x: 1, y: 0 },
    bend: 0,
  };
  let before = 0;
  for (const side of loop) {
    const share = nearestShare(side, point);
    const on = pointAt(side, share);
    const distance = Math.hypot(on.x - point.x, on.y - point.y);
    if (distance < best.distance)
      best = {
        point: on,
        distance,
        way: before + share * lengthOf(side),
        along: directionAt(side, share),
        bend: sweepOf(side) / lengthOf(side),
      };
    before += lengthOf(side);
  }
  return best;
}

/** Millimetres within which half a circle is one: turned to the grid of base lengths its corners are off by less. */
const ROUNDING = 0.0005;

function chordOf({ from, to }: LoopSide): number {
  return Math.hypot(to.x - from.x, to.y - from.y);
}

function sweepOf({ bulge }: LoopSide): number {
  return 4 * Math.atan(bulge);
}

function lengthOf(side: LoopSide): number {
  const chord = chordOf(side);
  const half = Math.abs(sweepOf(side)) / 2;
  return half === 0 ? chord : (chord * half) / Math.sin(half);
}

/** The part of the loop between two ways from its start; `from` may be below 0. */
function stretch(loop: Loop, length: number, from: number, to: number): Loop {
  const rounds = [-length, 0];
  return rounds.flatMap((start) => {
    let before = start;
    return loop.flatMap((side) => {
      const own = lengthOf(side);
      const low = Math.max(0, (from - before) / own);
      const high = Math.min(1, (to - before) / own);
      before += own;
      return (high - low) * own <= SHORTEST ? [] : [partOf(side, low, high)];
    });
  });
}

/** Shorter remains are rounding. */
const SHORTEST = 1e-7;

function partOf(side: LoopSide, low: number, high: number): LoopSide {
  if (low === 0 && high === 1) return side;
  return {
    from: low === 0 ? side.from : pointAt(side, low),
    to: high === 1 ? side.to : pointAt(side, high),
    bulge: Math.tan(((high - low) * sweepOf(side)) / 4),
  };
}

function pointAt(side: LoopSide, share: number): DrawnPoint {
  const { from, to } = side;
  const sweep = sweepOf(side);
  const chord = { x: to.x - from.x, y: to.y - from.y };
  if (sweep === 0) return { x: from.x + share * chord.x, y: from.y + share * chord.y };
  const scale = Math.sin((share * sweep) / 2) / Math.sin(sweep / 2);
  const way = turned(chord, ((share - 1) * sweep) / 2);
  return { x: from.x + scale * way.x, y: from.y + scale * way.y };
}

function directionAt(side: LoopSide, share: number): DrawnPoint {
  const { from, to } = side;
  const chord = chordOf(side);
  const unit = { x: (to.x - from.x) / chord, y: (to.y - from.y) / chord };
  return turned(unit, (share - 0.5) * sweepOf(side));
}

function nearestShare(side: LoopSide, p: DrawnPoint): number {
  const { from, to, bulge } = side;
  if (bulge === 0) {
    const chord = { x: to.x - from.x, y: to.y - from.y };
    const on = (p.x - from.x) * chord.x + (p.y - from.y) * chord.y;
    return Math.max(0, Math.min(1, on / (chord.x ** 2 + chord.y ** 2)));
  }
  const centre = centreOf(side);
  const share = shareTowards(side, { x: p.x - centre.x, y: p.y - centre.y });
  if (share <= 1) return share;
  // Beyond the end: the end that is nearer by angle is nearer by distance.
  return share - 1 < (2 * Math.PI) / Math.abs(sweepOf(side)) - share ? 1 : 0;
}

function centreOf({ from, to, bulge }: LoopSide): DrawnPoint {
  const off = (1 - bulge * bulge) / (4 * bulge);
  return {
    x: (from.x + to.x) / 2 - off * (to.y - from.y),
    y: (from.y + to.y) / 2 + off * (to.x - from.x),
  };
}

/** Where on an arc, or on the rest of its circle beyond 1, this direction from its centre points. */
function shareTowards(side: LoopSide, direction: DrawnPoint): number {
  const centre = centreOf(side);
  const sweep = sweepOf(side);
  const start = Math.atan2(side.from.y - centre.y, side.from.x - centre.x);
  const angle = (Math.atan2(direction.y, direction.x) - start) * Math.sign(sweep);
  const round = 2 * Math.PI;
  return (((angle % round) + round) % round) / Math.abs(sweep);
}

/** Corners, and of an arc the points where it runs along an axis. */
function extremesOf(side: LoopSide): readonly DrawnPoint[] {
  if (side.bulge === 0) return [side.from, side.to];
  const centre = centreOf(side);
  const radius = Math.hypot(side.from.x - centre.x, side.from.y - centre.y);
  const tops = DIRECTIONS.filter((direction) => shareTowards(side, direction) < 1);
  return [
    side.from,
    side.to,
    ...tops.map(({ x, y }) => ({ x: centre.x + radius * x, y: centre.y + radius * y })),
  ];
}

const DIRECTIONS = [
  { x: 1, y: 0 },
  { x: 0, y: 1 },
  { x: -1, y: 0 },
  { x: 0, y: -1 },
];

function turned({ x, y }: DrawnPoint, angle: number): DrawnPoint {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return { x: cos * x - sin * y, y: sin * x + cos * y };
}
