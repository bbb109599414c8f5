import type { Random } from '../random.ts';
import { type Crowd, formIndex, type Place } from './crowd.ts';
import { leastPlaces } from './least-places.ts';
import type { Measure } from './overlap.ts';
import {
  drawOrientation,
  formAt,
  lossAt,
  type Probe,
  placeOf,
  type Range,
  rangeOf,
} from './probe.ts';
import type { RootGrids } from './root-grids.ts';
import { slideOnLines } from './slide-on-lines.ts';
import type { TurnChoices } from './turn-choices.ts';

const SAMPLES_ANYWHERE = 24;
const SAMPLES_NEARBY = 12;

/** How often a grid takes the place of samples anywhere. By depth the least loss may lie deep inside others, from where there is no way out. */
const GRID_SHARE: Readonly<Record<Measure, number>> = { depth: 0.2, circles: 1 };

/** On as many sheets a grid is looked at, and so often an orientation is drawn until one fits there. */
const MOST_SHEETS = 8;
const MOST_DRAWS = 8;

/** As many of the best places are refined. Circles tell so well which place is best that fewer will do. */
const REFINED: Readonly<Record<Measure, number>> = { depth: 3, circles: 2 };

/** Steps of the refinement, as shares of the form's narrower side. */
const FIRST_STEP = 0.25;
const COARSE_STEP = 0.02;
const FINE_STEP = 0.0005;

/** The directions of steps, x and y of each: along an axis twice as often as along a diagonal. */
const DIRECTIONS = [1, 0, 1, 0, 0, 1, 0, 1, 0.7, 0.7, 0.7, -0.7];

/** How often a body is slid along lines in the end. */
const LINES_SHARE: Readonly<Record<Measure, number>> = { depth: 1, circles: 0.3 };

/** Reach of a nearby place, as a share of the form's longer side, and how often it keeps the orientation. */
const NEARBY = 0.4;
const KEEP_ORIENTATION = 0.7;

/**
 * A better place for one body among others that stay: less weighted loss than now, or the same elsewhere; null where none was found.
 *
 * Idea: the best places of a grid over some sheets, or places drawn over all of them, and some around the present place are compared, each given up as
 * soon as it is not among the best ones.
 * These slide downhill along the axes and diagonals by steps that grow on success and shrink on failure. At the end the body is moved along
 * lines to exact contacts, which no step would meet.
 * Source: sampling and descent as described by Gardeyn & Vanden Berghe 2025, "An open-source heuristic to reboot 2D nesting research";
 * the line moves by Umetani et al. 2009, "Solving the irregular strip packing problem via guided local search for overlap minimization".
 * Cost: about a hundred evaluations, each a pass over the bodies near by; fewer where grids are looked at, and what is added up for those.
 */
export function bestPlace(crowd: Crowd, i: number, random: Random): Probe | null {
  const here = placeOf(crowd, i);
  const { sheet, x, y } = here;
  const now = lossAt(crowd, i, crowd.form[i] as number, sheet, x, y, Number.POSITIVE_INFINITY);
  const best: Probe[] = [{ ...here, loss: now }];
  lookAround(crowd, i, random, best);
  const coarse = { first: FIRST_STEP, last: COARSE_STEP, random };
  let winner = best[0] as Probe;
  for (const probe of best) {
    const refined = descend(crowd, i, probe, coarse);
    if (refined.loss < winner.loss) winner = refined;
  }
  winner = descend(crowd, i, winner, { first: COARSE_STEP, last: FINE_STEP, random });
  if (random() < LINES_SHARE[crowd.setup.overlaps.measure]) winner = slideOnLines(crowd, i, winner);
  return winner.loss <= now ? winner : null;
}

/** Puts the best places anywhere and nearby into `best`, and stops at one without loss. */
function lookAround(crowd: Crowd, i: number, random: Random, best: Probe[]): void {
  const { grids, overlaps } = crowd.setup;
  const isFree = () => (best[0] as Probe).loss === 0;
  if (grids !== null && random() < GRID_SHARE[overlaps.measure])
    lookAllOver(crowd, grids, i, random, best);
  else
    for (let k = 0; k < SAMPLES_ANYWHERE && !isFree(); k++) sampleAnywhere(crowd, i, random, best);
  for (let k = 0; k < SAMPLES_NEARBY && !isFree(); k++) sampleNearby(crowd, i, random, best);
}

/** Puts the best places on each of some sheets into `best`, in one orientation that fits there. */
function lookAllOver(
  crowd: Crowd,
  grids: RootGrids,
  i: number,
  random: Random,
  best: Probe[],
): void {
  const count = crowd.sheets.length;
  const from = Math.floor(random() * count);
  for (let look = 0; look < Math.min(count, MOST_SHEETS); look++) {
    const sheet = (from + look) % count;
    const place = anyOn(crowd, i, sheet, random);
    if (place === null) continue;
    const { orientation, range } = place;
    const form = formIndex(crowd.setup, crowd.body[i] as number, orientation);
    for (const { x, y } of leastPlaces(crowd, grids, i, { form, sheet, range }, random))
      consider(crowd, i, { sheet, orientation, x, y }, best);
  }
}

/** An orientation that fits on the sheet, and where; null where some draws find none. */
function anyOn(
  crowd: Crowd,
  i: number,
  sheet: number,
  random: Random,
): { readonly orientation: number; readonly range: Range } | null {
  for (let draw = 0; draw < MOST_DRAWS; draw++) {
    const orientation = drawOrientation(crowd, i, random);
    const range = rangeOf(crowd, i, sheet, orientation);
    if (range !== null) return { orientation, range };
  }
  return null;
}

function sampleAnywhere(crowd: Crowd, i: number, random: Random, best: Probe[]): void {
  const sheet = Math.floor(random() * crowd.sheets.length);
  const orientation = drawOrientation(crowd, i, random);
  const range = rangeOf(crowd, i, sheet, orientation);
  if (range === null) return;
  const x = range.minX + Math.floor(random() * (range.maxX - range.minX + 1));
  const y = range.minY + Math.floor(random() * (range.maxY - range.minY + 1));
  consider(crowd, i, { sheet, orientation, x, y }, best);
}

function sampleNearby(crowd: Crowd, i: number, random: Random, best: Probe[]): void {
  const { sheet, orientation: own, x, y } = placeOf(crowd, i);
  const kept = random() < KEEP_ORIENTATION;
  const orientation = kept ? own : orientationBeside(crowd, i, random);
  const range = rangeOf(crowd, i, sheet, orientation);
  if (range === null) return;
  const { width, height } = formAt(crowd, i, orientation);
  const spread = NEARBY * Math.max(width, height);
  const dx = Math.round((random() + random() - 1) * spread);
  const dy = Math.round((random() + random() - 1) * spread);
  const place = {
    sheet,
    orientation,
    x: clamp(x + dx, range.minX, range.maxX),
    y: clamp(y + dy, range.minY, range.maxY),
  };
  consider(crowd, i, place, best);
}

/** Puts the place among the best ones, if it is one of them. */
function consider(crowd: Crowd, i: number, place: Place, best: Probe[]): void {
  const { sheet, orientation, x, y } = place;
  const full = best.length >= REFINED[crowd.setup.overlaps.measure];
  const bound = full ? (best.at(-1) as Probe).loss : Number.POSITIVE_INFINITY;
  const form = formIndex(crowd.setup, crowd.body[i] as number, orientation);
  const loss = lossAt(crowd, i, form, sheet, x, y, bound);
  if (loss >= bound) return;
  if (full) best.pop();
  let rank = best.length;
  while (rank > 0 && (best[rank - 1] as Probe).loss > loss) rank--;
  best.splice(rank, 0, { sheet, orientation, x, y, loss });
}

function orientationBeside(crowd: Crowd, i: number, random: Random): number {
  const { beside } = crowd.setup.turnsOfBody[crowd.body[i] as number] as TurnChoices;
  const choices = beside(crowd.orientation[i] as number);
  return choices[Math.floor(random() * choices.length)] as number;
}

interface Slope {
  /** First and last step, as shares of the form's narrower side. */
  readonly first: number;
  readonly last: number;
  readonly random: Random;
}

function descend(crowd: Crowd, i: number, start: Probe, { first, last, random }: Slope): Probe {
  const { sheet, orientation } = start;
  const range = rangeOf(crowd, i, sheet, orientation);
  if (range === null) return start;
  const form = formIndex(crowd.setup, crowd.body[i] as number, orientation);
  const { width, height } = formAt(crowd, i, orientation);
  const side = Math.min(width, height);
  const leastStep = Math.max(1, last * side);
  let { x, y, loss } = start;
  for (let step = first * side; loss > 0 && step >= leastStep; ) {
    const direction = 2 * Math.floor((random() * DIRECTIONS.length) / 2);
    const dx = Math.round((DIRECTIONS[direction] as number) * step);
    const dy = Math.round((DIRECTIONS[direction + 1] as number) * step);
    const aheadX = clamp(x + dx, range.minX, range.maxX);
    const aheadY = clamp(y + dy, range.minY, range.maxY);
    const ahead = lossAt(crowd, i, form, sheet, aheadX, aheadY, loss);
    if (ahead < loss) {
      [x, y, loss] = [aheadX, aheadY, ahead];
      step *= 1.1;
      continue;
    }
    const backX = clamp(x - dx, range.minX, range.maxX);
    const backY = clamp(y - dy, range.minY, range.maxY);
    const back = lossAt(crowd, i, form, sheet, backX, backY, loss);
    if (back < loss) {
      [x, y, loss] = [backX, backY, back];
      step *= 1.1;
    } else step *= 0.5;
  }
  return { sheet, orientation, x, y, loss };
}

function clamp(value: number, least: number, most: number): number {
  return Math.max(least, Math.min(most, value));
}
