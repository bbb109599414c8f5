// Reckons what one person should lift at most.
// Idea: a load that most healthy workers may lift under ideal conditions is reduced by one factor for each condition that is not ideal: how far the hands are from
//   the ankles, how high they are, how far the load is moved up or down, how far the body is twisted, and how well the load can be gripped.
// Source: Waters, Putz-Anderson and Garg 1994, "Applications Manual for the Revised NIOSH Lifting Equation", publication 94-110, chapter 1; its metric form for files in
//   millimetres and its form in inches and pounds for files in inches, which agree within 4 %.
// Where we differ: the factor for frequent lifting is left out, as sheets are lifted a few at a time, less than once in five minutes.
// Cost: a product.
// Degenerate cases: hands too far away, too high, or twisted too far: nothing should be lifted.
import type { FileUnit } from '../model/job.ts';
import { KG_PER_LB } from '../model/units.ts';

export type Grip = 'good' | 'fair' | 'poor';

/** Lengths in centimetres or in inches. */
export interface LiftTask {
  /** Of the hands from the middle between the ankles. */
  readonly horizontal: number;
  /** Of the hands above the floor. */
  readonly height: number;
  /** How far up or down the load is moved. */
  readonly travel: number;
  readonly twistDeg: number;
  readonly grip: Grip;
}

export interface LiftFactors {
  readonly horizontal: number;
  readonly vertical: number;
  readonly distance: number;
  readonly asymmetry: number;
  readonly coupling: number;
}

/** A large panel, lifted now and then: hands 40 cm away and 75 cm high, moved 25 cm up or down, without twist, by a poor grip. */
export const SHEET_TASK: Readonly<Record<FileUnit, LiftTask>> = {
  mm: { horizontal: 40, height: 75, travel: 25, twistDeg: 0, grip: 'poor' },
  in: { horizontal: 16, height: 30, travel: 10, twistDeg: 0, grip: 'poor' },
};

/** The load constant, kg or lb, and the figures of the factors, in cm or inches. */
const FORMS = {
  mm: {
    load: 23,
    near: 25,
    far: 63,
    knuckle: 75,
    slope: 0.003,
    highest: 175,
    short: 25,
    long: 175,
    travel: 4.5,
  },
  in: {
    load: 51,
    near: 10,
    far: 25,
    knuckle: 30,
    slope: 0.0075,
    highest: 70,
    short: 10,
    long: 70,
    travel: 1.8,
  },
} as const;

const LARGEST_TWIST_DEG = 135;

/** Below the height of the knuckles, and from there up. */
const COUPLING = {
  good: { low: 1, high: 1 },
  fair: { low: 0.95, high: 1 },
  poor: { low: 0.9, high: 0.9 },
} as const;

/** In kilograms in either form. */
export function recommendedLimitKg(task: LiftTask, unit: FileUnit): number {
  const limit = liftLimit(liftFactors(task, unit), unit);
  return unit === 'mm' ? limit : limit * KG_PER_LB;
}

/** In kilograms or pounds. */
export function liftLimit(factors: LiftFactors, unit: FileUnit): number {
  const { horizontal, vertical, distance, asymmetry, coupling } = factors;
  return FORMS[unit].load * horizontal * vertical * distance * asymmetry * coupling;
}

export function liftFactors(task: LiftTask, unit: FileUnit): LiftFactors {
  const { near, far, knuckle, slope, highest, short, long, travel } = FORMS[unit];
  const { horizontal, height, twistDeg, grip } = task;
  const moved = Math.max(short, task.travel);
  return {
    horizontal: horizontal > far ? 0 : near / Math.max(near, horizontal),
    vertical: height > highest ? 0 : 1 - slope * Math.abs(height - knuckle),
    distance: moved > long ? 0 : 0.82 + travel / moved,
    asymmetry: twistDeg > LARGEST_TWIST_DEG ? 0 : 1 - 0.0032 * twistDeg,
    coupling: COUPLING[grip][height < knuckle ? 'low' : 'high'],
  };
}
