import type { Hardware } from '../model/rates.ts';
import type { Currency } from './currencies.ts';
import { suggest } from './nearest.ts';
import { piecesOf } from './parts.ts';
import { readPrice } from './quantities.ts';
import { child, type Field, isFlawed, itemsOf, textOf } from './tree.ts';
import { plainName, type Reading, readName, readWhole } from './values.ts';
import { quote } from './visible.ts';

/** What costs are read against. */
export interface HardwareReading extends Reading {
  readonly currency: Currency;
  /** The list of parts: hardware may be for one of them, or for a group. */
  readonly parts: Field | null;
}

/** So that sums of money stay exact. */
const MOST_OF_ONE = 100_000;

/** An entry of either list; the count is null where it says none. */
interface Entry extends Omit<Hardware, 'count'> {
  readonly field: Field;
  readonly count: number | null;
}

/**
 * What `costs` lists, then what the parts have; null after a problem. An entry of `costs` that parts name gives them its price, and is itself bought only
 * where it says how many.
 */
export function readHardware(
  list: Field | null,
  reading: HardwareReading,
): readonly Hardware[] | null {
  const groups = groupNames(reading.parts);
  const listed = readEntries(list, null, groups, reading);
  const mounted = (reading.parts === null ? [] : itemsOf(reading.parts)).map((part) =>
    readMounted(part, listed ?? [], reading),
  );
  if (listed === null || mounted.some((each) => each === null)) return null;
  const onParts = mounted.flatMap((each) => each ?? []);
  const named = new Set(onParts.map(({ name }) => name));
  const bought = listed.filter(({ name, count }) => count !== null || !named.has(name));
  return [...bought.map(({ field, ...item }) => ({ ...item, count: item.count ?? 1 })), ...onParts];
}

function readEntries(
  list: Field | null,
  part: string | null,
  groups: readonly string[],
  reading: HardwareReading,
): readonly Entry[] | null {
  if (list === null) return [];
  if (isFlawed(list)) return null;
  const entries = itemsOf(list).map((field): Entry | null => {
    if (isFlawed(field)) return null;
    const [nameField, priceField] = [child(field, 'name'), child(field, 'price')];
    const groupField = child(field, 'group');
    const name = nameField === null ? null : readName(nameField, reading);
    const priceCents =
      priceField === null ? undefined : readPrice(priceField, reading, reading.currency);
    const group = groupField === null ? undefined : readGroup(groupField, groups, reading);
    if (name === null || priceCents === null || group === null) return null;
    const count = readWhole(child(field, 'count'));
    return { field, name, count, priceCents: priceCents ?? null, group: group ?? null, part };
  });
  return entries.every((entry) => entry !== null) ? entries : null;
}

/** What one part has on all of its pieces; prices that it leaves out come from the list of `costs`. */
function readMounted(
  part: Field,
  listed: readonly Entry[],
  reading: HardwareReading,
): readonly Hardware[] | null {
  const nameField = child(part, 'name');
  const list = child(part, 'hardware');
  // A part without a name is told of by whoever reads the parts.
  if (list === null || nameField === null) return [];
  const entries = readEntries(list, plainName(textOf(nameField)), [], reading);
  const priced = entries?.map(({ field, ...item }): Hardware | null => {
    const count = (item.count ?? 1) * piecesOf(part);
    const priceCents = item.priceCents ?? listedPrice(field, item.name, listed, reading);
    if (priceCents === undefined) return null;
    if (count <= MOST_OF_ONE) return { ...item, count, priceCents };
    const message = `the part takes ${count} of ${quote(item.name)}; the most is ${MOST_OF_ONE}`;
    reading.report.error(field, 'out-of-range', message, 'are both counts right?');
    return null;
  });
  return priced?.every((item) => item !== null) ? priced : null;
}

/** The price under this name, null where there is none, undefined where there are several, which is a problem. */
function listedPrice(
  field: Field,
  name: string,
  listed: readonly Entry[],
  { report }: Reading,
): number | null | undefined {
  const own = listed.filter((entry) => entry.name === name).map(({ priceCents }) => priceCents);
  const prices = new Set(own.filter((price) => price !== null));
  if (prices.size <= 1) return [...prices][0] ?? null;
  const message = `costs has several prices for ${quote(name)}`;
  report.error(field, 'duplicate-name', message, 'write the price here as well');
  return undefined;
}

function readGroup(field: Field, groups: readonly string[], reading: Reading): string | null {
  const group = readName(field, reading);
  if (group === null || groups.includes(group)) return group;
  const message = `no part belongs to a group ${quote(group)}`;
  const hint =
    groups.length === 0
      ? 'give its parts the group, or leave it out here'
      : suggest(group, groups.slice(0, 20));
  reading.report.error(field, 'unknown-word', message, hint);
  return null;
}

/** Every group that a part of the file names, sound or not. */
function groupNames(parts: Field | null): readonly string[] {
  const names = (parts === null ? [] : itemsOf(parts)).flatMap((part) => {
    const group = child(part, 'group');
    return group === null || isFlawed(group) ? [] : [plainName(textOf(group))];
  });
  return [...new Set(names)];
}
