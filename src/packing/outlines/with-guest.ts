import type { Random } from '../random.ts';
import type { Candidate, Spot } from '../task.ts';
import type { Setup } from './setup.ts';

/** Tries before it is taken that no body that is left out fits any sheet in use. */
const MOST_TRIES = 50;

/** The candidate with one of the bodies that are left out laid somewhere on a sheet in use, over the others; null where none was found that fits one. */
export function withGuest(setup: Setup, candidate: Candidate, random: Random): Candidate | null {
  const { sheets, unplaced } = candidate;
  if (unplaced.length === 0) return null;
  for (let tries = 0; tries < MOST_TRIES; tries++) {
    const body = unplaced[Math.floor(random() * unplaced.length)] as number;
    const host = Math.floor(random() * sheets.length);
    const spot = spotFor(setup, body, sheets[host]?.stock ?? -1, random);
    if (spot === null) continue;
    return {
      sheets: sheets.map((sheet, i) =>
        i === host ? { ...sheet, spots: [...sheet.spots, spot] } : sheet,
      ),
      unplaced: unplaced.filter((other) => other !== body),
    };
  }
  return null;
}

/** A random place of the body on an empty sheet of the stock, in a random orientation; null where that one is not allowed or does not fit. */
function spotFor(setup: Setup, body: number, stock: number, random: Random): Spot | null {
  const orientations = setup.task.bodies[body]?.orientations ?? [];
  const orientation = Math.floor(random() * orientations.length);
  const chosen = orientations[orientation];
  const room = setup.rooms[stock];
  if (chosen === undefined || room === undefined || !chosen.allowedOn[stock]) return null;
  const spareX = room.maxX - room.minX - chosen.width;
  const spareY = room.maxY - room.minY - chosen.height;
  if (spareX < 0 || spareY < 0) return null;
  return {
    body,
    orientation,
    x: room.minX + Math.floor(random() * (spareX + 1)),
    y: room.minY + Math.floor(random() * (spareY + 1)),
  };
}
