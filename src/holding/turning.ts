/**
 * About which point a thing that is pushed at its edge turns first, and how much push that takes.
 *
 * A thing pressed evenly on the table slips as soon as it could turn about some point so that the
 * push does more work than friction takes. So its margin is the least, over all points, of friction
 * times the mean distance of the held area from the point, over the moment of the push about it; a
 * point very far away means that it slides without turning. Points on circles round the centre of
 * pressure are tried, and the push that comes nearest to slipping is followed to its worst point.
 * Source: Goyal, Ruina & Papadopoulos 1991, "Planar sliding with dry friction", Wear 143 (from
 * memory), where friction does the most work it can.
 * Where we differ: their ellipse of push and moment is often put in place of the search; on hollow
 * and long outlines it promises up to a tenth too much, so it is not used.
 * Cost: 129 mean distances for each body, then some thousand products for each margin.
 * Accuracy: within a thousandth, with a skin a hundredth; the quotient has one least value on each
 * side of the push's line.
 * Degenerate: a push through the point has no moment about it, and a margin without end there.
 */
import type { Point } from '../geometry/point.ts';
import { UNITS_PER_MM } from '../model/units.ts';
import { meanDistance, type Sides } from './friction.ts';

/** A point to turn about, seen from the centre of pressure. */
export interface TurningPoint {
  readonly xMm: number;
  readonly yMm: number;
  /** Mean distance of the held area from it. */
  readonly meanMm: number;
}

/** A push as a vector at a cut point, both seen from the centre of pressure. */
export interface PushAt {
  readonly xMm: number;
  readonly yMm: number;
  readonly forceXN: number;
  readonly forceYN: number;
}

/** What a skin, or the friction under a clamp, takes in addition to the friction under the thing. */
export interface SkinHold {
  readonly forceN: number;
  readonly momentNmm: number;
  /** Against lift. */
  readonly downN: number;
}

/** What holds against turning and sliding. */
export interface Hold {
  readonly frictionN: number;
  readonly skin: SkinHold;
}

/** What presses on the table, about its centre. */
export interface Pressed {
  /** Of what is pressed, on the grid. */
  readonly sides: Sides;
  /** Centre of pressure, in the same coordinates, off the grid. */
  readonly centre: Point;
  /** Mean distance of the pressed area from its centre. */
  readonly meanRadiusMm: number;
}

export interface Turning<Push extends PushAt> {
  readonly push: Push;
  /** Null where the thing slides before it turns. */
  readonly about: TurningPoint | null;
  readonly margin: number;
}

/** Circles of points by their radius over the mean radius, and how many points lie on each. */
const CIRCLES = [0.2, 0.45, 0.8, 1.2, 1.8, 2.8, 5, 10];
const POINTS = 16;

/** By these points alone margins are right to one in a hundred, so the pushes within this factor of the least are followed further. */
const NEAR = 1.01;

/** First and last step of the way to the worst point, over the mean radius. */
const FIRST_STEP = 0.2;
const LAST_STEP = 0.002;
const WAYS = [1, 0, -1, 0, 0, 1, 0, -1, 1, 1, -1, -1, 1, -1, -1, 1];

export function turningPoints(body: Pressed): TurningPoint[] {
  const points = [{ xMm: 0, yMm: 0, meanMm: body.meanRadiusMm }];
  for (const circle of CIRCLES)
    for (let k = 0; k < POINTS; k++) {
      const angle = (2 * Math.PI * k) / POINTS;
      const radiusMm = circle * body.meanRadiusMm;
      points.push(pointAt(body, radiusMm * Math.cos(angle), radiusMm * Math.sin(angle)));
    }
  return points;
}

/** The one of `pushes` that comes nearest to moving the body, and about which point. */
export function worstTurning<Push extends PushAt>(
  body: Pressed & { readonly turns: readonly TurningPoint[] },
  pushes: readonly Push[],
  hold: Hold,
): Turning<Push> {
  const coarse = pushes.map((push) => coarseTurning(body.turns, push, hold));
  const byMargin = (worst: Turning<Push>, turning: Turning<Push>): Turning<Push> =>
    turning.margin < worst.margin ? turning : worst;
  if (isTied(hold)) return coarse.reduce(byMargin);
  const least = coarse.reduce((low, { margin }) => Math.min(low, margin), Number.POSITIVE_INFINITY);
  return coarse
    .filter(({ margin }) => margin <= NEAR * least)
    .map((turning) => followed(body, turning, hold))
    .reduce(byMargin);
}

/** Whether a skin or a clamp holds too; that is many times what the push asks for, so points on the circles will do. */
export function isTied({ skin }: Hold): boolean {
  return skin.forceN > 0 || skin.momentNmm > 0;
}

function pointAt({ sides, centre }: Pressed, xMm: number, yMm: number): TurningPoint {
  const at = { x: centre.x + xMm * UNITS_PER_MM, y: centre.y + yMm * UNITS_PER_MM };
  return { xMm, yMm, meanMm: meanDistance(sides, at) / UNITS_PER_MM };
}

function coarseTurning<Push extends PushAt>(
  points: readonly TurningPoint[],
  push: Push,
  hold: Hold,
): Turning<Push> {
  let about: TurningPoint | null = null;
  let margin = slideMargin(push, hold);
  for (const point of points) {
    const each = marginAbout(point, push, hold);
    if (each < margin) [about, margin] = [point, each];
  }
  return { push, about, margin };
}

function slideMargin({ forceXN, forceYN }: PushAt, { frictionN, skin }: Hold): number {
  return (frictionN + skin.forceN) / Math.sqrt(forceXN * forceXN + forceYN * forceYN);
}

function marginAbout(point: TurningPoint, push: PushAt, hold: Hold): number {
  return holdAboutNmm(point, hold) / Math.abs(momentAboutNmm(point, push));
}

/** The moment that friction and skin or clamp take before the thing turns about a point. */
export function holdAboutNmm(
  { xMm, yMm, meanMm }: TurningPoint,
  { frictionN, skin }: Hold,
): number {
  const shift = skin.forceN * Math.sqrt(xMm * xMm + yMm * yMm);
  return frictionN * meanMm + Math.sqrt(shift * shift + skin.momentNmm * skin.momentNmm);
}

export function momentAboutNmm({ xMm, yMm }: TurningPoint, push: PushAt): number {
  return (push.xMm - xMm) * push.forceYN - (push.yMm - yMm) * push.forceXN;
}

/** Goes from point to point as long as the margin falls, by ever smaller steps. */
function followed<Push extends PushAt>(
  body: Pressed,
  { push, about, margin }: Turning<Push>,
  hold: Hold,
): Turning<Push> {
  if (about === null) return { push, about, margin };
  let [point, least] = [about, margin];
  for (let step = FIRST_STEP; step > LAST_STEP; step /= 2) {
    for (let moved = true; moved; ) {
      const from = point;
      moved = false;
      for (let way = 0; way < WAYS.length; way += 2) {
        const byMm = step * body.meanRadiusMm;
        const xMm = from.xMm + byMm * (WAYS[way] as number);
        const yMm = from.yMm + byMm * (WAYS[way + 1] as number);
        const next = pointAt(body, xMm, yMm);
        const each = marginAbout(next, push, hold);
        if (each < least) [point, least, moved] = [next, each, true];
      }
    }
  }
  return { push, about: point, margin: least };
}
