import { ringArea } from '../geometry/area.ts';
import { DRAWING_CHORD_ERROR, flattenContour } from '../geometry/flatten.ts';
import { pointInRing } from '../geometry/inside.ts';
import { orientation, type Point } from '../geometry/point.ts';
import { type Contour, type Ring, reverseContour, type Shape } from '../geometry/shape.ts';
import type { FileUnit } from '../model/job.ts';
import { MAX_SHEET_SPAN } from '../model/units.ts';
import { contourOfPath } from './contours.ts';
import type { Fault } from './fault.ts';
import { showLength } from './lengths.ts';
import { type FinePath, MOST_SIDES, TOO_COMPLEX } from './svg-path.ts';

export type ShapeRead =
  | { readonly ok: true; readonly shape: Shape }
  | { readonly ok: false; readonly fault: Fault };

/**
 * One body from the closed paths of a drawing: the largest is the outline, those inside it are its cut-outs.
 * Whether they cross themselves or one another is not looked at here.
 */
export function shapeOfPaths(paths: readonly FinePath[], unit: FileUnit): ShapeRead {
  const sides = paths.reduce((sum, path) => sum + path.sides.length, 0);
  if (MOST_SIDES < sides) return { ok: false, fault: TOO_COMPLEX };
  const loops: Loop[] = [];
  for (const path of paths) {
    const contour = contourOfPath(path);
    if (contour === null) return open(path, unit);
    if (!contour.every(inReach)) return tooLarge(unit);
    const loop = loopOf(contour);
    // A stray point, or a line drawn forth and back, is no outline.
    if (!isFlat(loop.ring)) loops.push(loop);
  }
  const outer = loops.toSorted((a, b) => Math.abs(b.area) - Math.abs(a.area))[0];
  if (outer === undefined) return noArea();
  const inner = loops.filter((loop) => loop !== outer);
  const apart = inner.find((loop) => pointInRing(loop.ring[0] as Point, outer.ring) < 0);
  if (apart !== undefined) return severalOutlines(apart, unit);
  return {
    ok: true,
    shape: {
      outer: turned(outer.contour, outer.area, 1),
      inner: inner.map((loop) => turned(loop.contour, loop.area, -1)),
    },
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
  readonly contour: Contour;
  readonly ring: Ring;
  readonly area: number;
}

function loopOf(contour: Contour): Loop {
  const ring = flattenContour(contour, 'curve', DRAWING_CHORD_ERROR);
  return { contour, ring, area: ringArea(ring) };
}

/** Half the span on each side, so that no difference of two coordinates leaves the exact range. */
function inReach({ x, y }: Point): boolean {
  return Math.abs(x) <= MAX_SHEET_SPAN / 2 && Math.abs(y) <= MAX_SHEET_SPAN / 2;
}

function fault(code: Fault['code'], message: string, hint: string | null): ShapeRead {
  return { ok: false, fault: { code, message, hint } };
}

function open({ start, sides }: FinePath, unit: FileUnit): ShapeRead {
  const end = sides.at(-1)?.to ?? start;
  const gap = Math.sqrt((end.x - start.x) ** 2 + (end.y - start.y) ** 2);
  const message = `a line of the outline is not closed: its ends are ${showLength(gap, unit)} apart`;
  return fault('open-outline', message, 'end a path with Z; leave out what is not an outline');
}

function tooLarge(unit: FileUnit): ShapeRead {
  const reach = showLength(MAX_SHEET_SPAN / 2, unit);
  const message = `the outline has a corner more than ${reach} from the origin of its drawing`;
  return fault('outline-too-large', message, 'is the unit right? move the outline to the origin');
}

function noArea(): ShapeRead {
  return fault('no-area', 'the outline has no area', 'draw one closed line round the part');
}

function severalOutlines({ ring }: Loop, unit: FileUnit): ShapeRead {
  const corner = ring[0] as Point;
  const at = `(${showLength(corner.x, unit)}, ${showLength(corner.y, unit)})`;
  const message = `there are several outlines side by side; one is at ${at}, y upwards`;
  return fault('several-outlines', message, 'name the one that is meant, such as rail.svg#left');
}
