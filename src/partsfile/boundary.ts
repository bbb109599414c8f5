import { ringArea } from '../geometry/area.ts';
import { boxOf } from '../geometry/box.ts';
import type { Point } from '../geometry/point.ts';
import type { Ring } from '../geometry/shape.ts';
import { firstCrossing } from '../geometry/simple.ts';
import { MAX_SHAPE_SPAN } from '../model/units.ts';
import { polygon } from './contours.ts';
import { isFlat } from './drawn-shape.ts';
import { showLength, showSize } from './lengths.ts';
import { type Field, isFlawed, itemsOf } from './tree.ts';
import { type Reading, readPoint } from './values.ts';

/** Size and form of a sheet. */
export interface Extent {
  readonly length: number;
  readonly width: number;
  /** Counter-clockwise, its box at the origin; null for a rectangle. */
  readonly boundary: readonly Point[] | null;
  /** To be added to the coordinates of keep-outs. */
  readonly shift: Point;
}

/** The corners of an odd-shaped sheet, in either turning direction; null after a problem. */
export function readBoundary(field: Field, reading: Reading): Extent | null {
  if (isFlawed(field)) return null;
  const points = itemsOf(field).map((item) => readPoint(item, reading));
  if (!points.every((point) => point !== null)) return null;
  const ring = polygon(points).map(({ x, y }) => ({ x, y }));
  if (!isSound(field, ring, reading)) return null;
  const box = boxOf(ring);
  const shift = { x: -box.minX, y: -box.minY };
  const forward = ringArea(ring) < 0 ? [...ring].reverse() : ring;
  const boundary = forward.map(({ x, y }) => ({ x: x + shift.x, y: y + shift.y }));
  const length = box.maxX - box.minX;
  const width = box.maxY - box.minY;
  // A rectangle with a corner in the middle of a side is one as well.
  const whole = ringArea(boundary) === length * width;
  return { length, width, boundary: whole ? null : boundary, shift };
}

function isSound(field: Field, ring: Ring, { unit, report }: Reading): boolean {
  const isWithin = report.within(field, {
    ...{ limit: 'sheet-corners', code: 'too-complex', found: ring.length },
    ...{ subject: 'the sheet has', instead: 'leave out corners that make no difference' },
  });
  if (!isWithin) return false;
  if (isFlat(ring)) {
    const hint = 'a sheet has three corners or more, not all in one line';
    report.error(field, 'no-area', 'the sheet has no area', hint);
    return false;
  }
  const { minX, minY, maxX, maxY } = boxOf(ring);
  if (MAX_SHAPE_SPAN < maxX - minX || MAX_SHAPE_SPAN < maxY - minY) {
    const size = showSize(maxX - minX, maxY - minY, unit);
    const message = `the sheet is ${size}; the longest side of a sheet with points is ${showLength(MAX_SHAPE_SPAN, unit)}`;
    report.error(field, 'outline-too-large', message, 'is the unit right?');
    return false;
  }
  const crossing = firstCrossing(ring);
  if (crossing === null) return true;
  const at = [crossing.x, crossing.y].map((c) => showLength(c, unit).replace(/ \S+$/, ''));
  const message = `the edge of the sheet crosses or touches itself at (${at.join(', ')})`;
  report.error(field, 'self-crossing', message, 'list the corners in order, once round');
  return false;
}
