/**
 * The force of one pass of the cutter on the piece that it frees.
 *
 * The tangential force on a tooth is linear in its chip, with an intercept for the rubbing of the
 * edge, and grows with the depth of the pass; the radial force is a fixed share of it. The passes
 * are taken as equally deep, so the last one is never reckoned too shallow. Of a tooth's way through
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
import { toMm } from '../model/units.ts';
import { feedPerToothMm } from './chip.ts';
import { CONSTANTS, FAMILY_CONSTANTS } from './constants.ts';

/** What one tooth does to the piece at one instant, in the plane of the sheet. */
export interface Push {
  /** Angle of the tooth from the front of the cut. */
  readonly deg: number;
  readonly acrossN: number;
  readonly alongN: number;
}

/** The peak force of one pass. */
export interface PassForce {
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
  /** Upwards where positive. */
  readonly axialN: number;
}

/** The pass that frees a piece: the last one of as many equal ones as the depth needs. */
export function freeingPass(machine: Router, material: Material): PassForce {
  return passForce(machine, material, freeingDepthMm(machine, toMm(material.thickness)));
}

/** Depth of each of the equal passes that go through `thicknessMm`. */
export function freeingDepthMm(machine: Router, thicknessMm: number): number {
  return thicknessMm / Math.ceil(thicknessMm / toMm(machine.passDepth));
}

export function passForce(machine: Router, material: Material, depthMm: number): PassForce {
  const { cutter } = machine;
  const chipMm = feedPerToothMm(machine.feedMmPerMin, machine.spindleRpm, cutter.flutes);
  const family = FAMILY_CONSTANTS[material.family];
  const density = material.densityKgPerM3 / family.referenceDensityKgPerM3;
  const { wornEdgeFactor, radialRatioWorn, radialRatioSharp } = CONSTANTS;
  const edgeNPerMm = family.edgeNPerMm * density * (cutter.worn ? wornEdgeFactor.value : 1);
  const shearNPerMm2 = family.shearNPerMm2 * density;
  const radialRatio = (cutter.worn ? radialRatioWorn : radialRatioSharp).value;
  const tooth = { depthMm, chipMm, edgeNPerMm, shearNPerMm2, radialRatio };
  const tangentialN = tangentialForceN(tooth);
  const upcutMm = upcutShareMm(machine, depthMm);
  return {
    ...tooth,
    tangentialN,
    resultantN: tangentialN * Math.sqrt(1 + radialRatio ** 2),
    pushes: pushesOf(tooth),
    axialN: axialForceN(tangentialN / depthMm, upcutMm, depthMm - upcutMm, cutter.helixDeg),
  };
}

interface Tooth {
  readonly depthMm: number;
  readonly chipMm: number;
  readonly edgeNPerMm: number;
  readonly shearNPerMm2: number;
  readonly radialRatio: number;
}

/** Tangential force of a tooth in N: depth times (edge + shear times chip). */
export function tangentialForceN(tooth: Omit<Tooth, 'radialRatio'>): number {
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
  const front = pushAt(tooth, 0);
  let [along, across] = [front, front];
  for (let deg = -90; deg <= 90; deg++) {
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
  const tangentialN = tangentialForceN({ ...tooth, chipMm: tooth.chipMm * cos });
  return {
    deg,
    acrossN: tangentialN * Math.abs(cos - tooth.radialRatio * sin),
    alongN: tangentialN * Math.abs(sin + tooth.radialRatio * cos),
  };
}
