import type { Point } from '../geometry/point.ts';
import type { Hole } from '../model/part.ts';
import { UNITS_PER_MM } from '../model/units.ts';
import { showLength } from './lengths.ts';
import type { Outline } from './outlines.ts';
import { child, type Field, isFlawed, itemsOf, keySpot, textOf } from './tree.ts';
import {
  type LengthRange,
  POSITIVE,
  type Reading,
  readLength,
  readPoint,
  readWhole,
  readWord,
} from './values.ts';
import { quote } from './visible.ts';

/** A hole in the part's own coordinates, with the place it was read from; the holes of a row share theirs. */
export interface PlacedHole {
  readonly field: Field;
  readonly hole: Hole;
}

const DIAMETER: LengthRange = { min: UNITS_PER_MM / 10, max: 1000 * UNITS_PER_MM };

/** All holes of the part, those of its drawing first, rows taken apart; those with a problem are left out. `thickness` null is not known. */
export function readHoles(
  part: Field,
  outline: Outline,
  thickness: number | null,
  reading: Reading,
): readonly PlacedHole[] {
  const drawn = (outline.drawing?.holes ?? []).map((hole) => ({
    field: outline.field,
    hole: { ...hole, depth: null },
  }));
  const field = child(part, 'holes');
  const listed = field === null || isFlawed(field) ? [] : itemsOf(field);
  const holes = [
    ...drawn,
    ...listed.flatMap((item) =>
      isFlawed(item) ? [] : readItem(item, outline.shift, thickness, reading),
    ),
  ];
  const isWithin = reading.report.within(field ?? outline.field, {
    ...{ limit: 'holes', code: 'too-complex', found: holes.length },
    ...{ subject: 'the part has', instead: '' },
  });
  return isWithin ? holes : [];
}

function readItem(
  item: Field,
  shift: Point,
  thickness: number | null,
  reading: Reading,
): readonly PlacedHole[] {
  const isRow = child(item, 'row') !== null;
  if (!keysFit(item, isRow, reading)) return [];
  const diameterField = child(item, 'diameter');
  const diameter = diameterField === null ? null : readLength(diameterField, reading, DIAMETER);
  const depth = readDepth(child(item, 'depth'), thickness, reading);
  const centres = isRow ? readRow(item, reading) : readSingle(item, reading);
  if (diameter === null || depth === 'unknown') return [];
  return centres.map(({ x, y }) => ({
    field: item,
    hole: { x: x + shift.x, y: y + shift.y, diameter, depth },
  }));
}

/** A single hole has `at`, a row has `pitch`, `from` and `along`. */
function keysFit(item: Field, isRow: boolean, { report }: Reading): boolean {
  const needed = isRow ? ['pitch', 'from', 'along'] : ['at'];
  const wrong = (isRow ? ['at'] : ['pitch', 'from', 'along']).filter(
    (key) => child(item, key) !== null,
  );
  const missing = needed.filter((key) => child(item, key) === null);
  for (const key of wrong) {
    const message = `${key} does not go with a ${isRow ? 'row of holes' : 'single hole'}`;
    const hint = isRow ? 'a row begins at from' : 'a row says row: and how many holes it has';
    report.error(keySpot(item, key), 'misplaced-key', message, hint);
  }
  if (0 < wrong.length) return false;
  for (const key of missing)
    report.error(item, 'missing-key', `${key} is missing here`, `write ${HOLE_HINTS[key] ?? key}`);
  return missing.length === 0;
}

const HOLE_HINTS: Readonly<Record<string, string>> = {
  at: 'at: and the centre of the hole, such as [50, 40]; a row says row, pitch, from and along',
  pitch: 'pitch: and the distance between two centres, such as 32',
  from: 'from: and the centre of the first hole, such as [37, 60]',
  along: 'along: length, or along: width',
};

function readSingle(item: Field, reading: Reading): readonly Point[] {
  const field = child(item, 'at');
  const at = field === null ? null : readPoint(field, reading);
  return at === null ? [] : [at];
}

function readRow(item: Field, reading: Reading): readonly Point[] {
  const count = readWhole(child(item, 'row'));
  const pitchField = child(item, 'pitch');
  const pitch = pitchField === null ? null : readLength(pitchField, reading, POSITIVE);
  const fromField = child(item, 'from');
  const from = fromField === null ? null : readPoint(fromField, reading);
  const along = child(item, 'along');
  if (count === null || pitch === null || from === null) return [];
  if (along === null || isFlawed(along)) return [];
  const alongLength = readWord<'length' | 'width'>(along, 'length') === 'length';
  return Array.from({ length: count }, (_, i) => ({
    x: from.x + (alongLength ? i * pitch : 0),
    y: from.y + (alongLength ? 0 : i * pitch),
  }));
}

/** Null goes through; a depth of exactly the thickness does too. */
function readDepth(
  field: Field | null,
  thickness: number | null,
  reading: Reading,
): number | null | 'unknown' {
  if (field === null) return null;
  if (isFlawed(field)) return 'unknown';
  const word = textOf(field);
  if (word === 'through') return null;
  if (/^[a-z]+$/i.test(word)) {
    const message = `depth cannot be ${quote(word)}`;
    reading.report.error(field, 'unknown-word', message, 'write through, or a length');
    return 'unknown';
  }
  const depth = readLength(field, reading, POSITIVE);
  if (depth === null) return 'unknown';
  if (thickness === null || depth < thickness) return depth;
  if (depth === thickness) return null;
  const { unit, report } = reading;
  const message = `a hole of depth ${showLength(depth, unit)} in stock of ${showLength(thickness, unit)}`;
  report.error(field, 'hole-too-deep', message, 'write depth: through if it goes through');
  return 'unknown';
}
