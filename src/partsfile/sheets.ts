import type { Box } from '../geometry/box.ts';
import { boxContains } from '../geometry/box.ts';
import { offsetRegion } from '../geometry/offset.ts';
import { NO_SIDES, type Sides } from '../model/part.ts';
import type { KeepOut, SheetStock } from '../model/stock.ts';
import { type Extent, readBoundary } from './boundary.ts';
import type { Currency } from './currencies.ts';
import { showSize, usualName } from './lengths.ts';
import { readLifted } from './lifted.ts';
import { readPrice } from './quantities.ts';
import { child, type Field, isFlawed, itemsOf, keySpot } from './tree.ts';
import {
  NOT_NEGATIVE,
  POSITIVE,
  type Reading,
  readLength,
  readName,
  readPoint,
  readSides,
  readSize,
  readWhole,
  readWord,
} from './values.ts';

/** What reading a sheet needs beyond its own lines. */
export interface SheetReading extends Reading {
  readonly currency: Currency;
  /** Whether parts with a grain are cut from this material. */
  readonly grained: boolean;
}

export function readSheet(field: Field, index: number, reading: SheetReading): SheetStock | null {
  if (isFlawed(field)) return null;
  const extent = readExtent(field, reading);
  const nameField = child(field, 'name');
  const name = nameField === null ? '' : readName(nameField, reading);
  const priceField = child(field, 'price');
  const price = priceField === null ? undefined : readPrice(priceField, reading, reading.currency);
  const trim = readTrim(field, reading);
  const onHand = child(field, 'on-hand');
  if (extent === null) return null;
  const { length, width, boundary } = extent;
  const grainAxis = readGrain(field, { length, width }, reading);
  const keepOuts = readKeepOuts(field, extent, reading);
  const lifted = readLifted(field, extent, reading);
  if (name === null || price === null || trim === null) return null;
  if (keepOuts === null || lifted === null) return null;
  if (!trimFits(field, { ...extent, trim }, reading)) return null;
  return {
    index,
    name: name === '' ? usualName(length, width, reading.unit) : name,
    length,
    width,
    boundary,
    trim,
    grainAxis,
    keepOuts,
    lifted,
    priceCents: price ?? null,
    onHand: onHand === null ? null : readWhole(onHand),
    pack: readWhole(child(field, 'pack')) ?? 1,
    rack: null,
    place: field.place,
  };
}

interface SheetSize {
  readonly length: number;
  readonly width: number;
}

/** A rectangular sheet, or an odd-shaped one. */
function readExtent(sheet: Field, reading: Reading): Extent | null {
  const size = child(sheet, 'size');
  const points = child(sheet, 'points');
  if (size !== null && points !== null) {
    const message = 'the sheet has both size and points';
    reading.report.error(keySpot(sheet, 'points'), 'two-outlines', message, KEEP_ONE);
    return null;
  }
  if (points !== null) return readBoundary(points, reading);
  if (size === null) {
    const hint = 'write size: 2440 x 1220, or points: and the corners of an odd-shaped offcut';
    reading.report.error(sheet, 'missing-key', 'size is missing here', hint);
    return null;
  }
  const read = readSize(size, reading, POSITIVE);
  if (read === null) return null;
  const [length, width] = read;
  return { length, width, boundary: null, shift: { x: 0, y: 0 } };
}

const KEEP_ONE = 'keep the one that is meant; points give the size by themselves';

function readTrim(sheet: Field, reading: Reading): Sides | null {
  const field = child(sheet, 'trim');
  if (field === null) return NO_SIDES;
  if (field.tree.kind === 'mapping') {
    if (child(sheet, 'points') === null) return readSides(field, reading);
    const message = 'the trim of a sheet with points is one length';
    const hint = 'write trim: 10, for instance: it is kept along every edge of the sheet';
    reading.report.error(field, 'trim-uneven', message, hint);
    return null;
  }
  const all = readLength(field, reading, NOT_NEGATIVE);
  return all === null ? null : { left: all, right: all, bottom: all, top: all };
}

function trimFits(
  sheet: Field,
  { length, width, boundary, trim }: Extent & { readonly trim: Sides },
  { unit, report }: Reading,
): boolean {
  const leaves =
    boundary === null || trim.left === 0
      ? trim.left + trim.right < length && trim.bottom + trim.top < width
      : offsetRegion({ outer: boundary, holes: [] }, -trim.left, 'mitre').length > 0;
  if (leaves) return true;
  const message = `the trim leaves nothing of a sheet of ${showSize(length, width, unit)}`;
  const hint = 'trim is the border that is cut off on each side';
  report.error(child(sheet, 'trim') ?? sheet, 'trim-too-wide', message, hint);
  return false;
}

type SheetGrain = 'first' | 'second' | 'long-side' | 'short-side' | 'none';

/** Grain is scrap when wrong, so it is never guessed: a square sheet has no longer side to run along. */
function readGrain(
  sheet: Field,
  { length, width }: SheetSize,
  { unit, report, grained }: SheetReading,
): 'x' | 'y' | null {
  const field = child(sheet, 'grain');
  if (field !== null && isFlawed(field)) return null;
  switch (readWord<SheetGrain>(field, 'long-side')) {
    case 'none':
      return null;
    case 'first':
      return 'x';
    case 'second':
      return 'y';
    case 'short-side':
      if (length !== width) return length < width ? 'x' : 'y';
      break;
    default:
      if (length !== width) return length < width ? 'y' : 'x';
  }
  if (field !== null || grained) {
    const message = `a sheet of ${showSize(length, width, unit)} has no longer side to tell the grain by`;
    const hint = 'write grain: first or grain: second, the number of size that it runs along';
    report.error(field ?? sheet, 'grain-unclear', message, hint);
  }
  return null;
}

function readKeepOuts(sheet: Field, extent: Extent, reading: Reading): readonly KeepOut[] | null {
  const field = child(sheet, 'keep-out');
  if (field === null) return [];
  if (isFlawed(field)) return null;
  const keepOuts = itemsOf(field).map((item) => readKeepOut(item, extent, reading));
  return keepOuts.every((keepOut) => keepOut !== null) ? keepOuts : null;
}

function readKeepOut(field: Field, extent: Extent, reading: Reading): KeepOut | null {
  const { length, width, boundary, shift } = extent;
  const atField = child(field, 'at');
  const point = atField === null ? null : readPoint(atField, reading);
  const sizeField = child(field, 'size');
  const size = sizeField === null ? null : readSize(sizeField, reading, POSITIVE);
  const whyField = child(field, 'why');
  const why = whyField === null ? 'keep out' : readName(whyField, reading);
  if (point === null || size === null || why === null) return null;
  const at = { x: point.x + shift.x, y: point.y + shift.y };
  const box: Box = { minX: at.x, minY: at.y, maxX: at.x + size[0], maxY: at.y + size[1] };
  if (boxContains({ minX: 0, minY: 0, maxX: length, maxY: width }, box)) return { box, why };
  const message = `the keep-out leaves the sheet of ${showSize(length, width, reading.unit)}`;
  const hint =
    boundary === null
      ? 'its lower-left corner (at) counts from the lower-left corner of the whole sheet'
      : 'its lower-left corner (at) is written in the coordinates of the points';
  reading.report.error(field, 'keep-out-outside', message, hint);
  return null;
}
