import type { Random } from '../random.ts';
import type { Candidate } from '../task.ts';
import {
  type Crowd,
  candidateOf,
  crowdOf,
  loadPlaces,
  type SavedPlaces,
  savePlaces,
} from './crowd.ts';
import { type Patience, separate, totalLoss } from './separate.ts';
import { settle } from './settle.ts';
import type { Setup } from './setup.ts';
import { makeRoom, pushIn, swapOut, swapTwo } from './shifts.ts';
import { compareValues, emptiestSheet, usedShare, valueOfCandidate } from './value.ts';
import { withGuest } from './with-guest.ts';

/** What a squeeze asks of its surroundings. */
export interface Squeeze {
  readonly setup: Setup;
  readonly random: Random;
  /** Told of every better candidate. */
  readonly better: (candidate: Candidate) => void;
  /** Told how much work was done since the last call; returns whether to go on. */
  readonly goOn: (work: number) => boolean;
}

/** Shares by which the sheet is shortened: in the first step and at most, in a leap, after one that came off, and in the last step before only leaps are left. */
const LARGEST_STEP = 0.03;
const LEAP_STEP = 0.001;
const STEP_AFTER_LEAP = 0.004;
const SMALLEST_STEP = 0.00002;

/** How the step changes on success and on failure; below `LEAP_STEP` every other attempt is a leap. */
const STEP_UP = 1.3;
const STEP_DOWN = 0.4;

const STEP_PATIENCE: Patience = { sweeps: 30, strikes: 1 };
const LEAP_PATIENCE: Patience = { sweeps: 20, strikes: 2 };
const MOST_FAILURES_KEPT = 30;

/** What an attempt costs beside its tests. */
const ATTEMPT_OVERHEAD = 1000;

/** With more bodies nothing is shortened: a crowd has two tables of all pairs, which would take more than 64 megabytes. */
const MOST_BODIES = 2000;

/** Bodies that overlap and are to be separated, and those that are left out of it. */
interface Attempt {
  readonly crowd: Crowd;
  readonly unplaced: readonly number[];
}

/** Where a leap ended that came to nothing. */
interface Failure {
  readonly places: SavedPlaces;
  readonly loss: number;
}

/**
 * Shortens what is used of the emptiest sheet, and so does away with it in the end where that is possible.
 *
 * Idea: the sheet is allowed a little less of its length, what sticks out is pushed in or to other sheets, and the overlaps that arise are
 * separated. Where that succeeds the step grows, where it fails it shrinks. Small steps only tidy a layout up, so once they are small every
 * other attempt is a leap: on one sheet two bodies are exchanged, going on from one of the best leaps that failed; of several sheets, the
 * emptiest gives a body away for a smaller one. Bodies that are left out are laid over the others first.
 * Source: the outer loop of Imamichi, Yagiura & Nagamochi 2009, "An iterated local search algorithm based on nonlinear programming for the
 * irregular strip packing problem", Discrete Optimization 6(4); the pool of failures as in Gardeyn, Vanden Berghe & Wauters 2025.
 * We shorten one sheet of several instead of one strip.
 * Cost: a separation an attempt, until the work is gone.
 * Degenerate cases: without sheets there is nothing to shorten; a very large job stays as it is.
 */
export function squeeze(start: Candidate, tools: Squeeze): Candidate {
  const { setup, random } = tools;
  if (setup.task.bodies.length > MOST_BODIES) return start;
  let best = start;
  let bestValue = valueOfCandidate(setup, best);
  let failures: readonly Failure[] = [];
  let step = LARGEST_STEP;
  for (let turn = 0; best.sheets.length > 0 && tools.goOn(ATTEMPT_OVERHEAD); turn++) {
    const guest = guestAttempt(best, tools);
    const mayLeap = step < SMALLEST_STEP || (step < LEAP_STEP && turn % 2 === 0);
    const leaps = guest === null && mayLeap;
    const { crowd, unplaced } =
      guest ?? (leaps ? leapAttempt(best, failures, tools) : stepAttempt(best, step, tools));
    const patience = leaps ? LEAP_PATIENCE : STEP_PATIENCE;
    const legal = separate(crowd, random, patience, () => tools.goOn(takeWork(crowd)));
    tools.goOn(takeWork(crowd));
    const candidate = legal ? candidateOf(crowd, unplaced) : best;
    const value = valueOfCandidate(setup, candidate);
    if (compareValues(value, bestValue) < 0) {
      best = candidate;
      bestValue = value;
      tools.better(best);
      failures = [];
      step = leaps ? STEP_AFTER_LEAP : Math.min(LARGEST_STEP, step * STEP_UP);
    } else if (leaps) {
      if (best.sheets.length === 1) failures = withFailure(failures, crowd);
    } else if (guest === null) step *= STEP_DOWN;
  }
  return settled(best, tools);
}

/** The layout with its bodies slid together, if that is better. */
function settled(best: Candidate, { setup, better }: Squeeze): Candidate {
  const crowd = crowdOf(setup, best);
  settle(crowd);
  const candidate = candidateOf(crowd, best.unplaced);
  const gain = compareValues(valueOfCandidate(setup, candidate), valueOfCandidate(setup, best));
  if (gain < 0) better(candidate);
  return gain < 0 ? candidate : best;
}

/** The layout with one of the bodies that are left out laid over the others; null where there is none that fits. */
function guestAttempt(best: Candidate, { setup, random }: Squeeze): Attempt | null {
  const guest = withGuest(setup, best, random);
  return guest === null ? null : { crowd: crowdOf(setup, guest), unplaced: guest.unplaced };
}

function stepAttempt(best: Candidate, step: number, { setup, random }: Squeeze): Attempt {
  const crowd = crowdOf(setup, best);
  const sheet = emptiestSheet(setup, best);
  makeRoom(crowd, sheet, endWithout(setup, best, sheet, step), random);
  return { crowd, unplaced: best.unplaced };
}

function leapAttempt(
  best: Candidate,
  failures: readonly Failure[],
  { setup, random }: Squeeze,
): Attempt {
  const crowd = crowdOf(setup, best);
  const sheet = emptiestSheet(setup, best);
  if (best.sheets.length > 1) {
    swapOut(crowd, sheet, random);
    pushIn(crowd, sheet, endWithout(setup, best, sheet, 0), random);
  } else {
    const failure = failures[Math.floor(random() * random() * failures.length)];
    if (failure !== undefined) loadPlaces(crowd, failure.places);
    swapTwo(crowd, random);
    pushIn(crowd, sheet, endWithout(setup, best, sheet, LEAP_STEP), random);
  }
  return { crowd, unplaced: best.unplaced };
}

/** Where the sheet's pieces end, less a share: of several sheets a share of the sheet's length, so that a nearly empty one is soon cleared; of a single one, of what is used. */
function endWithout(setup: Setup, { sheets }: Candidate, index: number, share: number): number {
  const sheet = sheets[index];
  const room = setup.rooms[sheet?.stock ?? -1];
  if (sheet === undefined || room === undefined) return 0;
  const length = room.maxX - room.minX;
  const used = length * usedShare(setup, sheet);
  return Math.floor(room.minX + used - share * (sheets.length > 1 ? length : used));
}

function withFailure(failures: readonly Failure[], crowd: Crowd): readonly Failure[] {
  const failure = { places: savePlaces(crowd), loss: totalLoss(crowd) };
  return [...failures, failure].sort((a, b) => a.loss - b.loss).slice(0, MOST_FAILURES_KEPT);
}

function takeWork(crowd: Crowd): number {
  const { work } = crowd;
  crowd.work = 0;
  return work;
}
