import type { Box } from '../geometry/box.ts';
import { boxContains } from '../geometry/box.ts';
import type { Point } from '../geometry/point.ts';
import type { Table, Zone } from '../model/machine.ts';
import { showSize } from './lengths.ts';
import { child, type Field, isFlawed, itemsOf, keySpot } from './tree.ts';
import { POSITIVE, type Reading, readPoint, readSize, readYes } from './values.ts';

/** Where on the table the sheet lies, which zones it has and what of it is masked; null after a problem. */
export function readTablePlaces(
  table: Field | null,
  size: Table['size'],
  reading: Reading,
): Pick<Table, 'sheetAt' | 'zones' | 'masked'> | null {
  const needing = (['sheet-at', 'zones', 'masked'] as const).filter(
    (key) => child(table, key) !== null,
  );
  if (table === null || needing.length === 0)
    return { sheetAt: { x: 0, y: 0 }, zones: [], masked: [] };
  if (size === null) {
    const hint = 'write size: 2500 x 1250, or whatever the vacuum area is';
    const message = `${needing[0]} needs the size of the table`;
    reading.report.error(keySpot(table, needing[0]!), 'missing-key', message, hint);
    return null;
  }
  const sheetAt = readSheetAt(child(table, 'sheet-at'), size, reading);
  const zones = readZones(child(table, 'zones'), size, reading);
  const masked = readBoxes(child(table, 'masked'), size, reading);
  if (sheetAt === null || zones === null || masked === null) return null;
  return { sheetAt, zones, masked };
}

function readSheetAt(
  field: Field | null,
  { length, width }: NonNullable<Table['size']>,
  reading: Reading,
): Point | null {
  if (field === null) return { x: 0, y: 0 };
  const at = readPoint(field, reading);
  if (at === null || (at.x < length && at.y < width)) return at;
  const message = `the sheet would lie beside the table of ${showSize(length, width, reading.unit)}`;
  const hint = 'sheet-at is the place of its lower-left corner on the table';
  reading.report.error(field, 'out-of-range', message, hint);
  return null;
}

function readZones(
  field: Field | null,
  size: NonNullable<Table['size']>,
  reading: Reading,
): readonly Zone[] | null {
  const boxes = readBoxes(field, size, reading);
  if (field === null || boxes === null) return boxes === null ? null : [];
  const items = itemsOf(field);
  const zones = boxes.map((box, i) => ({ box, shut: readYes(child(items[i]!, 'shut')) }));
  if (zones.some(({ shut }) => !shut)) return zones;
  const hint = 'leave shut out for the zones that are open';
  reading.report.error(field, 'out-of-range', 'every zone of the table is shut', hint);
  return null;
}

function readBoxes(
  field: Field | null,
  size: NonNullable<Table['size']>,
  reading: Reading,
): readonly Box[] | null {
  if (field === null) return [];
  if (isFlawed(field)) return null;
  const boxes = itemsOf(field).map((item) => readBox(item, size, reading));
  return boxes.every((box) => box !== null) ? boxes : null;
}

function readBox(
  field: Field,
  { length, width }: NonNullable<Table['size']>,
  reading: Reading,
): Box | null {
  if (isFlawed(field)) return null;
  const atField = child(field, 'at');
  const at = atField === null ? null : readPoint(atField, reading);
  const sizeField = child(field, 'size');
  const size = sizeField === null ? null : readSize(sizeField, reading, POSITIVE);
  if (at === null || size === null) return null;
  const box: Box = { minX: at.x, minY: at.y, maxX: at.x + size[0], maxY: at.y + size[1] };
  if (boxContains({ minX: 0, minY: 0, maxX: length, maxY: width }, box)) return box;
  const message = `it leaves the table of ${showSize(length, width, reading.unit)}`;
  const hint = 'its lower-left corner (at) counts from the lower-left corner of the table';
  reading.report.error(field, 'out-of-range', message, hint);
  return null;
}
