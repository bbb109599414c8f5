import type { Random } from '../random.ts';
import { type Crowd, type CrowdSheet, formIndex, type Place } from './crowd.ts';
import type { Form } from './forms.ts';
import { findNear } from './near.ts';
import { rootAt } from './overlap.ts';
import type { TurnChoices } from './turn-choices.ts';

/** A place with the weighted loss that a body would have there. */
export interface Probe extends Place {
  readonly loss: number;
}

/** What an evaluation costs, and each entry whose box overlaps. */
const LOSS_WORK = 27;
const ROOT_WORK = 11;

/** Where the origin of a form may lie on a sheet, ends included. */
export interface Range {
  readonly minX: number;
  readonly maxX: number;
  readonly minY: number;
  readonly maxY: number;
}

export function placeOf({ sheet, orientation, x, y }: Crowd, i: number): Place {
  return {
    sheet: sheet[i] as number,
    orientation: orientation[i] as number,
    x: x[i] as number,
    y: y[i] as number,
  };
}

/** The weighted loss of entry `i` with its form at (x, y) of a sheet; not less than `bound` where the sum is given up. */
export function lossAt(
  crowd: Crowd,
  i: number,
  form: number,
  sheet: number,
  x: number,
  y: number,
  bound: number,
): number {
  const { setup, form: forms, x: xs, y: ys, left, right, bottom, top } = crowd;
  const { weight, size } = crowd;
  const { near } = crowd.sheets[sheet] as CrowdSheet;
  const { reach } = setup.forms[form] as Form;
  const minX = x + reach.minX;
  const maxX = x + reach.maxX;
  const minY = y + reach.minY;
  const maxY = y + reach.maxY;
  const most = bound / (size[i] as number);
  const pairs = i * crowd.total;
  const { overlaps } = setup;
  const maps = overlaps.maps.ofForm[form] as Int32Array;
  const count = findNear(near, minX, minY, maxX, maxY);
  const { found } = near;
  let sum = 0;
  let work = LOSS_WORK + count;
  for (let k = 0; k < count; k++) {
    const j = found[k] as number;
    if (minX >= (right[j] as number) || maxX <= (left[j] as number)) continue;
    if (minY >= (top[j] as number) || maxY <= (bottom[j] as number) || j === i) continue;
    const factor = (weight[pairs + j] as number) * (size[j] as number);
    const room = (most - sum) / factor;
    const dx = x - (xs[j] as number);
    const dy = y - (ys[j] as number);
    const still = forms[j] as number;
    sum += factor * rootAt(overlaps, maps[still] as number, form, still, dx, dy, room);
    work += ROOT_WORK;
    if (sum >= most) break;
  }
  crowd.work += work;
  return sum * (size[i] as number);
}

/** Where the body's form may lie on the sheet; null where it does not fit or the grain forbids it. */
export function rangeOf(crowd: Crowd, i: number, sheet: number, orientation: number): Range | null {
  const { stock, endX } = crowd.sheets[sheet] as CrowdSheet;
  const { setup, body } = crowd;
  const room = setup.rooms[stock];
  const allowed = setup.task.bodies[body[i] as number]?.orientations[orientation]?.allowedOn[stock];
  if (room === undefined || !allowed) return null;
  const { width, height } = formAt(crowd, i, orientation);
  const maxX = endX - width;
  const maxY = room.maxY - height;
  return maxX < room.minX || maxY < room.minY
    ? null
    : { minX: room.minX, maxX, minY: room.minY, maxY };
}

export function formAt({ setup, body }: Crowd, i: number, orientation: number): Form {
  return setup.forms[formIndex(setup, body[i] as number, orientation)] as Form;
}

/** An orientation for a place anywhere. */
export function drawOrientation({ setup, body }: Crowd, i: number, random: Random): number {
  const { drawn } = setup.turnsOfBody[body[i] as number] as TurnChoices;
  return drawn[Math.floor(random() * drawn.length)] as number;
}
