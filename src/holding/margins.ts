/**
 * The safety factors of a loose thing while the cutter frees it: slide, slide and turn together,
 * lift and tip.
 *
 * The friction that holds comes from the vacuum and the weight less the lift of the cutter. Turning
 * is looked at for each instant of the push at each cut point. Lift acts at the cut, not in the
 * middle, and helps the push to tip the thing over a side of its hull: both count together, at the
 * farthest cut point, and a lift in the middle is covered by that. The least factor is the margin.
 */
import type { Arm, Body, Tip } from './body.ts';
import type { PassForce, Push } from './cutting-force.ts';
import { slipMargin, type Wrench } from './friction.ts';
import type { SkinHold } from './skin.ts';

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
    pushes: pass.pushes.map(({ deg, acrossN, alongN }) => ({
      deg,
      acrossN: acrossN * factor,
      alongN: alongN * factor,
    })),
    liftN: Math.max(0, pass.axialN) * factor,
    heightMm: pass.depthMm / 2,
  };
}

export function marginsOf(body: Body, grip: Grip, load: Load): Margins {
  const most = mostWrench(body, grip, load);
  const slide = roundMargin(slipMargin({ forceN: load.resultantN, momentNmm: 0 }, most));
  const turn = roundMargin(slipMargin(worstTurn(body, load, most).wrench, most));
  const tip = roundMargin(worstTip(body.tips, load, downMoment(grip)).margin);
  return { slide, turn, tip, least: Math.min(slide, turn, tip) };
}

/** The most push and the most moment that friction and a skin can take. */
export function mostWrench(body: Body, grip: Grip, load: Load): Wrench {
  const frictionN = grip.friction * Math.max(0, grip.forceN - load.liftN);
  return {
    forceN: frictionN + grip.skin.forceN,
    momentNmm: frictionN * body.meanRadiusMm + grip.skin.momentNmm,
  };
}

/** A push at a cut point, and what the two make about the centre of pressure. */
export interface Turn {
  readonly push: Push;
  readonly arm: Arm;
  readonly wrench: Wrench;
}

/** The instant and the cut point that come nearest to `most`. */
export function worstTurn(body: Body, load: Load, most: Wrench): Turn {
  const turns = load.pushes.flatMap((push) => {
    const forceN = Math.sqrt(push.acrossN ** 2 + push.alongN ** 2);
    return body.arms.map((arm) => {
      const momentNmm = push.acrossN * arm.alongMm + push.alongN * arm.acrossMm;
      return { push, arm, wrench: { forceN, momentNmm } };
    });
  });
  return least(turns, ({ wrench }) => slipMargin(wrench, most));
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
