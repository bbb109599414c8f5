import type { Lumber, LumberPart, OwnBoards, TallyRule, WasteOf } from '../model/lumber.ts';
import type { Family } from '../model/stock.ts';
import type { Currency } from './currencies.ts';
import { refuseKeys } from './length-parts.ts';
import { showLength, showSize } from './lengths.ts';
import { type Quantity, readPricePer, readQuantity } from './quantities.ts';
import { child, type Field, isFlawed, itemsOf, keySpot, textOf } from './tree.ts';
import { POSITIVE, type Reading, readLength, readSize, readWhole, readWord } from './values.ts';

const MEASURES = {
  bf: ['bf', 'board foot', 'board feet', 'bd ft', 'fbm'],
  m3: ['m3', 'm³', 'cubic metre', 'cubic meter'],
} as const;

const WASTE: Quantity = {
  units: { '': 1, '%': 0.01 },
  usual: '',
  min: 0,
  max: 3,
  range: 'it must be between 0 and 300 %',
  right: 'a share such as 30 % or 0.3',
};

/** What is known of a material before its lumber is read. */
export interface LumberMaterial extends Pick<Lumber, 'id' | 'name' | 'thickness' | 'place'> {
  readonly family: Family;
}

/** Rough lumber without its parts; null after a problem. */
export function readLumber(
  field: Field,
  { id, name, thickness, place, family }: LumberMaterial,
  reading: Reading & { readonly currency: Currency },
): Lumber | null {
  if (isFlawed(field)) return null;
  const rough = readRough(field, thickness, reading);
  const longestField = child(field, 'length');
  const longest = longestField === null ? undefined : readLength(longestField, reading, POSITIVE);
  const priceField = child(field, 'price');
  const price =
    priceField === null
      ? { cents: null, measure: reading.unit === 'in' ? ('bf' as const) : ('m3' as const) }
      : readPricePer(priceField, reading, reading.currency, MEASURES);
  const waste = readWaste(field, reading);
  const onHand = readOwnBoards(child(field, 'on-hand'), reading);
  if (rough === null || longest === null || price === null) return null;
  if (waste === null || onHand === null) return null;
  const usual: TallyRule = family === 'softwood' ? 'softwood' : 'hardwood';
  return {
    id,
    name,
    thickness,
    rough,
    longest: longest ?? null,
    measure: price.measure,
    tally: readWord<TallyRule>(child(field, 'tally'), usual),
    priceCents: price.cents,
    waste,
    onHand,
    parts: [],
    place,
  };
}

const PART_KEYS = ['name', 'material', 'size', 'grain', 'count', 'note', 'group', 'hardware'];

/** A part that is made from lumber; null after a problem. The first number of its size runs along the grain unless it says otherwise. */
export function readLumberPart(
  item: Field,
  common: Pick<LumberPart, 'name' | 'group' | 'note'>,
  { id, longest }: Lumber,
  reading: Reading,
): LumberPart | null {
  const sound = refuseKeys(item, PART_KEYS, `a part of ${id}, which is lumber,`, reading);
  const field = child(item, 'size');
  if (field === null) {
    const hint = 'write size: and its finished length along the grain x its width';
    if (sound) reading.report.error(item, 'no-outline', 'the part has no size', hint);
    return null;
  }
  const size = readSize(field, reading, POSITIVE);
  if (size === null || !sound) return null;
  const isAcross = readWord<string>(child(item, 'grain'), 'along') === 'across';
  const [length, width] = isAcross ? [size[1], size[0]] : size;
  if (longest !== null && longest < length) {
    const message = `${common.name}, ${showSize(length, width, reading.unit)} along and across the grain, is longer than the boards of ${id}, ${showLength(longest, reading.unit)}`;
    const hint = 'is the size right, and which of its numbers runs along the grain?';
    reading.report.error(field, 'out-of-range', message, hint);
    return null;
  }
  const place = (common.name === '' ? item : keySpot(item, 'name')).place ?? item.place;
  const { name, group, note } = common;
  return { name, group, note, count: readWhole(child(item, 'count')) ?? 1, length, width, place };
}

function readRough(lumber: Field, thickness: number, reading: Reading): number | null {
  const field = child(lumber, 'rough');
  const rough = field === null ? null : readLength(field, reading, POSITIVE);
  if (field === null || rough === null || thickness <= rough) return rough;
  const message = `rough boards of ${showLength(rough, reading.unit)} do not give a thickness of ${showLength(thickness, reading.unit)}`;
  const hint = 'thickness is that of the finished parts, rough that of the boards as bought';
  reading.report.error(field, 'out-of-range', message, hint);
  return null;
}

/** Which of its two meanings an allowance has is never guessed. */
function readWaste(lumber: Field, reading: Reading): Lumber['waste'] | null {
  const field = child(lumber, 'waste');
  const ofField = child(lumber, 'waste-of');
  if (field === null) return { share: 0, of: readWord<WasteOf>(ofField, 'net') };
  const share = readQuantity(field, reading, WASTE);
  if (share === null || (ofField !== null && isFlawed(ofField))) return null;
  if (ofField === null) {
    const message = `waste of ${textOf(field)} can mean two things`;
    const hint = `write waste-of: net to add it to what the parts take, or waste-of: gross where so much of what is bought is lost`;
    reading.report.error(field, 'missing-key', message, hint);
    return null;
  }
  const of = readWord<WasteOf>(ofField, 'net');
  if (of === 'net' || share < 1) return { share, of };
  const message = `waste is ${textOf(field)} of what is bought; it must be less than all of it`;
  reading.report.error(field, 'out-of-range', message, 'is waste-of: net meant?');
  return null;
}

function readOwnBoards(field: Field | null, reading: Reading): readonly OwnBoards[] | null {
  if (field === null) return [];
  if (isFlawed(field)) return null;
  const boards = itemsOf(field).map((item): OwnBoards | null => {
    const sizeField = child(item, 'size');
    const size = sizeField === null ? null : readSize(sizeField, reading, POSITIVE);
    if (size === null) return null;
    return { length: size[0], width: size[1], count: readWhole(child(item, 'count')) ?? 1 };
  });
  return boards.every((board) => board !== null) ? boards : null;
}
