import type { Random } from '../random.ts';
import type { Candidate } from '../task.ts';
import {
  type Attempt,
  type AttemptTools,
  crowdKeeper,
  type Failure,
  guestAttempt,
  leapAttempt,
  restartAttempt,
  stepAttempt,
} from './attempts.ts';
import { type Crowd, crowdOf, savePlaces, sheetsOf, takeWork } from './crowd.ts';
import { type Patience, separate } from './separate.ts';
import { settle } from './settle.ts';
import type { Setup } from './setup.ts';
import { compareValues, type Value, valueOfCandidate } from './value.ts';
import { totalLoss } from './weights.ts';

/** What a squeeze asks of its surroundings. */
export interface Squeeze {
  readonly setup: Setup;
  readonly random: Random;
  /** Told of every better candidate. */
  readonly better: (candidate: Candidate) => void;
  /** Told how much work was done since the last call; returns whether to go on. */
  readonly goOn: (work: number) => boolean;
}

/** Shares by which the sheet is shortened: in the first step and at most, in a leap, after one that came off or a restart, and in the last step before only leaps are left. */
const LARGEST_STEP = 0.03;
const LEAP_STEP = 0.001;
const STEP_AFTER_LEAP = 0.004;
const SMALLEST_STEP = 0.00002;

/** How the step changes on success and on failure; below `LEAP_STEP` every other attempt is a leap. */
const STEP_UP = 1.3;
const STEP_DOWN = 0.4;

const PATIENCE: Readonly<Record<Attempt['kind'], Patience>> = {
  guest: { sweeps: 30, strikes: 1 },
  step: { sweeps: 30, strikes: 1 },
  leap: { sweeps: 20, strikes: 2 },
  restart: { sweeps: 100, strikes: 2 },
};
const MOST_FAILURES_KEPT = 30;

/** After as many leaps in vain a layout is left; later on a single sheet where it is worse than the best one by no more than a share. */
const MOST_LEAPS = 40;
const MOST_LEAPS_CLOSE = 120;
const CLOSE = 0.004;

/** By what share of its length a sheet is longer at first when it is laid anew, at most, and how that changes when it comes off and when it does not. */
const FIRST_LONGER = 0.04;
const MOST_LONGER = 0.25;
const LONGER_UP = 1.5;
const LONGER_DOWN = 0.85;

/** What an attempt costs beside its tests. */
const ATTEMPT_OVERHEAD = 1000;

/** With more bodies nothing is shortened: a crowd has two tables of all pairs, which would take more than 64 megabytes. */
export const MOST_BODIES = 2000;

/** A layout that is worked on. */
interface Stand {
  readonly candidate: Candidate;
  readonly value: Value;
  /** The share by which it is to be shortened next. */
  readonly step: number;
  /** Leaps in vain, and those of them that came closest. */
  readonly leaps: number;
  readonly failures: readonly Failure[];
}

/**
 * Shortens what is used of the emptiest sheet, and so does away with it in the end where that is possible.
 *
 * Idea: the sheet is allowed a little less of its length, what sticks out is pushed in or to other sheets, and the overlaps that arise are
 * separated. Where that succeeds the step grows, where it fails it shrinks. Small steps only tidy a layout up, so once they are small every
 * other attempt is a leap: on one sheet two bodies are exchanged, going on from one of the best leaps that failed; of several sheets, the
 * emptiest gives a body away for a smaller one. Bodies that are left out are laid over the others first. When many leaps came to
 * nothing, the sheet is laid at random, a little longer, and shortened anew.
 * Source: the outer loop of Imamichi, Yagiura & Nagamochi 2009, "An iterated local search algorithm based on nonlinear programming for the
 * irregular strip packing problem", Discrete Optimization 6(4); the pool of failures as in Gardeyn, Vanden Berghe & Wauters 2025.
 * We shorten one sheet of several instead of one strip.
 * Cost: a separation an attempt, until the work is gone.
 * Degenerate cases: without sheets there is nothing to shorten; a very large job stays as it is.
 */
export function squeeze(start: Candidate, tools: Squeeze): Candidate {
  const { setup, random } = tools;
  if (setup.task.bodies.length > MOST_BODIES) return start;
  const attemptTools = { ...tools, crowdFor: crowdKeeper(tools) };
  let stand = standOf(setup, start, LARGEST_STEP);
  let best = stand;
  let longer = FIRST_LONGER;
  for (let turn = 0; best.candidate.sheets.length > 0 && tools.goOn(ATTEMPT_OVERHEAD); turn++) {
    const isStuck = stand.leaps >= mostLeaps(stand, best);
    const isBest = !isBetter(best, stand);
    if (isStuck && isBest) best = { ...stand, leaps: 0 };
    else if (isStuck) stand = best;
    const { kind, crowd, unplaced } =
      isStuck && (isBest || !isOnOne(best))
        ? restartAttempt(stand.candidate, longer, attemptTools)
        : attemptFrom(stand, turn, attemptTools);
    const legal = separate(crowd, random, PATIENCE[kind], () => tools.goOn(takeWork(crowd)));
    tools.goOn(takeWork(crowd));
    const next = legal ? standOf(setup, { sheets: sheetsOf(crowd), unplaced }, stand.step) : null;
    const comesOff = next !== null && (kind === 'restart' || isBetter(next, stand));
    stand = comesOff ? { ...next, step: stepAfter(kind, stand) } : afterFailure(kind, stand, crowd);
    if (kind === 'restart')
      longer = comesOff ? longer * LONGER_DOWN : Math.min(MOST_LONGER, longer * LONGER_UP);
    if (!isBetter(stand, best)) continue;
    best = stand;
    tools.better(best.candidate);
  }
  return settled(best.candidate, tools);
}

function isOnOne({ candidate }: Stand): boolean {
  return candidate.sheets.length === 1;
}

function mostLeaps(stand: Stand, best: Stand): number {
  const { value } = stand;
  const isClose =
    isOnOne(stand) && value.used === best.value.used && value.fill <= (1 + CLOSE) * best.value.fill;
  return isClose ? MOST_LEAPS_CLOSE : MOST_LEAPS;
}

function standOf(setup: Setup, candidate: Candidate, step: number): Stand {
  return { candidate, value: valueOfCandidate(setup, candidate), step, leaps: 0, failures: [] };
}

function isBetter(one: Stand, other: Stand): boolean {
  return compareValues(one.value, other.value) < 0;
}

/** Guests come first; leaps come once the steps are small. */
function attemptFrom(stand: Stand, turn: number, tools: AttemptTools): Attempt {
  const { candidate, failures, step } = stand;
  const guest = guestAttempt(candidate, tools);
  if (guest !== null) return guest;
  const mayLeap = step < SMALLEST_STEP || (step < LEAP_STEP && turn % 2 === 0);
  return mayLeap
    ? leapAttempt(candidate, failures, LEAP_STEP, tools)
    : stepAttempt(candidate, step, tools);
}

function stepAfter(kind: Attempt['kind'], { step }: Stand): number {
  return kind === 'step' ? Math.min(LARGEST_STEP, step * STEP_UP) : STEP_AFTER_LEAP;
}

function afterFailure(kind: Attempt['kind'], stand: Stand, crowd: Crowd): Stand {
  if (kind === 'step') return { ...stand, step: stand.step * STEP_DOWN };
  if (kind === 'leap')
    return { ...stand, leaps: stand.leaps + 1, failures: withFailure(stand.failures, crowd) };
  return kind === 'restart' ? { ...stand, leaps: 0, failures: [] } : stand;
}

function withFailure(failures: readonly Failure[], crowd: Crowd): readonly Failure[] {
  const failure = { places: savePlaces(crowd), loss: totalLoss(crowd) };
  return [...failures, failure].sort((a, b) => a.loss - b.loss).slice(0, MOST_FAILURES_KEPT);
}

/** The layout with its bodies slid together, if that is better. */
function settled(best: Candidate, { setup, better }: Squeeze): Candidate {
  const crowd = crowdOf(setup, best);
  settle(crowd);
  const candidate = { sheets: sheetsOf(crowd), unplaced: best.unplaced };
  const gain = compareValues(valueOfCandidate(setup, candidate), valueOfCandidate(setup, best));
  if (gain < 0) better(candidate);
  return gain < 0 ? candidate : best;
}
