import type { Box } from '../geometry/box.ts';
import { boxContains } from '../geometry/box.ts';
import { NO_SIDES, type Sides } from '../model/part.ts';
import type { KeepOut, SheetStock } from '../model/stock.ts';
import type { Currency } from './currencies.ts';
import { showSize } from './lengths.ts';
import { readPrice } from './quantities.ts';
import { child, type Field, isFlawed, itemsOf } from './tree.ts';
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
  const sizeField = child(field, 'size');
  const size = sizeField === null ? null : readSize(sizeField, reading, POSITIVE);
  const nameField = child(field, 'name');
  const name = nameField === null ? '' : readName(nameField, reading);
  const priceField = child(field, 'price');
  const price = priceField === null ? undefined : readPrice(priceField, reading, reading.currency);
  const trim = readTrim(field, reading);
  const onHand = child(field, 'on-hand');
  if (size === null) return null;
  const [length, width] = size;
  const usual = showSize(length, width, reading.unit).replace(/ [a-z]+$/, '');
  const grainAxis = readGrain(field, { length, width }, reading);
  const keepOuts = readKeepOuts(field, { length, width }, reading);
  if (name === null || price === null || trim === null || keepOuts === null) return null;
  if (!trimFits(field, { length, width, trim }, reading)) return null;
  return {
    index,
    name: name === '' ? usual : name,
    length,
    width,
    trim,
    grainAxis,
    keepOuts,
    priceCents: price ?? null,
    onHand: onHand === null ? null : readWhole(onHand),
    place: field.place,
  };
}

interface SheetSize {
  readonly length: number;
  readonly width: number;
}

function readTrim(sheet: Field, reading: Reading): Sides | null {
  const field = child(sheet, 'trim');
  if (field === null) return NO_SIDES;
  if (field.tree.kind === 'mapping') return readSides(field, reading);
  const all = readLength(field, reading, NOT_NEGATIVE);
  return all === null ? null : { left: all, right: all, bottom: all, top: all };
}

function trimFits(
  sheet: Field,
  { length, width, trim }: SheetSize & { readonly trim: Sides },
  { unit, report }: Reading,
): boolean {
  if (trim.left + trim.right < length && trim.bottom + trim.top < width) return true;
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

function readKeepOuts(sheet: Field, size: SheetSize, reading: Reading): readonly KeepOut[] | null {
  const field = child(sheet, 'keep-out');
  if (field === null) return [];
  if (isFlawed(field)) return null;
  const keepOuts = itemsOf(field).map((item) => readKeepOut(item, size, reading));
  return keepOuts.every((keepOut) => keepOut !== null) ? keepOuts : null;
}

function readKeepOut(field: Field, { length, width }: SheetSize, reading: Reading): KeepOut | null {
  const atField = child(field, 'at');
  const at = atField === null ? null : readPoint(atField, reading);
  const sizeField = child(field, 'size');
  const size = sizeField === null ? null : readSize(sizeField, reading, POSITIVE);
  const whyField = child(field, 'why');
  const why = whyField === null ? 'keep out' : readName(whyField, reading);
  if (at === null || size === null || why === null) return null;
  const box: Box = { minX: at.x, minY: at.y, maxX: at.x + size[0], maxY: at.y + size[1] };
  if (boxContains({ minX: 0, minY: 0, maxX: length, maxY: width }, box)) return { box, why };
  const message = `the keep-out leaves the sheet of ${showSize(length, width, reading.unit)}`;
  const hint = 'its lower-left corner (at) counts from the lower-left corner of the whole sheet';
  reading.report.error(field, 'keep-out-outside', message, hint);
  return null;
}
