import type { LengthPart } from '../model/part.ts';
import { clearStretches, type Material } from '../model/stock.ts';
import { showLength } from './lengths.ts';
import { child, type Field, keySpot, keysOf } from './tree.ts';
import { ALONG_BOARD, type Reading, readLength, readWhole } from './values.ts';

/** What every kind of part has in common, as read. */
export interface Common {
  readonly name: string;
  readonly group: string | null;
  readonly note: string | null;
  readonly material: Material | null;
}

const ALLOWED = ['name', 'material', 'length', 'count', 'note', 'group', 'hardware'];

/** A part that is cut to length from boards, without its index; null after a problem. */
export function readLengthPart(item: Field, common: Common, reading: Reading): LengthPart | null {
  const sound = refuseKeys(item, ALLOWED, 'a part that has a length', reading);
  const field = child(item, 'length');
  const length = field === null ? null : readLength(field, reading, ALONG_BOARD);
  const { name, group, note, material } = common;
  if (material === null || length === null) return null;
  if (material.boards.length === 0) {
    const message = `${material.id} has no boards to cut a length from`;
    const hint = `write boards: [{ length: 2400 }] under ${material.id}, or size in place of length`;
    reading.report.error(keySpot(item, 'length'), 'no-boards', message, hint);
    return null;
  }
  const longest = Math.max(
    0,
    ...material.boards.flatMap((board) => clearStretches(board).map(({ from, to }) => to - from)),
  );
  if (length > longest) {
    const show = (value: number) => showLength(value, reading.unit);
    const message = `${name}, ${show(length)}, is longer than any clear stretch of a board of ${material.id}, ${show(longest)}`;
    const hint =
      'is the length right, and the unit? ends that are trimmed and defects are taken off';
    reading.report.error(keySpot(item, 'length'), 'fits-no-board', message, hint);
    return null;
  }
  const count = readWhole(child(item, 'count')) ?? 1;
  const place = (name === '' ? item : keySpot(item, 'name')).place ?? item.place;
  if (!sound) return null;
  return { index: 0, name, material: material.index, group, note, count, length, place };
}

/** Whether a part has only the allowed keys; the others are reported. */
export function refuseKeys(
  item: Field,
  allowed: readonly string[],
  what: string,
  { report }: Reading,
): boolean {
  const misplaced = keysOf(item).filter((key) => !allowed.includes(key));
  for (const key of misplaced) {
    const message = `${key} does not go with ${what}`.replace(/,$/, '');
    const hint = `it has ${allowed.join(', ')}; outlines and their keys are for parts from sheets`;
    report.error(keySpot(item, key), 'misplaced-key', message, hint);
  }
  return misplaced.length === 0;
}
