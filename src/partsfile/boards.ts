import type { FileUnit } from '../model/job.ts';
import type { BoardStock, Defect } from '../model/stock.ts';
import { fromMm, UNITS_PER_INCH } from '../model/units.ts';
import type { Currency } from './currencies.ts';
import { showLength } from './lengths.ts';
import { readPrice } from './quantities.ts';
import { child, type Field, isFlawed, itemsOf, keySpot } from './tree.ts';
import { ALONG_BOARD, type Reading, readLength, readName, readWhole } from './values.ts';

/** What reading a board needs beyond its own lines. */
export interface BoardReading extends Reading {
  readonly currency: Currency;
}

/** Common practice, no source. */
const USUAL_LEAST: Readonly<Record<FileUnit, number>> = {
  mm: fromMm(300),
  in: 12 * UNITS_PER_INCH,
};

const FROM_NOTHING = { ...ALONG_BOARD, min: 0 };

/** The boards of a material, none where it has no such list; null where any of them has a problem. */
export function readBoards(material: Field, reading: BoardReading): readonly BoardStock[] | null {
  const field = child(material, 'boards');
  if (field === null) return [];
  if (isFlawed(field)) return null;
  const boards = itemsOf(field).map((item, index) => readBoard(item, index, reading));
  return boards.every((board) => board !== null) ? boards : null;
}

/** Which ends of boards are worth keeping; null after a problem. */
export function readLeastLeftover(material: Field, reading: Reading): number | null {
  const field = child(material, 'least-leftover');
  if (field === null) return USUAL_LEAST[reading.unit];
  if (child(material, 'boards') !== null) return readLength(field, reading, FROM_NOTHING);
  const message = 'least-leftover goes with boards, and the material has none';
  const hint = 'take it out; offcuts of sheets are kept from 300 x 150 mm';
  reading.report.error(keySpot(material, 'least-leftover'), 'misplaced-key', message, hint);
  return null;
}

function readBoard(field: Field, index: number, reading: BoardReading): BoardStock | null {
  if (isFlawed(field)) return null;
  const lengthField = child(field, 'length');
  const length = lengthField === null ? null : readLength(lengthField, reading, ALONG_BOARD);
  const nameField = child(field, 'name');
  const name = nameField === null ? '' : readName(nameField, reading);
  const priceField = child(field, 'price');
  const price = priceField === null ? undefined : readPrice(priceField, reading, reading.currency);
  const trimField = child(field, 'trim');
  const endTrim = trimField === null ? 0 : readLength(trimField, reading, FROM_NOTHING);
  const onHand = child(field, 'on-hand');
  if (length === null) return null;
  const defects = readDefects(child(field, 'defects'), length, reading);
  if (name === null || price === null || endTrim === null || defects === null) return null;
  if (!trimFits(trimField ?? field, { length, endTrim }, reading)) return null;
  return {
    index,
    name: name === '' ? showLength(length, reading.unit).replace(/ [a-z]+$/, '') : name,
    length,
    endTrim,
    defects,
    priceCents: price ?? null,
    onHand: onHand === null ? null : readWhole(onHand),
    place: field.place,
  };
}

function trimFits(
  field: Field,
  { length, endTrim }: Pick<BoardStock, 'length' | 'endTrim'>,
  { unit, report }: Reading,
): boolean {
  if (2 * endTrim < length) return true;
  const message = `the trim leaves nothing of a board of ${showLength(length, unit)}`;
  const hint = 'trim is what is cut off each end before anything else';
  report.error(field, 'trim-too-wide', message, hint);
  return false;
}

/** In the order in which they lie along the board. */
function readDefects(
  field: Field | null,
  length: number,
  reading: Reading,
): readonly Defect[] | null {
  if (field === null) return [];
  if (isFlawed(field)) return null;
  const defects = itemsOf(field).map((item) => readDefect(item, length, reading));
  if (!defects.every((defect) => defect !== null)) return null;
  return defects.toSorted((a, b) => a.from - b.from || a.to - b.to);
}

function readDefect(field: Field, boardLength: number, reading: Reading): Defect | null {
  if (isFlawed(field)) return null;
  const atField = child(field, 'at');
  const from = atField === null ? null : readLength(atField, reading, FROM_NOTHING);
  const lengthField = child(field, 'length');
  const length = lengthField === null ? null : readLength(lengthField, reading, ALONG_BOARD);
  const whyField = child(field, 'why');
  const why = whyField === null ? 'defect' : readName(whyField, reading);
  if (from === null || length === null || why === null) return null;
  const to = from + length;
  if (to <= boardLength) return { from, to, why };
  const message = `the defect leaves the board of ${showLength(boardLength, reading.unit)}`;
  const hint = 'where it begins (at) counts from the left end of the whole board';
  reading.report.error(field, 'defect-outside', message, hint);
  return null;
}
