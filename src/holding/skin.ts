/**
 * A skin: a thin layer left under the whole cut and taken away last.
 *
 * Until then it ties the thing to the sheet: a push shears it along the two sides that run with the
 * push, a moment shears it all round, and lift shears it all round too. Afterwards only the tiny
 * last pass acts.
 * Source: shear over the section of the skin; strength from memory. The shorter width of the thing
 * stands for the sides, which is cautious.
 */
import type { Body } from './body.ts';
import { CONSTANTS } from './constants.ts';
import type { SkinHold } from './turning.ts';

export const NO_SKIN: SkinHold = { forceN: 0, momentNmm: 0, downN: 0 };

export function skinHold(body: Body, skinMm: number): SkinHold {
  const shearMpa = CONSTANTS.skinShear.value;
  return {
    forceN: skinShearN(body.narrowMm, skinMm, shearMpa),
    momentNmm: 2 * body.areaMm2 * skinMm * shearMpa,
    downN: body.perimeterMm * skinMm * shearMpa,
  };
}

/** Force that shears a skin along two sides of `lengthMm`. */
export function skinShearN(lengthMm: number, skinMm: number, shearMpa: number): number {
  return 2 * lengthMm * skinMm * shearMpa;
}

/** Skin for stock of a thickness, mm; 0 where the stock is too thin for one. */
export function skinFor(thicknessMm: number): number {
  return thicknessMm < CONSTANTS.thinnestSkinned.value ? 0 : CONSTANTS.skinThickness.value;
}
