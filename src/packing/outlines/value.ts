import { pricesOf } from '../priced.ts';
import { usedBy } from '../score.ts';
import type { Candidate, PackedSheet } from '../task.ts';
import type { Setup } from './setup.ts';

/** How good a candidate is; the smaller the better. */
export interface Value {
  readonly unplacedPieces: number;
  /** Sheets, or minor units of the currency. */
  readonly used: number;
  /** Sheets of stocks that are sold in packs: one less saves nothing yet, but leads to a whole pack less. */
  readonly fromPacks: number;
  /**
   * From 0 up to 1: how much of the emptiest sheet is used, half by the length that its pieces reach to and half by their area,
   * and a little of the other sheets' lengths. So one large piece is left over, and the search is led there even by what does not shorten a sheet yet.
   */
  readonly fill: number;
}

export function valueOfCandidate(setup: Setup, { sheets, unplaced }: Candidate): Value {
  const { bodies } = setup.task;
  const prices = pricesOf(setup.task);
  const lengths = sheets.map((sheet) => usedShare(setup, sheet));
  const mean = lengths.reduce((sum, length) => sum + length, 0) / Math.max(1, lengths.length);
  const emptiest = sheets[emptiestSheet(setup, { sheets, unplaced })];
  return {
    unplacedPieces: unplaced.reduce((n, b) => n + (bodies[b]?.pieces.length ?? 0), 0),
    used: usedBy(setup.task, sheets),
    fromPacks: sheets.filter(({ stock }) => prices[stock]!.pack > 1).length,
    fill: emptiest === undefined ? 0 : 0.99 * fillOf(setup, emptiest) + 0.01 * mean,
  };
}

/** Below 0 where `a` is better. */
export function compareValues(a: Value, b: Value): number {
  return (
    a.unplacedPieces - b.unplacedPieces ||
    a.used - b.used ||
    a.fromPacks - b.fromPacks ||
    a.fill - b.fill
  );
}

/** The index of the sheet that is used least; the first one of equals, and 0 where there is none. */
export function emptiestSheet(setup: Setup, { sheets }: Candidate): number {
  const fills = sheets.map((sheet) => fillOf(setup, sheet));
  return Math.max(0, fills.indexOf(Math.min(...fills)));
}

/** How much of a sheet is used, half by length and half by area. */
function fillOf(setup: Setup, sheet: PackedSheet): number {
  return (usedShare(setup, sheet) + areaShare(setup, sheet)) / 2;
}

/** The share of its usable length up to which a sheet is used. */
export function usedShare(setup: Setup, sheet: PackedSheet): number {
  const room = setup.rooms[sheet.stock];
  if (room === undefined) return 1;
  let end = room.minX;
  for (const { body, orientation, x } of sheet.spots) {
    const width = setup.task.bodies[body]?.orientations[orientation]?.width ?? 0;
    if (x + width > end) end = x + width;
  }
  return (end - room.minX) / Math.max(1, room.maxX - room.minX);
}

function areaShare(setup: Setup, { stock, spots }: PackedSheet): number {
  const room = setup.rooms[stock];
  if (room === undefined) return 1;
  const area = spots.reduce((sum, { body, orientation }) => {
    const form = setup.formsOfBody[body]?.[orientation];
    return sum + (setup.forms[form ?? -1]?.area ?? 0);
  }, 0);
  return area / Math.max(1, (room.maxX - room.minX) * (room.maxY - room.minY));
}
