/**
 * Whether a part is a sound body: its outline does not cross itself, its cut-outs lie inside and apart from one another, and
 * its holes lie in the wood.
 *
 * Arcs are looked at as polygons with their corners on the arc, 0.01 mm at most from it; on the polygons everything is
 * exact. Cut-outs must not even touch one another or the outline, because there the part would fall apart in a point; holes may touch.
 * Cost: pairs of corners of outline and cut-outs, at most 20,000 corners together; holes against corners and against their neighbours.
 */
import { ringArea } from '../geometry/area.ts';
import { type Box, boxesOverlap, boxOf, growBox } from '../geometry/box.ts';
import { pointCloserThan } from '../geometry/distance.ts';
import { DRAWING_CHORD_ERROR, flattenContour } from '../geometry/flatten.ts';
import { pointInRing } from '../geometry/inside.ts';
import type { Point } from '../geometry/point.ts';
import type { Contour, Ring, Shape } from '../geometry/shape.ts';
import { firstCrossing, ringsCross } from '../geometry/simple.ts';
import type { CutOut } from './cut-outs.ts';
import { framePoint } from './drawing-frame.ts';
import { isFlat, turned } from './drawn-shape.ts';
import type { PlacedHole } from './holes.ts';
import { showPlace } from './lengths.ts';
import type { Outline } from './outlines.ts';
import type { Field } from './tree.ts';
import type { Reading } from './values.ts';

/** The body with its cut-outs, outer contour counter-clockwise and inner ones clockwise; null after a problem. */
export function soundBody(
  outline: Outline,
  cutOuts: readonly CutOut[],
  holes: readonly PlacedHole[],
  reading: Reading,
): Shape | null {
  const check: BodyCheck = { ...reading, outline };
  const drawn = outline.inner.map((contour) => ({ field: outline.field, contour }));
  const outer = loopOf('outline', outline.field, outline.outer);
  const inner = [...drawn, ...cutOuts].map(({ field, contour }) =>
    loopOf('cut-out', field, contour),
  );
  const corners = inner.reduce((sum, loop) => sum + loop.ring.length, outer.ring.length);
  const isWithin = reading.report.within(outline.field, {
    ...{ limit: 'corners', code: 'too-complex', found: corners },
    ...{ subject: 'the curves of the part come to', instead: 'simplify the outline' },
  });
  if (!isWithin) return null;
  const simple = [outer, ...inner].map((loop) => isSimple(loop, check));
  if (!simple.every((each) => each)) return null;
  const inside = inner.map((loop) => liesInside(loop, outer, check));
  const apart = inner.map((loop, i) => liesApart(loop, inner.slice(0, i), check));
  const placed = holesFit(holes, outer, inner, check);
  const clear = holesApart(holes, check);
  if (![...inside, ...apart].every((each) => each) || !placed || !clear) return null;
  return {
    outer: turned(outer.contour, outer.area, 1),
    inner: inner.map((loop) => turned(loop.contour, loop.area, -1)),
  };
}

interface BodyCheck extends Reading {
  readonly outline: Outline;
}

interface Loop {
  readonly name: 'outline' | 'cut-out';
  readonly field: Field;
  readonly contour: Contour;
  readonly ring: Ring;
  readonly box: Box;
  readonly area: number;
}

function loopOf(name: Loop['name'], field: Field, contour: Contour): Loop {
  const ring = contour.length < 2 ? [] : flattenContour(contour, 'curve', DRAWING_CHORD_ERROR);
  return { name, field, contour, ring, box: boxOf(ring), area: ringArea(ring) };
}

function isSimple({ name, field, ring, area }: Loop, check: BodyCheck): boolean {
  const crossing = isFlat(ring) ? null : firstCrossing(ring);
  if (crossing !== null) {
    const message = `the ${name} crosses or touches itself at ${showPoint(crossing, field, check)}`;
    check.report.error(
      field,
      'self-crossing',
      message,
      'draw one line round it that meets nothing',
    );
    return false;
  }
  if (area !== 0) return true;
  check.report.error(field, 'no-area', `the ${name} has no area`, 'are three corners in one line?');
  return false;
}

function liesInside(loop: Loop, outer: Loop, { report }: BodyCheck): boolean {
  const inside =
    !ringsCross(loop.ring, outer.ring) &&
    loop.ring.every((p) => pointInRing(p, outer.ring) === 1) &&
    outer.ring.every((p) => pointInRing(p, loop.ring) === -1);
  if (inside) return true;
  const message = 'the cut-out leaves the part, or touches its outline';
  report.error(loop.field, 'cut-out-outside', message, 'an open notch belongs to the outline');
  return false;
}

function liesApart(loop: Loop, others: readonly Loop[], { report }: BodyCheck): boolean {
  const box = growBox(loop.box, 1);
  const met = others.find(
    (other) =>
      boxesOverlap(box, other.box) &&
      (ringsCross(loop.ring, other.ring) ||
        loop.ring.some((p) => 0 <= pointInRing(p, other.ring)) ||
        other.ring.some((p) => 0 <= pointInRing(p, loop.ring))),
  );
  if (met === undefined) return true;
  if (isWithin(loop, met) || isWithin(met, loop)) {
    const message = 'a closed line of the part lies inside one of its cut-outs';
    report.error(loop.field, 'overlap', message, FALLS_OUT);
  } else {
    const message = 'the cut-out meets another cut-out of the part';
    report.error(loop.field, 'overlap', message, 'draw them as one, or move them apart');
  }
  return false;
}

const FALLS_OUT =
  'what lies inside a cut-out falls out with it: leave it out, or make it a part of its own';

function isWithin({ ring }: Loop, other: Loop): boolean {
  return !ringsCross(ring, other.ring) && ring.every((p) => pointInRing(p, other.ring) === 1);
}

function holesFit(
  holes: readonly PlacedHole[],
  outer: Loop,
  inner: readonly Loop[],
  check: BodyCheck,
): boolean {
  const said = new Set<Field>();
  for (const { field, hole } of holes) {
    if (said.has(field)) continue;
    const radius = Math.floor(hole.diameter / 2);
    const at = showPoint(hole, field, check);
    if (pointInRing(hole, outer.ring) < 1 || ringNear(hole, outer.ring, radius)) {
      const message = `the hole at ${at} is not all inside the part`;
      const hint = `holes are placed by their centre, ${check.outline.holesFrom}`;
      check.report.error(field, 'hole-outside', message, hint);
      said.add(field);
    } else if (inner.some((loop) => reaches(hole, radius, loop))) {
      const isInside = inner.some(
        ({ ring }) => pointInRing(hole, ring) === 1 && !ringNear(hole, ring, radius),
      );
      const message = `the hole at ${at} ${isInside ? 'lies inside' : 'reaches into'} a cut-out`;
      const hint = isInside ? FALLS_OUT : 'move the hole or the cut-out';
      check.report.error(field, 'overlap', message, hint);
      said.add(field);
    }
  }
  return said.size === 0;
}

function reaches(hole: Point, radius: number, { ring, box }: Loop): boolean {
  if (!boxesOverlap(growBox(box, radius), growBox(boxOf([hole]), 1))) return false;
  return 0 <= pointInRing(hole, ring) || ringNear(hole, ring, radius);
}

function ringNear(p: Point, ring: Ring, distance: number): boolean {
  return ring.some((from, i) =>
    pointCloserThan(p, from, ring[(i + 1) % ring.length] as Point, distance),
  );
}

/** Neighbours in the order of their left edges are enough: what begins right of a hole's end cannot meet it. */
function holesApart(holes: readonly PlacedHole[], check: BodyCheck): boolean {
  const sorted = holes.toSorted((a, b) => leftOf(a) - leftOf(b));
  const said = new Set<Field>();
  sorted.forEach((one, i) => {
    for (const two of sorted.slice(i + 1)) {
      if (one.hole.x + one.hole.diameter / 2 <= leftOf(two)) break;
      const later = laterOf(one, two);
      if (said.has(later.field) || !holesMeet(one, two)) continue;
      said.add(later.field);
      const message = `the hole at ${showPoint(later.hole, later.field, check)} meets another hole`;
      const hint = 'a counterbore has the centre of its hole, is wider and less deep';
      check.report.error(later.field, 'overlap', message, hint);
    }
  });
  return said.size === 0;
}

function leftOf({ hole }: PlacedHole): number {
  return hole.x - hole.diameter / 2;
}

/** The one that stands later in the file, where the slip more likely is. */
function laterOf(one: PlacedHole, two: PlacedHole): PlacedHole {
  const [a, b] = [one.field.place, two.field.place];
  return a.line < b.line || (a.line === b.line && a.column < b.column) ? two : one;
}

function holesMeet({ hole: a }: PlacedHole, { hole: b }: PlacedHole): boolean {
  const distance2 = (a.x - b.x) ** 2 + (a.y - b.y) ** 2;
  if (((a.diameter + b.diameter) / 2) ** 2 <= distance2) return false;
  const [wide, narrow] = a.diameter < b.diameter ? [b, a] : [a, b];
  const counterbore =
    distance2 === 0 &&
    narrow.diameter < wide.diameter &&
    wide.depth !== null &&
    (narrow.depth === null || wide.depth < narrow.depth);
  return !counterbore;
}

/** In the coordinates and the unit of the file, or of the drawing for what is drawn there. */
function showPoint({ x, y }: Point, field: Field, { unit, outline }: BodyCheck): string {
  const { drawing, shift } = outline;
  if (drawing !== null && field === outline.field)
    return framePoint({ x: x - drawing.shift.x, y: y - drawing.shift.y }, drawing.frame);
  return showPlace({ x: x - shift.x, y: y - shift.y }, unit);
}
