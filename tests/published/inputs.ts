import { rectangle } from '../../src/geometry/shape.ts';
import { borderLossMm } from '../../src/holding/border.ts';
import { CONSTANTS } from '../../src/holding/constants.ts';
import type { PumpPoint } from '../../src/model/machine.ts';
import { fromMm } from '../../src/model/units.ts';
import { borderedBody } from '../holding/jobs.ts';

export type Inputs = Readonly<Record<string, unknown>>;

/** How the tool computes values, by their ids. */
export type Computed = Readonly<Record<string, (inputs: Inputs) => number | readonly number[]>>;
export type Compute = Computed[string];

export const MM_PER_INCH = 25.4;
export const SEA_LEVEL_PA = CONSTANTS.seaLevelPressure.value;

export function num(inputs: Inputs, name: string): number {
  const value = inputs[name];
  if (typeof value !== 'number') throw new Error(`no number ${name}`);
  return value;
}

export function pumpCurve(inputs: Inputs): readonly PumpPoint[] {
  const points = inputs.pump_pts_m3h_kPa as readonly (readonly [number, number])[];
  return points.map(([flowM3h, vacuumKpa]) => ({ flowM3h, vacuumKpa }));
}

/** Area of a rectangle that keeps its vacuum on a spoilboard of a thickness. */
export function heldMm2(a: number, b: number, boardMm: number): number {
  const region = { outer: rectangle(0, 0, fromMm(a), fromMm(b)), holes: [] };
  return borderedBody(region, borderLossMm(boardMm)).heldAreaMm2;
}

/** The least number for which `holds`, which must be true from there up to `high`. */
export function leastWhere(high: number, holds: (value: number) => boolean): number {
  let [low, most] = [0, high];
  for (let halving = 0; halving < 60; halving++) {
    const middle = (low + most) / 2;
    if (holds(middle)) most = middle;
    else low = middle;
  }
  return most;
}
