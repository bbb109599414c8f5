/**
 * Friction from test pieces that were made to slide.
 *
 * A piece on a board that is tilted slides at the angle whose tangent is the friction. A piece that is held by vacuum
 * slides when the pull is the friction times what presses it down: vacuum times held area, and its weight.
 * Source: elementary mechanics.
 * The nominal value is the mean of the readings. Its cautious end is the lowest reading, at most 3/4 of the mean with one
 * or two readings, as where a parts file gives one value, and at most 9/10 with more.
 * Where we differ: at the corners of a square more is held than two borders leave (5 % more at 100 mm on an 18 mm board),
 * so the friction of a pull on an open board comes out that much too high; a covered board or a larger square avoids it.
 */
import type { Band, Table } from '../model/machine.ts';
import {
  FRICTION_BOUNDS,
  type FrictionReading,
  type GaugeReading,
  isAir,
  type PullReading,
  type Surface,
} from '../model/readings.ts';
import { toMm } from '../model/units.ts';
import { airPressurePa } from './atmosphere.ts';
import { borderLossMm } from './border.ts';
import { CONSTANTS } from './constants.ts';

/** Of all readings on test pieces of this surface; null without any. */
export function frictionBand(
  table: Table,
  readings: readonly GaugeReading[],
  surface: Surface,
): Band | null {
  const read = readings.filter((reading) => !isAir(reading)) as readonly FrictionReading[];
  const values = read
    .filter((reading) => reading.surface === surface)
    .map((reading) => frictionOf(table, reading));
  if (values.length === 0) return null;
  const nominal = values.reduce((sum, value) => sum + value, 0) / values.length;
  const share = values.length < MANY_READINGS ? FEW_READINGS_SHARE : READINGS_SHARE;
  return { nominal, low: Math.max(FRICTION_BOUNDS[0], Math.min(...values, share * nominal)) };
}

/** By one reading; infinite where a pull of nothing is held. */
export function frictionOf(table: Table, reading: FrictionReading): number {
  if (reading.kind === 'tilt') return Math.tan((reading.angleDeg * Math.PI) / 180);
  return reading.forceN / pressedN(table, reading);
}

/** The angle in degrees or the pull in newtons that a friction gives. */
export function reckonedFriction(table: Table, reading: FrictionReading, friction: number): number {
  if (reading.kind === 'tilt') return (Math.atan(friction) * 180) / Math.PI;
  return friction * pressedN(table, reading);
}

/** Area of a test square that the vacuum still holds. */
export function heldMm2({ spoilboard, altitudeM }: Table, reading: PullReading): number {
  const insideShare = Math.max(0, 1 - (reading.vacuumKpa * 1000) / airPressurePa(altitudeM));
  const fieldMm = toMm(spoilboard.thickness) * Math.sqrt(spoilboard.alongRatio);
  const border = reading.openBeside ? borderLossMm(fieldMm, insideShare) : 0;
  const side = Math.max(0, toMm(reading.square) - 2 * border);
  return side * side;
}

function pressedN(table: Table, reading: PullReading): number {
  const held = reading.vacuumKpa * 1e-3 * heldMm2(table, reading);
  return held + reading.weightKg * CONSTANTS.gravity.value;
}

const MANY_READINGS = 3;
const FEW_READINGS_SHARE = 0.75;
const READINGS_SHARE = 0.9;
