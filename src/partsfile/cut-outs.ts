import type { Point } from '../geometry/point.ts';
import { boxOfShape } from '../geometry/pose.ts';
import type { Contour } from '../geometry/shape.ts';
import { MAX_SHAPE_SPAN } from '../model/units.ts';
import { disc, moveContour, polygon, roundedRectangle } from './contours.ts';
import { type Outline, radiusFits } from './outlines.ts';
import { readPathText } from './path-text.ts';
import { child, type Field, isFlawed, itemsOf, keySpot } from './tree.ts';
import {
  type LengthRange,
  NOT_NEGATIVE,
  type Reading,
  readLength,
  readPoint,
  readSize,
} from './values.ts';

/** A cut-out in the part's own coordinates, with the place it was read from. */
export interface CutOut {
  readonly field: Field;
  readonly contour: Contour;
}

const OPENING: LengthRange = { min: 2, max: MAX_SHAPE_SPAN };

/** The cut-outs that the part lists beside its outline; those with a problem are left out. */
export function readCutOuts(part: Field, outline: Outline, reading: Reading): readonly CutOut[] {
  const field = child(part, 'cut-outs');
  if (field === null) return [];
  return itemsOf(field).flatMap((item) => {
    const contour = readOpening(item, outline, { ...reading, what: 'cut-out' });
    return contour === null ? [] : [{ field: item, contour }];
  });
}

export interface OpeningReading extends Reading {
  readonly what: 'cut-out' | 'pocket';
}

type CutOutKind = 'size' | 'diameter' | 'path' | 'points';

const KINDS: readonly CutOutKind[] = ['size', 'diameter', 'path', 'points'];

/** The contour of a cut-out or a pocket in the part's own coordinates; null after a problem. */
export function readOpening(
  item: Field,
  outline: Outline,
  reading: OpeningReading,
): Contour | null {
  if (isFlawed(item)) return null;
  const [kind, second] = KINDS.filter((key) => child(item, key) !== null);
  const { report, what } = reading;
  if (kind === undefined) {
    const hint = 'write at: [100, 80], size: 200 x 60, or a diameter, a path or points';
    report.error(item, 'no-outline', `the ${what} has no size, diameter, path or points`, hint);
    return null;
  }
  if (second !== undefined) {
    const message = `the ${what} has both ${kind} and ${second}`;
    report.error(keySpot(item, second), 'two-outlines', message, 'keep the one that is meant');
    return null;
  }
  if (!keysFit(item, kind, reading)) return null;
  const atField = child(item, 'at');
  const at = atField === null ? null : readPoint(atField, reading);
  if (atField !== null && at === null) return null;
  const value = child(item, kind);
  if (value === null || isFlawed(value)) return null;
  const { shift, pathShift } = outline;
  switch (kind) {
    case 'size':
      return moved(readRectangle(item, value, reading), at, shift);
    case 'diameter':
      return readRound(value, at, shift, reading);
    case 'points':
      return moved(readCorners(value, reading), { x: 0, y: 0 }, shift);
    case 'path':
      return moved(
        readDrawnOpening(value, at !== null, reading),
        at ?? pathShift,
        at === null ? null : shift,
      );
  }
}

/** Whether `at` and `radius` stand with the kinds they go with, and `at` is there where it must be. */
function keysFit(item: Field, kind: CutOutKind, { report, what }: OpeningReading): boolean {
  const radius = child(item, 'radius') !== null && kind !== 'size';
  if (radius)
    report.error(
      keySpot(item, 'radius'),
      'misplaced-key',
      `radius does not go with a ${what} that has a ${kind}`,
      'it rounds the corners of a size',
    );
  const at = child(item, 'at') !== null;
  const needsAt = kind === 'size' || kind === 'diameter';
  if (needsAt && !at)
    report.error(
      item,
      'missing-key',
      'at is missing here',
      kind === 'size'
        ? 'write at: and the lower-left corner, such as [100, 80]'
        : 'write at: and the centre, such as [100, 80]',
    );
  if (kind === 'points' && at)
    report.error(
      keySpot(item, 'at'),
      'misplaced-key',
      `at does not go with a ${what} that has points`,
      'points have their place in themselves',
    );
  return !radius && (kind === 'path' || at === needsAt);
}

function moved(contour: Contour | null, at: Point | null, shift: Point | null): Contour | null {
  if (contour === null || at === null) return null;
  return moveContour(contour, { x: at.x + (shift?.x ?? 0), y: at.y + (shift?.y ?? 0) });
}

function readRectangle(item: Field, value: Field, reading: Reading): Contour | null {
  const size = readSize(value, reading, OPENING);
  const radiusField = child(item, 'radius');
  const radius = radiusField === null ? 0 : readLength(radiusField, reading, NOT_NEGATIVE);
  if (size === null || radius === null) return null;
  if (!radiusFits(radiusField ?? value, radius, size, reading)) return null;
  return roundedRectangle(size[0], size[1], radius);
}

function readRound(value: Field, at: Point | null, shift: Point, reading: Reading): Contour | null {
  const diameter = readLength(value, reading, OPENING);
  if (diameter === null || at === null) return null;
  const radius = Math.floor(diameter / 2);
  return moved(disc(diameter), { x: at.x - radius, y: at.y - radius }, shift);
}

function readCorners(value: Field, reading: Reading): Contour | null {
  const points = itemsOf(value).map((point) => readPoint(point, reading));
  return points.every((point) => point !== null) ? polygon(points) : null;
}

/** With `at` the path is moved so that its box begins at the origin, else it keeps its own coordinates. */
function readDrawnOpening(
  value: Field,
  toOrigin: boolean,
  reading: OpeningReading,
): Contour | null {
  const body = readPathText(value, reading);
  if (body === null) return null;
  const { outer, inner } = body.shape;
  if (0 < inner.length) {
    const message = `the ${reading.what} has several closed lines inside one another`;
    const hint =
      reading.what === 'cut-out'
        ? 'what lies inside a cut-out falls out with it: list each opening by itself'
        : 'draw one closed line for each pocket';
    reading.report.error(value, 'several-outlines', message, hint);
    return null;
  }
  const box = boxOfShape(body.shape);
  return toOrigin ? moveContour(outer, { x: -box.minX, y: -box.minY }) : outer;
}
