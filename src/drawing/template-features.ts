// Finds what is to be measured on a part: corners, circles, arcs.
// Idea: a corner is where the direction of the outline changes; where a line runs into an arc without a bend there is nothing to see. Arcs of
//   one circle that follow one another count as one, and a contour that is a single circle is told by its centre. Arcs of three radii or more
//   that run into one another stand for a free curve, and their radii would mislead.
// Source: our own.
// Cost: linear in the sides.
// Degenerate cases: a contour of very many sides is a free curve, of which only the box is measured.
import type { Contour } from '../geometry/shape.ts';
import type { Part } from '../model/part.ts';
import type { DrawnPoint } from './display-list.ts';
import { arcCircle, drawnPoint } from './outline.ts';

export interface RoundThing {
  readonly centre: DrawnPoint;
  readonly radius: number;
}

/** An arc with the point in its middle. */
export interface RoundSide extends RoundThing {
  readonly middle: DrawnPoint;
}

/** One outline or opening, in millimetres. */
export interface Features {
  readonly corners: readonly DrawnPoint[];
  /** The whole contour; null where it is no circle. */
  readonly circle: RoundThing | null;
  readonly arcs: readonly RoundSide[];
}

/** A contour of more sides follows a curve that has no figures. */
const MOST_SIDES = 40;
/** An oval drawn with a compass has two. */
const FREE_RADII = 3;
/** A thousandth of a millimetre more than what rounding to the grid and a reader do to a centre. */
const SAME = 0.02;
/** Sine of the bend from which a joint is seen as a corner: about two degrees. */
const LEAST_BEND = 0.035;

export function featuresOf(contour: Contour): Features {
  const sides = contour.map((from, i) => {
    const to = contour[(i + 1) % contour.length] ?? from;
    return { from: drawnPoint(from), to: drawnPoint(to), ...roundSide(from, to) };
  });
  const chains = arcChains(sides).map(joined);
  const arcs = chains.filter((chain) => !isFreeCurve(chain)).flat();
  const [first] = arcs;
  const isRound = sides.every(({ arc }) => arc !== null) && arcs.length === 1;
  if (isRound && first !== undefined) return { corners: [], circle: first, arcs: [] };
  if (contour.length > MOST_SIDES) return { corners: [], circle: null, arcs: [] };
  const corners = sides.flatMap((side, i) => {
    const before = sides.at(i - 1) ?? side;
    return bends(before.leaves, side.starts) ? [side.from] : [];
  });
  return { corners, circle: null, arcs };
}

/** How many holes there are of each kind, the most frequent first. */
export function holeKinds(
  part: Part,
): readonly { readonly count: number; readonly hole: Part['holes'][number] }[] {
  const kinds = new Map<string, { count: number; hole: Part['holes'][number] }>();
  for (const hole of part.holes) {
    const key = `${hole.diameter} ${hole.depth}`;
    kinds.set(key, { hole, count: (kinds.get(key)?.count ?? 0) + 1 });
  }
  return [...kinds.values()].toSorted((a, b) => b.count - a.count);
}

/** The arc of a side, and the directions in which it starts and ends. */
interface Course {
  readonly arc: RoundSide | null;
  readonly starts: DrawnPoint;
  readonly leaves: DrawnPoint;
}

/** Arcs that run into one another without a bend; a chain over the contour's start is two. */
function arcChains(sides: readonly Course[]): readonly (readonly RoundSide[])[] {
  const chains: RoundSide[][] = [];
  let before: Course | null = null;
  for (const side of sides) {
    const goesOn = before !== null && before.arc !== null && !bends(before.leaves, side.starts);
    if (side.arc !== null && goesOn) chains.at(-1)?.push(side.arc);
    else if (side.arc !== null) chains.push([side.arc]);
    before = side;
  }
  return chains;
}

function isFreeCurve(chain: readonly RoundThing[]): boolean {
  const radii: number[] = [];
  for (const { radius } of chain)
    if (radii.every((other) => Math.abs(other - radius) > SAME)) radii.push(radius);
  return radii.length >= FREE_RADII;
}

function roundSide(
  vertex: Contour[number],
  next: { readonly x: number; readonly y: number },
): Course {
  const [from, to] = [drawnPoint(vertex), drawnPoint(next)];
  const via = vertex.via === null ? null : drawnPoint(vertex.via);
  const found = via === null ? null : arcCircle(from, via, to);
  if (via === null || found === null) {
    const way = { x: to.x - from.x, y: to.y - from.y };
    return { arc: null, starts: way, leaves: way };
  }
  const { centre, radius, left } = found;
  const along = ({ x, y }: DrawnPoint) =>
    left ? { x: centre.y - y, y: x - centre.x } : { x: y - centre.y, y: centre.x - x };
  return { arc: { centre, radius, middle: via }, starts: along(from), leaves: along(to) };
}

/** Arcs of one circle in a row are one; its middle is that of the one half-way. */
function joined(arcs: readonly RoundSide[]): readonly RoundSide[] {
  const runs: RoundSide[][] = [];
  for (const arc of arcs) {
    const last = runs.at(-1);
    if (last?.[0] !== undefined && sameCircle(last[0], arc)) last.push(arc);
    else runs.push([arc]);
  }
  return runs.map((run) => run[Math.floor(run.length / 2)] as RoundSide);
}

function sameCircle(a: RoundThing, b: RoundThing): boolean {
  return [a.radius - b.radius, a.centre.x - b.centre.x, a.centre.y - b.centre.y].every(
    (off) => Math.abs(off) <= SAME,
  );
}

function bends(a: DrawnPoint, b: DrawnPoint): boolean {
  const lengths = Math.hypot(a.x, a.y) * Math.hypot(b.x, b.y);
  return Math.abs(a.x * b.y - a.y * b.x) > LEAST_BEND * lengths || a.x * b.x + a.y * b.y < 0;
}
