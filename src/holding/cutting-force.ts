/**
 * The force of one pass of the cutter on the piece that it frees.
 *
 * The tangential force on a tooth is linear in its chip, with an intercept for the rubbing of the
 * edge, and grows with the depth of the pass; the radial force is a fixed share of it. The passes
 * are taken as equally deep, so the last one is never reckoned too shallow, unless the file keeps a
 * depth for the last one. A finishing cut takes a thin chip off the sides over the whole depth. Of a tooth's way through
 * a full-width cut three instants are looked at: the front, where the chip is thickest and the force
 * greatest; the angle of the greatest push along the cut, which turns a round piece; and that of the
 * greatest push across it, which lies off the front for a worn cutter.
 * Sources: edge-and-shear model of Engin, Altintas & Ben Amara 2000, Forest Products Journal; lift
 * of helical flutes as the projection along the edge, an upper limit (chip friction takes off up to
 * half). Coefficients from memory, +-40 %.
 * Where we differ: all forces are peaks of one tooth; a mean would be about half. Between the three
 * instants the moment on a corner is up to 16 % higher, which the band covers. A cutter that presses
 * down is not counted as help.
 */
import type { Router } from '../model/machine.ts';
import type { Material } from '../model/stock.ts';
import { fromMm, toMm } from '../model/units.ts';
import { feedPerToothMm } from './chip.ts';
import { CONSTANTS, FAMILY_CONSTANTS } from './constants.ts';

/** What one tooth does to the piece at one instant, in the plane of the sheet. */
export interface Push {
  /** Angle of the tooth from the front of the cut. */
  readonly deg: number;
  readonly acrossN: number;
  readonly alongN: number;
}

/** What a pass does: it cuts a piece free, it goes down to the layer that the last pass takes, or it finishes the sides. */
export type PassKind = 'freeing' | 'above' | 'finishing';

/** The peak force of one pass. */
export interface PassForce {
  readonly kind: PassKind;
  readonly depthMm: number;
  readonly chipMm: number;
  readonly edgeNPerMm: number;
  readonly shearNPerMm2: number;
  readonly tangentialN: number;
  readonly radialRatio: number;
  /** Size of the greatest push. */
  readonly resultantN: number;
  /** The greatest push, the greatest along the cut, the greatest across it. */
  readonly pushes: readonly Push[];
  /** Feed per tooth. */
  readonly feedMm: number;
  /** Where the tooth bites most, from the front of the cut. */
  readonly frontDeg: number;
  /** Upwards where positive. */
  readonly axialN: number;
}

/**
 * The passes that act on a piece that is free, or hangs only on what the last pass takes: the one that frees it first. A
 * finishing cut comes when nothing else holds the piece, and takes its sides over the whole depth.
 */
export function freeingPasses(
  machine: Router,
  material: Material,
): readonly [PassForce, ...PassForce[]] {
  const thicknessMm = toMm(material.thickness);
  const lastMm = toMm(machine.lastPass);
  const force = (depthMm: number, kind: PassKind): PassForce =>
    passForce(machine, material, depthMm, kind);
  const finishing = machine.finish > 0 ? [force(thicknessMm, 'finishing')] : [];
  if (lastMm === 0 || lastMm >= thicknessMm)
    return [force(freeingDepthMm(machine, thicknessMm), 'freeing'), ...finishing];
  const above = force(freeingDepthMm(machine, thicknessMm - lastMm), 'above');
  return [force(lastMm, 'freeing'), above, ...finishing];
}

/** Depth of each of the equal passes that go through `thicknessMm`. */
export function freeingDepthMm(machine: Router, thicknessMm: number): number {
  // In whole lengths: three passes of 1/4 inch go through 3/4 inch.
  return thicknessMm / Math.ceil(fromMm(thicknessMm) / machine.passDepth);
}

export function passForce(
  machine: Router,
  material: Material,
  depthMm: number,
  kind: PassKind = 'freeing',
): PassForce {
  const { cutter } = machine;
  const feedMm = feedPerToothMm(machine.feedMmPerMin, machine.spindleRpm, cutter.flutes);
  const frontDeg = kind === 'finishing' ? finishingDeg(machine) : 0;
  const family = FAMILY_CONSTANTS[material.family];
  const density = material.densityKgPerM3 / family.referenceDensityKgPerM3;
  const { wornEdgeFactor, radialRatioWorn, radialRatioSharp } = CONSTANTS;
  const tooth = {
    depthMm,
    feedMm,
    frontDeg,
    edgeNPerMm: family.edgeNPerMm * density * (cutter.worn ? wornEdgeFactor.value : 1),
    shearNPerMm2: family.shearNPerMm2 * density,
    radialRatio: (cutter.worn ? radialRatioWorn : radialRatioSharp).value,
  };
  const chipMm = chipAtMm(tooth, frontDeg);
  const tangentialN = tangentialForceN({ ...tooth, chipMm });
  const upcutMm = upcutShareMm(machine, depthMm);
  return {
    kind,
    ...tooth,
    chipMm,
    tangentialN,
    resultantN: tangentialN * Math.sqrt(1 + tooth.radialRatio ** 2),
    pushes: pushesOf(tooth),
    axialN: axialForceN(tangentialN / depthMm, upcutMm, depthMm - upcutMm, cutter.helixDeg),
  };
}

/** How far from the front of the cut a tooth is at most that takes the finishing allowance; it starts or ends at the side. */
function finishingDeg({ finish, cutter }: Router): number {
  const engaged = Math.min(1 / 2, finish / cutter.diameter);
  return 90 - (Math.acos(1 - 2 * engaged) * 180) / Math.PI;
}

interface Tooth {
  readonly depthMm: number;
  /** Feed per tooth: the chip at the front of the cut. */
  readonly feedMm: number;
  /** The tooth is in the stock from the side up to so far from the front; 0 in a cut of full width. */
  readonly frontDeg: number;
  readonly edgeNPerMm: number;
  readonly shearNPerMm2: number;
  readonly radialRatio: number;
}

interface Bite {
  readonly depthMm: number;
  readonly chipMm: number;
  readonly edgeNPerMm: number;
  readonly shearNPerMm2: number;
}

function chipAtMm({ feedMm }: Tooth, deg: number): number {
  return feedMm * Math.cos((deg * Math.PI) / 180);
}

/** Tangential force of a tooth in N: depth times (edge + shear times chip). */
export function tangentialForceN(tooth: Bite): number {
  return tooth.depthMm * (tooth.edgeNPerMm + tooth.shearNPerMm2 * tooth.chipMm);
}

/** Axial force in N of flutes of which `upcutMm` of the depth lift and `downcutMm` press; upwards where positive. */
export function axialForceN(
  tangentialNPerMm: number,
  upcutMm: number,
  downcutMm: number,
  helixDeg: number,
): number {
  return tangentialNPerMm * Math.tan((helixDeg * Math.PI) / 180) * (upcutMm - downcutMm);
}

/** How much of the depth the lifting part of the flutes cuts, from the tip. */
function upcutShareMm({ cutter }: Router, depthMm: number): number {
  switch (cutter.spiral) {
    case 'straight':
      // Neither lifts nor presses.
      return depthMm / 2;
    case 'up-cut':
      return depthMm;
    case 'down-cut':
      return 0;
    case 'compression':
      return Math.min(depthMm, toMm(cutter.upcutLength));
  }
}

function pushesOf(tooth: Tooth): Push[] {
  const front = pushAt(tooth, tooth.frontDeg);
  let [along, across] = [front, front];
  for (let deg = -90; deg <= 90; deg++) {
    // Near the side the tooth may be with the feed or against it.
    if (Math.abs(deg) < tooth.frontDeg) continue;
    const push = pushAt(tooth, deg);
    if (push.alongN > along.alongN) along = push;
    if (push.acrossN > across.acrossN) across = push;
  }
  return [front, along, across];
}

/** Sizes of both parts of the push; the tooth moves with the feed where `deg` is positive. */
function pushAt(tooth: Tooth, deg: number): Push {
  const angle = (deg * Math.PI) / 180;
  const [sin, cos] = [Math.sin(angle), Math.cos(angle)];
  const tangentialN = tangentialForceN({ ...tooth, chipMm: chipAtMm(tooth, deg) });
  return {
    deg,
    acrossN: tangentialN * Math.abs(cos - tooth.radialRatio * sin),
    alongN: tangentialN * Math.abs(sin + tooth.radialRatio * cos),
  };
}
