/**
 * Polygons in place of lines and arcs.
 *
 * Each arc is halved until its parts stay within the chord error; a part becomes either its chord or the two tangents
 * at its ends. With material on the left, the tangents of a left-turning arc and the chords of a right-turning one
 * give a polygon that is never smaller than the shape ('outside'); the other way about it is never larger ('inside').
 * Because the numbers of parts are powers of two, a finer polygon keeps the division points of a coarser one and lies
 * between it and the shape. Everything is reckoned from the start of the arc, so moving the shape moves the polygon.
 *
 * Every corner is rounded to the grid, so "never" means within `ROUNDING_SHORTFALL`.
 * Degenerate: an arc whose three points lie on one line is straight; no part sweeps more than 107 degrees, so a small
 * circle keeps four corners. Where a slot or a neck is narrower than the chord error the polygon would lap over
 * itself: then it is tidied by a union, which closes the slot ('outside') or leaves the larger part ('inside').
 */

import { arcBulge, halfBulge, isArc } from './arc.ts';
import { regionArea } from './area.ts';
import { unite } from './boolean.ts';
import { edgesCross } from './borders.ts';
import { withoutStraightCorners } from './corners.ts';
import type { Point } from './point.ts';
import type { Contour, Region, Ring, Shape } from './shape.ts';
import { firstCrossing } from './simple.ts';

/** How far rounding to the grid may carry a corner, in base lengths. */
export const ROUNDING_SHORTFALL = 1;

/** 0.05 mm: coarse enough for a fast search. */
export const PACKING_CHORD_ERROR = 400;

/** 0.01 mm: finer than any printed line. */
export const DRAWING_CHORD_ERROR = 80;

/** 0.005 mm: finer than any machine. */
export const CHECKING_CHORD_ERROR = 40;

/** Which polygon: never smaller than the shape, with its corners on the curve, or never larger than the shape. */
export type FlatSide = 'outside' | 'curve' | 'inside';

/** `chordError` is the largest distance between an arc and its polygon, in base lengths, before rounding. */
export function flattenShape(shape: Shape, side: FlatSide, chordError: number): Region {
  const outer = flattenContour(shape.outer, side, chordError);
  const holes = shape.inner.map((contour) => flattenContour(contour, side, chordError));
  const region = { outer, holes };
  return side === 'curve' || isClean(region) ? region : largestBody(region);
}

/**
 * One contour with its material on the left: an outer one counter-clockwise, an inner one clockwise. It may lap over
 * itself.
 */
export function flattenContour(contour: Contour, side: FlatSide, chordError: number): Ring {
  const corners = contour.flatMap((corner, i) => {
    const { x, y, via } = corner;
    const next = contour[(i + 1) % contour.length] as Point;
    if (via === null || !isArc(corner, via, next)) return [{ x, y }];
    return [{ x, y }, ...arcCorners(corner, via, next, { side, chordError })];
  });
  return withoutStraightCorners(corners);
}

/** Whether no ring crosses itself or another. */
function isClean({ outer, holes }: Region): boolean {
  const rings = [outer, ...holes];
  if (rings.some((ring) => firstCrossing(ring) !== null)) return false;
  return !rings.some((ring, i) => edgesCross([ring], rings.slice(i + 1)));
}

/** The largest part of what the rings wind round counter-clockwise. */
function largestBody(region: Region): Region {
  const bodies = unite([region]).sort((a, b) => regionArea(b) - regionArea(a));
  return bodies[0] ?? region;
}

interface Flatness {
  readonly side: FlatSide;
  readonly chordError: number;
}

/** The corners between the two ends of an arc, on the grid. */
function arcCorners(from: Point, via: Point, to: Point, { side, chordError }: Flatness): Point[] {
  const whole = arcBulge(from, via, to);
  const tangents = side !== 'curve' && (side === 'outside') === whole > 0;
  const chord = { x: to.x - from.x, y: to.y - from.y };
  let bulge = whole;
  let length = Math.sqrt(chord.x * chord.x + chord.y * chord.y);
  const bulges: number[] = [];
  while (Math.abs(bulge) > WIDEST_BULGE || arcError(bulge, length, tangents) > chordError) {
    bulges.push(bulge);
    length *= Math.sqrt(1 + bulge * bulge) / 2;
    bulge = halfBulge(bulge);
  }
  const ends = bulges.reduce(halveArcs, [{ x: 0, y: 0 }, chord]);
  const between = tangents ? tangentCorners(ends, bulge) : ends.slice(1, -1);
  return between.map(({ x, y }) => ({ x: from.x + round(x), y: from.y + round(y) }));
}

/** Just over the bulge of a quarter circle, so that a half circle is halved once, whatever the last bit says. */
const WIDEST_BULGE = 0.5;

/** Distance of the arc from its chord, or from the corner of its end tangents. */
function arcError(bulge: number, length: number, tangents: boolean): number {
  const height = (Math.abs(bulge) * length) / 2;
  return tangents ? (height * (1 + bulge * bulge)) / (1 - bulge * bulge) : height;
}

/** The division points with the middle of each part put in. */
function halveArcs(ends: readonly Point[], bulge: number): Point[] {
  return ends.flatMap((end, i) => {
    const next = ends[i + 1];
    return next === undefined ? [end] : [end, overChord(end, next, bulge)];
  });
}

function tangentCorners(ends: readonly Point[], bulge: number): Point[] {
  const rise = (2 * bulge) / (1 - bulge * bulge);
  return ends.slice(1).map((end, i) => overChord(ends[i] as Point, end, rise));
}

/** The point over the middle of a chord at `rise` times half its length, to its right where positive. */
function overChord(from: Point, to: Point, rise: number): Point {
  const dx = to.x - from.x;
  const dy = to.y - from.y;
  return { x: from.x + (dx + rise * dy) / 2, y: from.y + (dy - rise * dx) / 2 };
}

/** Halves go away from 0, so that a shape turned by quarter turns gives the polygon turned likewise. */
function round(value: number): number {
  return value < 0 ? -Math.round(-value) : Math.round(value);
}
