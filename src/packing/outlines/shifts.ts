import type { Random } from '../random.ts';
import { type Crowd, type CrowdSheet, moveEntry, type Place } from './crowd.ts';
import { drawOrientation, formAt, placeOf, type Range, rangeOf } from './probe.ts';

/** Tries before a random search for a place or a partner is given up. */
const MOST_TRIES = 50;

/** Cuts a sheet of the crowd at a random upright line and moves what lies right of it to the left, so that it ends at `endX`. */
export function makeRoom(crowd: Crowd, sheet: number, endX: number, random: Random): void {
  const { minX } = roomOf(crowd, sheet);
  const end = endOf(crowd, sheet);
  const by = end - endX;
  const cut = minX + random() * (end - minX);
  for (const i of membersOf(crowd, sheet)) {
    const place = placeOf(crowd, i);
    if (place.x + formAt(crowd, i, place.orientation).width / 2 <= cut) continue;
    moveEntry(crowd, i, { ...place, x: Math.max(minX, place.x - by) });
  }
  pushIn(crowd, sheet, endX, random);
}

/** Moves what sticks out beyond `endX` back to it or, where there are other sheets, as often to a random place on any. */
export function pushIn(crowd: Crowd, sheet: number, endX: number, random: Random): void {
  sheetAt(crowd, sheet).endX = endX;
  for (const i of membersOf(crowd, sheet)) {
    const place = placeOf(crowd, i);
    const range = rangeOf(crowd, i, sheet, place.orientation);
    if (range !== null && place.x <= range.maxX) continue;
    const stays = range !== null && (crowd.sheets.length === 1 || random() < 0.5);
    const other = stays ? null : randomPlace(crowd, i, random);
    moveEntry(crowd, i, other ?? { ...place, x: range?.maxX ?? place.x });
  }
}

/** Lays the bodies of the sheet at random, each in the orientation it has, and lets the sheet end at `endX`. */
export function stirUp(crowd: Crowd, sheet: number, endX: number, random: Random): void {
  sheetAt(crowd, sheet).endX = endX;
  for (const i of membersOf(crowd, sheet)) {
    const place = placeOf(crowd, i);
    const range = rangeOf(crowd, i, sheet, place.orientation);
    if (range !== null) moveEntry(crowd, i, { ...place, ...pointIn(range, random) });
  }
}

/** Exchanges the places of two bodies of different form, each in the orientation it has. */
export function swapTwo(crowd: Crowd, random: Random): void {
  for (let tries = 0; tries < MOST_TRIES; tries++) {
    const i = below(random, crowd.count);
    const k = below(random, crowd.count);
    if (crowd.form[i] === crowd.form[k]) continue;
    const [a, b] = [placeOf(crowd, i), placeOf(crowd, k)];
    moveEntry(crowd, i, asNear(crowd, i, a, b));
    moveEntry(crowd, k, asNear(crowd, k, b, a));
    return;
  }
}

/** Exchanges a body of the sheet with a smaller one of another sheet, so that the sheet has less to hold; or only moves it there. */
export function swapOut(crowd: Crowd, sheet: number, random: Random): void {
  const own = membersOf(crowd, sheet);
  for (let tries = 0; tries < MOST_TRIES; tries++) {
    const i = own[below(random, own.length)] as number;
    const k = below(random, crowd.count);
    if (crowd.sheet[k] === sheet) continue;
    if (areaOf(crowd, k) >= areaOf(crowd, i) || areaOf(crowd, k) < 0.3 * areaOf(crowd, i)) continue;
    const [a, b] = [placeOf(crowd, i), placeOf(crowd, k)];
    moveEntry(crowd, i, asNear(crowd, i, a, b));
    moveEntry(crowd, k, asNear(crowd, k, b, a));
    return;
  }
  const i = own[below(random, own.length)] as number;
  const place = randomPlace(crowd, i, random);
  if (place !== null) moveEntry(crowd, i, place);
}

function areaOf({ setup, form }: Crowd, i: number): number {
  return setup.forms[form[i] as number]?.area ?? 0;
}

/** The place nearest to `wanted` that body `i` may have in its own orientation; its own where that sheet has none. */
function asNear(crowd: Crowd, i: number, own: Place, wanted: Place): Place {
  const range = rangeOf(crowd, i, wanted.sheet, own.orientation);
  if (range === null) return own;
  return {
    sheet: wanted.sheet,
    orientation: own.orientation,
    x: Math.min(range.maxX, Math.max(range.minX, wanted.x)),
    y: Math.min(range.maxY, Math.max(range.minY, wanted.y)),
  };
}

function randomPlace(crowd: Crowd, i: number, random: Random): Place | null {
  for (let tries = 0; tries < MOST_TRIES; tries++) {
    const sheet = below(random, crowd.sheets.length);
    const orientation = drawOrientation(crowd, i, random);
    const range = rangeOf(crowd, i, sheet, orientation);
    if (range !== null) return { sheet, orientation, ...pointIn(range, random) };
  }
  return null;
}

function pointIn({ minX, maxX, minY, maxY }: Range, random: Random): { x: number; y: number } {
  return { x: minX + below(random, maxX - minX + 1), y: minY + below(random, maxY - minY + 1) };
}

function endOf(crowd: Crowd, sheet: number): number {
  const ends = membersOf(crowd, sheet).map((i) => {
    const { orientation, x } = placeOf(crowd, i);
    return x + formAt(crowd, i, orientation).width;
  });
  return Math.max(roomOf(crowd, sheet).minX, ...ends);
}

/** The bodies of a sheet, without its keep-outs; a copy, since moves change the list. */
function membersOf(crowd: Crowd, sheet: number): number[] {
  return sheetAt(crowd, sheet).members.filter((i) => i < crowd.count);
}

function roomOf(crowd: Crowd, sheet: number): { readonly minX: number } {
  return crowd.setup.rooms[sheetAt(crowd, sheet).stock] ?? { minX: 0 };
}

function sheetAt(crowd: Crowd, sheet: number): CrowdSheet {
  return crowd.sheets[sheet] as CrowdSheet;
}

function below(random: Random, limit: number): number {
  return Math.floor(random() * limit);
}
