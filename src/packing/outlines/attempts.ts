import type { Random } from '../random.ts';
import type { Candidate } from '../task.ts';
import { type Crowd, crowdOf, loadPlaces, type SavedPlaces, savePlaces } from './crowd.ts';
import type { Setup } from './setup.ts';
import { makeRoom, pushIn, stirUp, swapOut, swapTwo } from './shifts.ts';
import { emptiestSheet, usedShare } from './value.ts';
import { withGuest } from './with-guest.ts';

/** Bodies that overlap and are to be separated, and those that are left out of it. */
export interface Attempt {
  readonly kind: 'guest' | 'step' | 'leap' | 'restart';
  readonly crowd: Crowd;
  readonly unplaced: readonly number[];
}

/** Where a leap ended that came to nothing. */
export interface Failure {
  readonly places: SavedPlaces;
  readonly loss: number;
}

export interface AttemptTools {
  readonly setup: Setup;
  readonly random: Random;
  readonly crowdFor: (candidate: Candidate) => Crowd;
}

/** The crowd of a candidate, with nothing moved and all of every sheet to be used; the last one is kept, as most attempts start where the one before did. */
export function crowdKeeper({ setup }: Omit<AttemptTools, 'crowdFor'>): AttemptTools['crowdFor'] {
  let kept: {
    readonly of: Candidate;
    readonly crowd: Crowd;
    readonly home: SavedPlaces;
  } | null = null;
  return (candidate) => {
    if (kept?.of !== candidate) {
      const crowd = crowdOf(setup, candidate);
      kept = { of: candidate, crowd, home: savePlaces(crowd) };
      return crowd;
    }
    for (const sheet of kept.crowd.sheets) sheet.endX = setup.rooms[sheet.stock]?.maxX ?? 0;
    loadPlaces(kept.crowd, kept.home);
    return kept.crowd;
  };
}

/** The layout with one of the bodies that are left out laid over the others; null where there is none that fits. */
export function guestAttempt(candidate: Candidate, tools: AttemptTools): Attempt | null {
  const { setup, random } = tools;
  const guest = withGuest(setup, candidate, random);
  if (guest === null) return null;
  return { kind: 'guest', crowd: crowdOf(setup, guest), unplaced: guest.unplaced };
}

/** The emptiest sheet made shorter. */
export function stepAttempt(candidate: Candidate, step: number, tools: AttemptTools): Attempt {
  const { setup, random, crowdFor } = tools;
  const crowd = crowdFor(candidate);
  const sheet = emptiestSheet(setup, candidate);
  makeRoom(crowd, sheet, endWithout(setup, candidate, sheet, step), random);
  return { kind: 'step', crowd, unplaced: candidate.unplaced };
}

/** Two bodies exchanged on a sheet made shorter, or the emptiest of several relieved of one. */
export function leapAttempt(
  candidate: Candidate,
  failures: readonly Failure[],
  step: number,
  { setup, random, crowdFor }: AttemptTools,
): Attempt {
  const crowd = crowdFor(candidate);
  const sheet = emptiestSheet(setup, candidate);
  if (candidate.sheets.length > 1) {
    swapOut(crowd, sheet, random);
    pushIn(crowd, sheet, endWithout(setup, candidate, sheet, 0), random);
  } else {
    const failure = failures[Math.floor(random() * random() * failures.length)];
    if (failure !== undefined) loadPlaces(crowd, failure.places);
    swapTwo(crowd, random);
    pushIn(crowd, sheet, endWithout(setup, candidate, sheet, step), random);
  }
  return { kind: 'leap', crowd, unplaced: candidate.unplaced };
}

/** All of the emptiest sheet laid at random; it may be longer by a share. */
export function restartAttempt(
  candidate: Candidate,
  longer: number,
  { setup, random, crowdFor }: AttemptTools,
): Attempt {
  const crowd = crowdFor(candidate);
  const sheet = emptiestSheet(setup, candidate);
  stirUp(crowd, sheet, endWithout(setup, candidate, sheet, 0 - longer), random);
  return { kind: 'restart', crowd, unplaced: candidate.unplaced };
}

/** Where the sheet's pieces end, less a share: of several sheets a share of the sheet's length, so that a nearly empty one is soon cleared; of a single one, of what is used. */
function endWithout(setup: Setup, { sheets }: Candidate, index: number, share: number): number {
  const sheet = sheets[index];
  const room = setup.rooms[sheet?.stock ?? -1];
  if (sheet === undefined || room === undefined) return 0;
  const length = room.maxX - room.minX;
  const used = length * usedShare(setup, sheet);
  const end = Math.floor(room.minX + used - share * (sheets.length > 1 ? length : used));
  return Math.min(room.maxX, end);
}
