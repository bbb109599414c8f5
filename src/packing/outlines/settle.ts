import { type Crowd, moveEntry } from './crowd.ts';
import { placeOf, rangeOf } from './probe.ts';
import { coversOf } from './slide-on-lines.ts';

/** Each round slides to the left and then down. */
const ROUNDS = 2;

/**
 * Slides the bodies of a legal crowd to the left and down until they touch, those further left or further down first.
 *
 * Idea: separation ends as soon as nothing overlaps and leaves gaps of no use. On the level or upright line on which a body may slide, the
 * nearest end of a forbidden interval before it is an exact contact.
 * Cost: a pass over the bodies of a sheet for each body, direction and round.
 */
export function settle(crowd: Crowd): void {
  for (let turn = 0; turn < 2 * ROUNDS; turn++) {
    const level = turn % 2 === 0;
    const along = level ? crowd.x : crowd.y;
    const order = Array.from({ length: crowd.count }, (_, i) => i);
    order.sort((a, b) => (along[a] as number) - (along[b] as number) || a - b);
    for (const i of order) slide(crowd, i, level);
  }
}

function slide(crowd: Crowd, i: number, level: boolean): void {
  const place = placeOf(crowd, i);
  const range = rangeOf(crowd, i, place.sheet, place.orientation);
  if (range === null) return;
  const from = level ? place.x : place.y;
  let to = level ? range.minX : range.minY;
  for (const { high } of coversOf(crowd, i, place, level)) if (high <= from && high > to) to = high;
  if (to < from) moveEntry(crowd, i, level ? { ...place, x: to } : { ...place, y: to });
}
