import type { Box } from '../../geometry/box.ts';
import type { Candidate, PackedSheet, Spot } from '../task.ts';
import type { Form } from './forms.ts';
import { addNear, clearNear, type Near, nearOf, removeNear } from './near.ts';
import { rootAt } from './overlap.ts';
import type { Room, Setup } from './setup.ts';

/**
 * Bodies on sheets that may still overlap, as flat lists: the state of the search of separate.ts.
 * The first `count` entries are bodies, the rest keep-outs, which never move.
 * Two entries on one sheet have a loss, the root of their overlap times the roots of their sizes, and a weight that the search turns up.
 */
export interface Crowd {
  readonly setup: Setup;
  readonly count: number;
  /** Entries in all, keep-outs included. */
  readonly total: number;
  readonly body: Int32Array;
  readonly orientation: Int32Array;
  readonly form: Int32Array;
  readonly size: Float64Array;
  readonly sheet: Int32Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** The boxes that the forms reach at their places. */
  readonly left: Float64Array;
  readonly right: Float64Array;
  readonly bottom: Float64Array;
  readonly top: Float64Array;
  readonly sheets: readonly CrowdSheet[];
  /** Symmetric, by pairs. */
  readonly loss: Float64Array;
  readonly weight: Float64Array;
  /** How many others each entry overlaps. */
  readonly clashes: Int32Array;
  /** All pairs that have a loss or a weight above 1, each once, as the place in the lists of pairs where the higher entry's row is. */
  readonly live: number[];
  readonly isLive: Uint8Array;
  /** Units of work since it was last set to 0, without those of overlaps. */
  work: number;
}

export interface CrowdSheet {
  readonly stock: number;
  /** No piece may reach further right than this. */
  endX: number;
  /** The entries that lie here. */
  readonly members: number[];
  /** Where they lie. */
  readonly near: Near;
}

/** The bodies of a candidate where they lie. */
export function crowdOf(setup: Setup, candidate: Candidate): Crowd {
  const spots = candidate.sheets.flatMap(({ spots }, sheet) =>
    spots.map((spot) => ({ ...spot, sheet })),
  );
  const keepOuts = candidate.sheets.flatMap(({ stock }, sheet) =>
    (setup.rooms[stock]?.keepOuts ?? []).map((fixed) => ({ ...fixed, sheet })),
  );
  const total = spots.length + keepOuts.length;
  const entries = [
    ...spots.map((spot) => ({ ...spot, form: formIndex(setup, spot.body, spot.orientation) })),
    ...keepOuts.map((keepOut) => ({ ...keepOut, body: -1, orientation: 0 })),
  ];
  const mean = meanSize(setup, entries);
  const crowd: Crowd = {
    setup,
    count: spots.length,
    total,
    body: Int32Array.from(entries, ({ body }) => body),
    orientation: Int32Array.from(entries, ({ orientation }) => orientation),
    form: Int32Array.from(entries, ({ form }) => form),
    size: Float64Array.from(entries, ({ form }) => sizeOf(setup, form)),
    sheet: Int32Array.from(entries, ({ sheet }) => sheet),
    x: Float64Array.from(entries, ({ x }) => x),
    y: Float64Array.from(entries, ({ y }) => y),
    left: new Float64Array(total),
    right: new Float64Array(total),
    bottom: new Float64Array(total),
    top: new Float64Array(total),
    sheets: candidate.sheets.map(({ stock }, sheet) => {
      const members = entries.flatMap((entry, i) => (entry.sheet === sheet ? [i] : []));
      const room = setup.rooms[stock] as Room;
      const near = nearOf(room, mean, total);
      return { stock, endX: room.maxX, members, near };
    }),
    loss: new Float64Array(total * total),
    weight: new Float64Array(total * total).fill(1),
    clashes: new Int32Array(total),
    live: [],
    isLive: new Uint8Array(total * total),
    work: 0,
  };
  refreshAll(crowd);
  return crowd;
}

function meanSize(
  { forms }: Setup,
  entries: readonly { readonly form: number }[],
): { readonly width: number; readonly height: number } {
  const mean = (side: 'width' | 'height') =>
    entries.reduce((sum, { form }) => sum + (forms[form]?.[side] ?? 0), 0) / entries.length;
  return { width: mean('width'), height: mean('height') };
}

/** The sheets as they are now, those that hold nothing left out; legal where nothing overlaps. */
export function sheetsOf(crowd: Crowd): readonly PackedSheet[] {
  const sheets = crowd.sheets.map(({ stock, members }) => ({
    stock,
    spots: members
      .filter((i) => i < crowd.count)
      .sort((a, b) => a - b)
      .map((i) => spotOf(crowd, i)),
  }));
  return sheets.filter(({ spots }) => spots.length > 0);
}

function spotOf({ body, orientation, x, y }: Crowd, i: number): Spot {
  return {
    body: body[i] as number,
    orientation: orientation[i] as number,
    x: x[i] as number,
    y: y[i] as number,
  };
}

/** Puts entry `i` to a new place and works its losses out anew. */
export function moveEntry(crowd: Crowd, i: number, place: Place): void {
  const from = crowd.sheets[crowd.sheet[i] as number] as CrowdSheet;
  const to = crowd.sheets[place.sheet] as CrowdSheet;
  removeNear(from.near, i, boxAt(crowd, i));
  if (from !== to) {
    from.members.splice(from.members.indexOf(i), 1);
    to.members.push(i);
  }
  crowd.sheet[i] = place.sheet;
  crowd.orientation[i] = place.orientation;
  crowd.form[i] = formIndex(crowd.setup, crowd.body[i] as number, place.orientation);
  crowd.x[i] = place.x;
  crowd.y[i] = place.y;
  refreshBox(crowd, i);
  addNear(to.near, i, boxAt(crowd, i));
  refreshLosses(crowd, i, 0);
}

/** The units of work since this was last asked for, those of overlaps among them. */
export function takeWork(crowd: Crowd): number {
  const { overlaps } = crowd.setup;
  const work = crowd.work + overlaps.work;
  crowd.work = 0;
  overlaps.work = 0;
  return work;
}

/** A possible place of a body. */
export interface Place {
  readonly sheet: number;
  readonly orientation: number;
  readonly x: number;
  readonly y: number;
}

/** Where all bodies lie, to be taken up again. */
export interface SavedPlaces {
  readonly sheet: Int32Array;
  readonly orientation: Int32Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/** The places, put into `into` where that is given. */
export function savePlaces(crowd: Crowd, into?: SavedPlaces): SavedPlaces {
  const { sheet, orientation, x, y } = crowd;
  if (into === undefined)
    return { sheet: sheet.slice(), orientation: orientation.slice(), x: x.slice(), y: y.slice() };
  into.sheet.set(sheet);
  into.orientation.set(orientation);
  into.x.set(x);
  into.y.set(y);
  return into;
}

export function loadPlaces(crowd: Crowd, saved: SavedPlaces): void {
  crowd.sheet.set(saved.sheet);
  crowd.orientation.set(saved.orientation);
  crowd.x.set(saved.x);
  crowd.y.set(saved.y);
  for (const { members } of crowd.sheets) members.length = 0;
  for (let i = 0; i < crowd.total; i++) {
    crowd.sheets[crowd.sheet[i] as number]?.members.push(i);
    if (i < crowd.count)
      crowd.form[i] = formIndex(
        crowd.setup,
        crowd.body[i] as number,
        crowd.orientation[i] as number,
      );
  }
  refreshAll(crowd);
}

function refreshAll(crowd: Crowd): void {
  for (const { near } of crowd.sheets) clearNear(near);
  for (let i = 0; i < crowd.total; i++) {
    refreshBox(crowd, i);
    addNear((crowd.sheets[crowd.sheet[i] as number] as CrowdSheet).near, i, boxAt(crowd, i));
  }
  for (let i = 0; i < crowd.count; i++) refreshLosses(crowd, i, i + 1);
}

function refreshBox(crowd: Crowd, i: number): void {
  const { reach } = crowd.setup.forms[crowd.form[i] as number] as Form;
  const [x, y] = [crowd.x[i] as number, crowd.y[i] as number];
  crowd.left[i] = x + reach.minX;
  crowd.right[i] = x + reach.maxX;
  crowd.bottom[i] = y + reach.minY;
  crowd.top[i] = y + reach.maxY;
}

function boxAt({ left, right, bottom, top }: Crowd, i: number): Box {
  return {
    minX: left[i] as number,
    minY: bottom[i] as number,
    maxX: right[i] as number,
    maxY: top[i] as number,
  };
}

/** The losses of entry `i` with all entries from `first` on. */
function refreshLosses(crowd: Crowd, i: number, first: number): void {
  const { total, loss, sheet, clashes } = crowd;
  for (let j = first; j < total; j++) {
    if (j === i) continue;
    const k = i * total + j;
    const found = sheet[i] === sheet[j] ? pairLoss(crowd, i, j) : 0;
    const before = loss[k] as number;
    if (found === before) continue;
    loss[k] = found;
    loss[j * total + i] = found;
    const change = Number(found > 0) - Number(before > 0);
    clashes[i] = (clashes[i] as number) + change;
    clashes[j] = (clashes[j] as number) + change;
    if (found > 0) makeLive(crowd, i > j ? k : j * total + i);
  }
  crowd.work += total - first;
}

function makeLive({ live, isLive }: Crowd, pair: number): void {
  if (isLive[pair] === 1) return;
  isLive[pair] = 1;
  live.push(pair);
}

function pairLoss(crowd: Crowd, i: number, j: number): number {
  const { setup, form, size, x, y, left, right, bottom, top } = crowd;
  if (
    (left[i] as number) >= (right[j] as number) ||
    (right[i] as number) <= (left[j] as number) ||
    (bottom[i] as number) >= (top[j] as number) ||
    (top[i] as number) <= (bottom[j] as number)
  )
    return 0;
  const [own, other] = [form[i] as number, form[j] as number];
  const { overlaps } = setup;
  const map = (overlaps.maps.ofForm[own] as Int32Array)[other] as number;
  const dx = (x[i] as number) - (x[j] as number);
  const dy = (y[i] as number) - (y[j] as number);
  const root = rootAt(overlaps, map, own, other, dx, dy, Number.POSITIVE_INFINITY);
  return root * (size[i] as number) * (size[j] as number);
}

export function formIndex(setup: Setup, body: number, orientation: number): number {
  return setup.formsOfBody[body]?.[orientation] ?? 0;
}

/** The fourth root of the box's area, so that the product of two sizes is a length. */
function sizeOf(setup: Setup, form: number): number {
  const { width = 0, height = 0 } = setup.forms[form] ?? {};
  return Math.sqrt(Math.sqrt(width * height));
}
