import type { Point } from '../geometry/point.ts';
import { showPlace } from './lengths.ts';
import { child, type Field, isFlawed, itemsOf } from './tree.ts';
import type { Reading } from './values.ts';

const PLACED = ['holes', 'cut-outs', 'pockets'] as const;

/**
 * What is in a part with points is written in their coordinates, in every other part from its lower-left corner. The two are
 * the same only where that corner of the points is at 0; elsewhere it is said, because a hole in the wrong place is scrap.
 * `shift` is what brings that corner to 0.
 */
export function tellPointsOrigin(
  part: Field,
  points: Field,
  shift: Point,
  { unit, report }: Reading,
): void {
  const counted = PLACED.filter((key) => countsByPoints(child(part, key)));
  if (counted.length === 0 || (shift.x === 0 && shift.y === 0)) return;
  const message = `the ${counted.join(' and ')} of the part count in the coordinates of its points, in which its lower-left corner is at ${showPlace({ x: 0 - shift.x, y: 0 - shift.y }, unit)}`;
  const hint =
    'right if they are written so; if they are measured from the corner, let the points begin at [0, 0]';
  report.warning(points, 'points-origin', message, hint);
}

/** A path without a place of its own counts from the upper left corner, whatever the points are. */
function countsByPoints(list: Field | null): boolean {
  if (list === null || isFlawed(list)) return false;
  return itemsOf(list).some((item) => child(item, 'path') === null || child(item, 'at') !== null);
}
