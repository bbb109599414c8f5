import { ringArea } from '../geometry/area.ts';
import { DRAWING_CHORD_ERROR, flattenContour } from '../geometry/flatten.ts';
import { pointInRing } from '../geometry/inside.ts';
import { orientation, type Point } from '../geometry/point.ts';
import {
  type Contour,
  contourPoints,
  type Ring,
  reverseContour,
  type Shape,
} from '../geometry/shape.ts';
import type { ResourceLimits } from '../model/resource-limits.ts';
import { MAX_SHEET_SPAN } from '../model/units.ts';
import { contourOfPath, GAP } from './contours.ts';
import { type Frame, frameLength, framePoint } from './drawing-frame.ts';
import type { Fault } from './fault.ts';
import { type FinePath, sidesFault } from './fine-path.ts';
import { type Joined, joinPaths } from './join-paths.ts';
import { type DrawnHole, drilledHole } from './round-holes.ts';
import { shortened } from './visible.ts';

/** A body in the place of its drawing. */
export interface DrawnBody {
  readonly shape: Shape;
  /** Through the body. */
  readonly holes: readonly DrawnHole[];
  readonly frame: Frame;
}

export type ShapeRead =
  | ({ readonly ok: true } & DrawnBody)
  | { readonly ok: false; readonly fault: Fault };

/**
 * One body from the runs of a drawing, joined to loops: the largest is the outline, those inside it are its cut-outs or, where
 * `drilled` says so and they are small circles, holes. Whether they cross themselves or one another is not looked at here.
 */
export function shapeOfPaths(
  paths: readonly FinePath[],
  frame: Frame,
  drilled: boolean,
  limits: ResourceLimits,
): ShapeRead {
  const sides = paths.reduce((sum, path) => sum + path.sides.length, 0);
  const excess = sidesFault(sides, false, limits);
  if (excess !== null) return { ok: false, fault: excess };
  const joined = joinPaths(paths);
  if (joined.kind !== 'loops') return notClosed(joined, frame);
  const loops: Loop[] = [];
  for (const path of joined.loops) {
    const contour = contourOfPath(path);
    // The middle of an arc tells how far it swings out, however near its ends are.
    if (!contourPoints(contour).every(inReach)) return tooLarge(frame);
    const loop = loopOf(contour, path);
    // A stray point, or a line drawn forth and back, is no outline.
    if (!isFlat(loop.ring)) loops.push(loop);
  }
  const outer = loops.toSorted((a, b) => Math.abs(b.area) - Math.abs(a.area))[0];
  if (outer === undefined) return noArea();
  const inner = loops.filter((loop) => loop !== outer);
  const apart = inner.find((loop) => pointInRing(loop.ring[0] as Point, outer.ring) < 0);
  if (apart !== undefined) return severalOutlines(outer, apart, frame);
  const holes = inner.map(({ path, area }) => (drilled ? drilledHole(path, area) : null));
  const cutOuts = inner.filter((_, i) => holes[i] === null);
  return {
    ok: true,
    shape: {
      outer: turned(outer.contour, outer.area, 1),
      inner: cutOuts.map((loop) => turned(loop.contour, loop.area, -1)),
    },
    holes: holes.filter((hole) => hole !== null),
    frame,
  };
}

/** The contour run so that its area has the given sign: 1 counter-clockwise, -1 clockwise. */
export function turned(contour: Contour, area: number, sign: 1 | -1): Contour {
  return area * sign < 0 ? reverseContour(contour) : contour;
}

/** Whether all corners lie on one line. */
export function isFlat(ring: Ring): boolean {
  const [first, second] = ring;
  return (
    first === undefined ||
    second === undefined ||
    ring.every((p) => orientation(first, second, p) === 0)
  );
}

interface Loop {
  readonly path: FinePath;
  readonly contour: Contour;
  readonly ring: Ring;
  readonly area: number;
}

function loopOf(contour: Contour, path: FinePath): Loop {
  const ring = flattenContour(contour, 'curve', DRAWING_CHORD_ERROR);
  return { path, contour, ring, area: ringArea(ring) };
}

/** Half the span on each side, so that no difference of two coordinates leaves the exact range. */
function inReach({ x, y }: Point): boolean {
  return Math.abs(x) <= MAX_SHEET_SPAN / 2 && Math.abs(y) <= MAX_SHEET_SPAN / 2;
}

function fault(code: Fault['code'], message: string, hint: string | null): ShapeRead {
  return { ok: false, fault: { code, message, hint } };
}

function notClosed(joined: Exclude<Joined, { kind: 'loops' }>, frame: Frame): ShapeRead {
  if (joined.kind === 'branch') {
    const message = `more than two lines meet at ${framePoint(joined.at, frame)}`;
    const hint = 'draw each outline as a line of its own; leave out lines that only help';
    return fault('branched-outline', message, hint);
  }
  const { from, to, width } = joined.gap;
  const [a, b] = [from, to].map((p) => framePoint(p, frame));
  const more = joined.ends > 2 ? `; it has ${joined.ends} loose ends` : '';
  const message = `the outline is not closed: from ${a} to ${b} there is a gap of ${frameLength(width, frame)}${more}`;
  const name = frame.names.length > 1 ? `, or name what is meant: ${listed(frame)}` : '';
  const start = frame.down ? 'end a path with Z, close the gap' : 'close the gap';
  const hint = `${start} (ends up to ${frameLength(GAP, frame)} apart are joined), or leave out what is no outline${name}`;
  return fault('open-outline', message, hint);
}

function tooLarge(frame: Frame): ShapeRead {
  const reach = frameLength(MAX_SHEET_SPAN / 2, frame);
  const message = `the outline has a corner more than ${reach} from the origin of its drawing`;
  return fault('outline-too-large', message, 'is the unit right? move the outline to the origin');
}

function noArea(): ShapeRead {
  return fault('no-area', 'the outline has no area', 'draw one closed line round the part');
}

function severalOutlines(outer: Loop, apart: Loop, frame: Frame): ShapeRead {
  const [a, b] = [outer, apart].map(({ ring }) => framePoint(ring[0] as Point, frame));
  const message = `there are several outlines side by side, such as those at ${a} and ${b}`;
  const hint =
    frame.names.length > 1
      ? `name the one that is meant, after a #: ${listed(frame)}`
      : frame.howToName;
  return fault('several-outlines', message, hint);
}

const MOST_LISTED = 20;

function listed({ names }: Frame): string {
  const more = names.length > MOST_LISTED ? ` and ${names.length - MOST_LISTED} more` : '';
  return `${names.slice(0, MOST_LISTED).map(shortened).join(', ')}${more}`;
}
