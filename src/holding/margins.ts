/**
 * The safety factors of a loose thing while the cutter frees it: slide, turn about any point, lift
 * and tip.
 *
 * The friction that holds comes from the vacuum and the weight less the lift of the cutter. Turning
 * is looked at for each instant of the push at each cut point. Lift acts at the cut, not in the
 * middle, and helps the push to tip the thing over a side of its hull: both count together, at the
 * farthest cut point, and a lift in the middle is covered by that. The least factor is the margin.
 */
import type { Body, CutPoint, Tip } from './body.ts';
import type { PassForce, Push } from './cutting-force.ts';
import {
  type Hold,
  isTied,
  type PushAt,
  type SkinHold,
  type Turning,
  worstTurning,
} from './turning.ts';

/** What the cutter does, with the band taken in. */
export interface Load {
  readonly resultantN: number;
  readonly pushes: readonly Push[];
  /** Never negative. */
  readonly liftN: number;
  /** Height of the push over the table. */
  readonly heightMm: number;
}

/** What holds against it. */
export interface Grip {
  /** Vacuum and weight. */
  readonly forceN: number;
  readonly friction: number;
  readonly skin: SkinHold;
}

export interface Margins {
  readonly slide: number;
  /** Slide and turn together. */
  readonly turn: number;
  readonly tip: number;
  readonly least: number;
}

/** The force of a pass times `factor`, which is 1 for the nominal force. */
export function loadOf(pass: PassForce, factor: number): Load {
  return {
    resultantN: pass.resultantN * factor,
    pushes: pass.pushes.map((push) => scaledPush(push, factor)),
    liftN: Math.max(0, pass.axialN) * factor,
    heightMm: pass.depthMm / 2,
  };
}

export function marginsOf(body: Body, grip: Grip, load: Load): Margins {
  const hold = holdOf(grip, load);
  const slide = roundMargin((hold.frictionN + hold.skin.forceN) / load.resultantN);
  const turn = roundMargin(worstTurn(body, hold, load).margin);
  const tip = roundMargin(worstTip(body.tips, load, downMoment(grip)).margin);
  return { slide, turn, tip, least: Math.min(slide, turn, tip) };
}

/** Friction under the vacuum and the weight less the lift, and the skin. */
export function holdOf(grip: Grip, load: Load): Hold {
  const frictionN = grip.friction * Math.max(0, grip.forceN - load.liftN);
  return { frictionN, skin: grip.skin };
}

/** A push at a cut point, as the tooth gives it and as a vector. */
export interface CutPush extends PushAt {
  readonly push: Push;
  readonly cut: CutPoint;
}

/** What was found for a body without a skin, by the shares of its pushes. */
const KNOWN = new WeakMap<Body, Map<string, Turning<CutPush>>>();

/**
 * The instant and the cut point that come nearest to moving the body, and the point about which it
 * would turn. Without a skin a push turns a body about the same point however strong it is and
 * however well the body is held, so that is looked for once.
 */
export function worstTurn(body: Body, hold: Hold, load: Load): Turning<CutPush> {
  if (isTied(hold)) return search(body, hold, load);
  const shares = load.pushes.map(({ acrossN, alongN }) =>
    [acrossN, alongN].map((partN) => (partN / load.resultantN).toPrecision(12)),
  );
  const key = shares.join(' ');
  const own = KNOWN.get(body) ?? new Map<string, Turning<CutPush>>();
  KNOWN.set(body, own);
  const known = own.get(key) ?? search(body, { ...hold, frictionN: 1 }, unitOf(load));
  own.set(key, known);
  const { push, about, margin } = known;
  return {
    push: scaled(push, load.resultantN),
    about,
    margin: (margin * hold.frictionN) / load.resultantN,
  };
}

function search(body: Body, hold: Hold, load: Load): Turning<CutPush> {
  const pushes = load.pushes.flatMap((push) => body.cuts.flatMap((cut) => sensesOf(push, cut)));
  return worstTurning(body, pushes, hold);
}

/** The push in both senses along the side; turning both its parts round gives the same moments the other way. */
function sensesOf(push: Push, cut: CutPoint): CutPush[] {
  const { xMm, yMm, sideX, sideY } = cut;
  return [push.alongN, 0 - push.alongN].map((alongN) => ({
    push,
    cut,
    xMm,
    yMm,
    forceXN: alongN * sideX - push.acrossN * sideY,
    forceYN: alongN * sideY + push.acrossN * sideX,
  }));
}

function scaledPush({ deg, acrossN, alongN }: Push, factor: number): Push {
  return { deg, acrossN: acrossN * factor, alongN: alongN * factor };
}

/** The load as if its resultant were 1 N. */
function unitOf(load: Load): Load {
  const pushes = load.pushes.map((push) => scaledPush(push, 1 / load.resultantN));
  return { ...load, pushes, resultantN: 1 };
}

function scaled(at: CutPush, factor: number): CutPush {
  return {
    ...at,
    push: scaledPush(at.push, factor),
    forceXN: at.forceXN * factor,
    forceYN: at.forceYN * factor,
  };
}

/** The side of the hull over which the thing tips first; `keepingNmm` gives the moment that keeps it down about a side. */
export function worstTip(
  tips: readonly Tip[],
  load: Load,
  keepingNmm: (tip: Tip) => number,
): { readonly tip: Tip; readonly margin: number } {
  const marginAt = (tip: Tip): number =>
    keepingNmm(tip) / (load.resultantN * load.heightMm + load.liftN * tip.cutMm);
  const tip = least(tips, marginAt);
  return { tip, margin: marginAt(tip) };
}

/** The moment of vacuum, weight and skin about a side. */
export function downMoment({ forceN, skin }: Grip): (tip: Tip) => number {
  return ({ centreMm }) => (forceN + skin.downN) * centreMm;
}

/** Factors are rounded to the two decimals that are printed before anything compares them. */
export function roundMargin(margin: number): number {
  return Math.round(margin * 100) / 100;
}

/** The first of those for which `value` is smallest. */
function least<T>(list: readonly T[], value: (item: T) => number): T {
  let best = list[0] as T;
  let lowest = value(best);
  for (const item of list) {
    const each = value(item);
    if (each < lowest) [best, lowest] = [item, each];
  }
  return best;
}
