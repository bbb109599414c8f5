/**
 * A clamp as a remedy: where it can stand, and what it holds.
 *
 * Its foot has to stand on the piece, farther from the way of the cutter along every edge than the nut of the spindle
 * reaches; of such places the one nearest to the middle is taken. It presses there: its friction holds against a push
 * as it is, against a turn with the lever of its own foot only, and against tipping by its distance from the side.
 * Source: common practice. Where we differ: the friction under the clamp counts at the low end of its band throughout.
 * Degenerate: a piece without room for the foot gets no clamp, and waste gets none either.
 */
import type { Box } from '../geometry/box.ts';
import type { Point } from '../geometry/point.ts';
import { fromMm } from '../model/units.ts';
import { type Body, leftOfLineMm } from './body.ts';
import { CONSTANTS } from './constants.ts';
import { fittingBoxes } from './fitting-boxes.ts';
import { rectangleMeanRadius } from './friction.ts';
import { type Patient, type Remedy, remedyOf } from './patient.ts';
import { type Reckoned, reckon, type Setting } from './stand.ts';
import type { SkinHold } from './turning.ts';

/** `lying` is the body of the thing as it lies on the sheet. */
export function clampRemedy(
  setting: Setting,
  thing: Patient,
  lying: Body,
  as: Reckoned,
): Remedy | null {
  if (thing.kind !== 'piece') return null;
  const clamp = clampPlace(setting, thing, lying);
  if (clamp === null) return null;
  const skin = clampHold(setting, lying, clamp);
  const clamped = reckon(setting, thing.body, as.openKerfMm, { skin });
  const margins = {
    margin: clamped.nominal.margins.least,
    marginLow: clamped.low.margins.least,
  };
  return remedyOf('clamp', margins, CONSTANTS.clampSeconds.value, { clamp });
}

/** The cutter runs half its width outside the edge. */
function clampPlace({ machine }: Setting, { region }: Patient, { centre }: Body): Box | null {
  const side = fromMm(CONSTANTS.clampFoot.value);
  const nut = fromMm(CONSTANTS.colletNutRadius.value);
  const clear = Math.max(0, nut - machine.cutter.diameter / 2);
  const places = fittingBoxes(region, { length: side, width: side }, Math.ceil(clear));
  let best: Box | null = null;
  for (const place of places)
    if (best === null || away2(place, centre) < away2(best, centre)) best = place;
  return best;
}

function clampHold({ friction }: Setting, { tips }: Body, clamp: Box): SkinHold {
  const { clampForce, clampFoot } = CONSTANTS;
  const forceN = friction.low * clampForce.value;
  const shares = tips.map(
    ({ from, to, centreMm }) => leftOfLineMm(centreOf(clamp), from, to) / centreMm,
  );
  return {
    forceN,
    momentNmm: forceN * rectangleMeanRadius(clampFoot.value, clampFoot.value),
    downN: clampForce.value * Math.min(1, ...shares),
  };
}

function away2(box: Box, point: Point): number {
  const { x, y } = centreOf(box);
  return (x - point.x) ** 2 + (y - point.y) ** 2;
}

function centreOf({ minX, minY, maxX, maxY }: Box): Point {
  return { x: (minX + maxX) / 2, y: (minY + maxY) / 2 };
}
