import type { Point } from '../geometry/point.ts';
import { boxOfShape } from '../geometry/pose.ts';
import { type Contour, rectangle } from '../geometry/shape.ts';
import { NO_SIDES, type Sides } from '../model/part.ts';
import { MAX_SHAPE_SPAN, UNITS_PER_MM } from '../model/units.ts';
import { disc, moveContour, polygon, roundedRectangle } from './contours.ts';
import type { DrawingUnit, Frame } from './drawing-frame.ts';
import type { Drawings } from './drawings.ts';
import type { DrawnBody } from './drawn-shape.ts';
import { showLength, showSize } from './lengths.ts';
import type { OutlineKind } from './outline-kinds.ts';
import { readPathText } from './path-text.ts';
import { tellPointsOrigin } from './points-origin.ts';
import type { DrawnHole } from './round-holes.ts';
import { child, type Field, isFlawed, itemsOf, textOf } from './tree.ts';
import {
  type LengthRange,
  NOT_NEGATIVE,
  POSITIVE,
  type Reading,
  readLength,
  readPoint,
  readSides,
  readSize,
  readWord,
} from './values.ts';

/** What reading an outline needs beyond its own lines. */
export interface OutlineReading extends Reading {
  readonly drawings: Drawings;
  /** Of drawings that say none; null where the file says none either, undefined after a problem. */
  readonly drawingUnit: DrawingUnit | null | undefined;
}

/** The body of a part as it is cut, before its `cut-outs` and `holes` are looked at. */
export interface Outline {
  /** The value that the outline was read from. */
  readonly field: Field;
  /** Lower-left corner of its box at the origin. */
  readonly outer: Contour;
  /** Cut-outs that the same drawing or path shows. */
  readonly inner: readonly Contour[];
  readonly rectangular: boolean;
  readonly width: number;
  readonly height: number;
  readonly finishedWidth: number;
  readonly finishedHeight: number;
  readonly edgeBands: Sides;
  /** Of an outline from a drawing or a path; null for the other kinds. */
  readonly drawing: OutlineDrawing | null;
  /** Where holes, cut-outs and pockets are counted from, in words. */
  readonly holesFrom: typeof FROM_CORNER | typeof AS_POINTS;
  /** To be added to the coordinates of holes and cut-outs. */
  readonly shift: Point;
  /** To be added to the coordinates of a cut-out path without `at`, its y axis turned over. */
  readonly pathShift: Point;
}

/** What a drawing shows beside the outline, and how to tell a place in it. */
export interface OutlineDrawing {
  /** Centres of through holes, as the outline counts. */
  readonly holes: readonly DrawnHole[];
  readonly frame: Frame;
  /** From the coordinates of the drawing to those of the outline. */
  readonly shift: Point;
}

const FROM_CORNER = 'from the lower-left corner of the finished part';
const AS_POINTS = 'in the coordinates of the points';

const TRUE_SHAPE: LengthRange = { min: 1, max: MAX_SHAPE_SPAN };

/** The outline of a part; `kind` says which of the forms it has. Null after a problem. */
export function readOutline(
  part: Field,
  kind: Exclude<OutlineKind, 'matched'>,
  reading: OutlineReading,
): Outline | null {
  switch (kind) {
    case 'size':
      return readRectangle(part, child(part, 'size'), reading);
    case 'rounded':
      return readRounded(part, reading);
    case 'disc':
      return readDisc(part, reading);
    case 'points':
      return readPoints(part, reading);
    case 'path':
      return readWrittenPath(part, reading);
    case 'outline':
      return readDrawn(part, reading);
  }
}

/** A rectangle of the finished size in `field`, less the edge bands and plus the oversize of the part. */
export function readRectangle(part: Field, field: Field | null, reading: Reading): Outline | null {
  const size = field === null ? null : readSize(field, reading, POSITIVE);
  const edgesField = child(part, 'edges');
  const edgeBands = edgesField === null ? NO_SIDES : readSides(edgesField, reading);
  const oversize = readOversize(part, reading);
  if (field === null || size === null || edgeBands === null || oversize === null) return null;
  const [finishedWidth, finishedHeight] = size;
  const { left, right, bottom, top } = edgeBands;
  const width = finishedWidth - left - right + 2 * oversize;
  const height = finishedHeight - bottom - top + 2 * oversize;
  if (finishedWidth <= left + right || finishedHeight <= bottom + top) {
    const message = `the edge bands take all of a part of ${showSize(finishedWidth, finishedHeight, reading.unit)}`;
    const hint = 'edges are the thickness of the band on each side';
    reading.report.error(edgesField ?? field, 'edges-too-wide', message, hint);
    return null;
  }
  return {
    field,
    outer: rectangle(0, 0, width, height),
    inner: [],
    rectangular: true,
    width,
    height,
    finishedWidth,
    finishedHeight,
    edgeBands,
    drawing: null,
    holesFrom: FROM_CORNER,
    shift: { x: oversize - left, y: oversize - bottom },
    pathShift: { x: oversize - left, y: oversize - bottom + finishedHeight },
  };
}

function readOversize(part: Field, reading: Reading): number | null {
  const field = child(part, 'oversize');
  return field === null ? 0 : readLength(field, reading, NOT_NEGATIVE);
}

function readRounded(part: Field, reading: Reading): Outline | null {
  const sizeField = child(part, 'size');
  const size = sizeField === null ? null : readSize(sizeField, reading, TRUE_SHAPE);
  const radiusField = child(part, 'radius');
  const radius = radiusField === null ? null : readLength(radiusField, reading, NOT_NEGATIVE);
  const oversize = readOversize(part, reading);
  if (sizeField === null || size === null || radius === null || oversize === null) return null;
  const [width, height] = size;
  if (!radiusFits(radiusField ?? sizeField, radius, size, reading)) return null;
  // A sharp corner stays sharp when the part is cut larger.
  const cutRadius = radius === 0 ? 0 : radius + oversize;
  const [cutWidth, cutHeight] = [width + 2 * oversize, height + 2 * oversize];
  const outer = roundedRectangle(cutWidth, cutHeight, cutRadius);
  return grown({ field: sizeField, outer, width, height, oversize, rectangular: radius === 0 });
}

/** Whether the corners of the given radius leave room for one another; reports it if not. */
export function radiusFits(
  field: Field,
  radius: number,
  [width, height]: readonly [number, number],
  { unit, report }: Reading,
): boolean {
  if (2 * radius <= Math.min(width, height)) return true;
  const message = `radius ${showLength(radius, unit)} is more than half the shorter side of ${showSize(width, height, unit)}`;
  report.error(field, 'out-of-range', message, 'a round end has half the side as its radius');
  return false;
}

function readDisc(part: Field, reading: Reading): Outline | null {
  const field = child(part, 'diameter');
  const diameter = field === null ? null : readLength(field, reading, DISC);
  const oversize = readOversize(part, reading);
  if (field === null || diameter === null || oversize === null) return null;
  const outer = disc(diameter + 2 * oversize);
  return grown({ field, outer, width: diameter, height: diameter, oversize, rectangular: false });
}

const DISC: LengthRange = { min: 2, max: MAX_SHAPE_SPAN };

interface Grown {
  readonly field: Field;
  readonly outer: Contour;
  readonly width: number;
  readonly height: number;
  readonly oversize: number;
  readonly rectangular: boolean;
}

/** An outline of known finished size that is cut larger all round. */
function grown({ field, outer, width, height, oversize, rectangular }: Grown): Outline {
  return {
    field,
    outer,
    inner: [],
    rectangular,
    width: width + 2 * oversize,
    height: height + 2 * oversize,
    finishedWidth: width,
    finishedHeight: height,
    edgeBands: NO_SIDES,
    drawing: null,
    holesFrom: FROM_CORNER,
    shift: { x: oversize, y: oversize },
    pathShift: { x: oversize, y: oversize + height },
  };
}

function readPoints(part: Field, reading: Reading): Outline | null {
  const field = child(part, 'points');
  if (field === null || isFlawed(field)) return null;
  const points = itemsOf(field).map((item) => readPoint(item, reading));
  if (!points.every((point) => point !== null)) return null;
  const isWithin = reading.report.within(field, {
    ...{ limit: 'vertices', code: 'too-complex', found: points.length },
    ...{ subject: 'the outline has', instead: 'leave out points that make no visible difference' },
  });
  if (!isWithin) return null;
  const shape = { outer: polygon(points), inner: [] };
  const outline = drawn(field, { shape, holes: [], frame: null }, reading);
  if (outline === null) return null;
  tellPointsOrigin(part, field, outline.ownShift, reading);
  return { ...outline, holesFrom: AS_POINTS, shift: outline.ownShift };
}

function readWrittenPath(part: Field, reading: Reading): Outline | null {
  const field = child(part, 'path');
  if (field === null || isFlawed(field)) return null;
  const body = readPathText(field, reading);
  const outline = body === null ? null : drawn(field, body, reading);
  return outline === null ? null : { ...outline, pathShift: outline.ownShift };
}

function readDrawn(part: Field, reading: OutlineReading): Outline | null {
  const field = child(part, 'outline');
  if (field === null || isFlawed(field)) return null;
  const { unit, report, drawings } = reading;
  const [own, usual] = [readDrawingUnit(part), reading.drawingUnit];
  if (own === undefined || usual === undefined) return null;
  const said = { own, usual };
  const body = drawings.bodyOf(textOf(field), unit, said, { report, spot: field });
  const outline = body === null ? null : drawn(field, body, reading);
  if (outline !== null && Math.max(outline.width, outline.height) < SUSPICIOUS) {
    const message = `the outline is ${showSize(outline.width, outline.height, unit)} only`;
    report.warning(field, 'drawing-unit', message, 'is the unit of the drawing right?');
  }
  return outline;
}

/** No part is so small, 5 mm, but one of half a metre is where its metres are taken for millimetres. */
const SUSPICIOUS = 5 * UNITS_PER_MM;

/** Of a part, or of the whole file; null where it says none, undefined after a problem. */
export function readDrawingUnit(holder: Field): DrawingUnit | null | undefined {
  const field = child(holder, 'drawing-unit');
  if (field === null) return null;
  return isFlawed(field) ? undefined : readWord<DrawingUnit>(field, 'mm');
}

/** A body with coordinates of its own, moved so that the lower-left corner of its box is the origin. */
function drawn(
  field: Field,
  {
    shape: { outer, inner },
    holes,
    frame,
  }: Omit<DrawnBody, 'frame'> & { readonly frame: Frame | null },
  { unit, report }: Reading,
): (Outline & { readonly ownShift: Point }) | null {
  if (outer.length < 2) {
    report.error(
      field,
      'no-area',
      'the outline has no area',
      'an outline has three corners or more',
    );
    return null;
  }
  const box = boxOfShape({ outer, inner });
  const width = box.maxX - box.minX;
  const height = box.maxY - box.minY;
  if (MAX_SHAPE_SPAN < width || MAX_SHAPE_SPAN < height) {
    const message = `the outline is ${showSize(width, height, unit)}; the longest side of an outline is ${showLength(MAX_SHAPE_SPAN, unit)}`;
    const hint = 'is the unit right? drawing-unit: at the part says that of its drawing';
    report.error(field, 'outline-too-large', message, frame === null ? 'is the unit right?' : hint);
    return null;
  }
  const ownShift = { x: -box.minX, y: -box.minY };
  return {
    field,
    outer: moveContour(outer, ownShift),
    inner: inner.map((contour) => moveContour(contour, ownShift)),
    rectangular: false,
    width,
    height,
    finishedWidth: width,
    finishedHeight: height,
    edgeBands: NO_SIDES,
    drawing: frame === null ? null : { holes: movedHoles(holes, ownShift), frame, shift: ownShift },
    holesFrom: FROM_CORNER,
    shift: { x: 0, y: 0 },
    pathShift: { x: 0, y: height },
    ownShift,
  };
}

function movedHoles(holes: readonly DrawnHole[], by: Point): readonly DrawnHole[] {
  return holes.map(({ x, y, diameter }) => ({ x: x + by.x, y: y + by.y, diameter }));
}
