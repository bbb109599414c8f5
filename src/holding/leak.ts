/**
 * How much air leaks into a vacuum table, and how much of a piece the leaks leave without vacuum.
 *
 * Through porous layers the flow of a gas follows the difference of the squared pressures (Darcy,
 * isothermal). An open kerf over a porous spoilboard lets in air from the sides too, as if it were
 * wider, and robs the covered border beside it; both follow from a conformal map of the layer
 * (derived for this tool, checked by finite differences). Through an open slot the flow is that of
 * a nozzle, choked below about half the outer pressure.
 * Sources: Darcy's law for gases; isentropic nozzle flow; Abramowitz & Stegun 1964, section 17.6,
 * for K(k) by the arithmetic-geometric mean.
 * Where we differ: the border loss is that of the wide-kerf limit, which is a little more than that
 * of a narrow kerf, and corners lose less than two borders. A board through which air goes more
 * easily along than through behaves in the field as a thicker one: the caller widens it.
 */
import { CONSTANTS } from './constants.ts';

/** Resistance of a porous layer in 1/m; a layer without thickness has none. Layers on top of one another add up. */
export function layerResistancePerM(thicknessMm: number, permeabilityM2: number): number {
  return thicknessMm / 1000 / permeabilityM2;
}

/** Free air in m3/h through an area of porous layers between the atmosphere and a vacuum below it. */
export function porousFlowM3h(
  areaMm2: number,
  resistancePerM: number,
  vacuumKpa: number,
  atmospherePa: number,
): number {
  if (areaMm2 === 0) return 0;
  const insidePa = atmospherePa - vacuumKpa * 1000;
  const drive = (atmospherePa * atmospherePa - insidePa * insidePa) / (2 * atmospherePa);
  const perM2 = drive / (CONSTANTS.airViscosity.value * resistancePerM);
  return areaMm2 * 1e-6 * perM2 * 3600;
}

/** The share of the table's vacuum that reaches the underside of a piece through which air leaks too, in series with the spoilboard. */
export function interfaceShare(piecePerM: number, spoilboardPerM: number): number {
  // In this form an airtight piece, whose resistance is infinite, gets the whole vacuum.
  return 1 / (1 + spoilboardPerM / piecePerM);
}

/** What a skin left at the bottom of a kerf lets through, as a share of the open kerf. */
export function skinLeakShare(skinPerM: number, spoilboardPerM: number): number {
  return spoilboardPerM / (spoilboardPerM + skinPerM);
}

/** The width of the bare strip that leaks as much as a kerf, mm; the spoilboard beside the kerf is covered. */
export function leakWidthMm(kerfMm: number, spoilboardMm: number): number {
  const wide = kerfMm + 2 * borderLossMm(spoilboardMm);
  if (kerfMm > WIDE_KERF * spoilboardMm) return wide;
  const angle = (Math.PI * kerfMm) / (4 * spoilboardMm);
  const modulus = Math.tanh(angle);
  const complement = 1 / Math.cosh(angle);
  // K(k) is pi / 2 over the mean of 1 and k', and K'(k) over that of 1 and k.
  return 2 * spoilboardMm * (geometricMean(modulus) / geometricMean(complement));
}

/**
 * Width of the border along an open kerf that a piece loses, mm. `insideShare` is the pressure under the board over that
 * of the air. While it is near 1 the vacuum is in proportion to the difference of the squared pressures, and the width
 * has a closed form; under a deep vacuum the lost vacuum itself is summed up, and the border is wider.
 */
export function borderLossMm(spoilboardMm: number, insideShare = 1): number {
  if (insideShare >= SHALLOW) return CONSTANTS.borderLoss.value * spoilboardMm;
  return deepBorderLoss(insideShare) * spoilboardMm;
}

/** How much of the difference of the squared pressures is lost at `away` spoilboard thicknesses from a wide open kerf, 1 to 0. */
export function fieldShare(away: number): number {
  return 1 - (2 / Math.PI) * Math.atan(Math.sqrt(Math.expm1(Math.PI * away)));
}

/** Free air in m3/h through a sharp-edged opening of `areaMm2`. */
export function orificeFlowM3h(areaMm2: number, vacuumKpa: number, atmospherePa: number): number {
  if (areaMm2 === 0) return 0;
  const { dischargeCoefficient, airGasConstant, shopTemperature } = CONSTANTS;
  const insidePa = atmospherePa - vacuumKpa * 1000;
  const massKgPerS =
    dischargeCoefficient.value * areaMm2 * 1e-6 * nozzleFluxKgPerM2s(insidePa, atmospherePa);
  return ((massKgPerS * airGasConstant.value * shopTemperature.value) / atmospherePa) * 3600;
}

/** Mass flow of air through a nozzle of 1 m2 from the atmosphere into a lower pressure. */
export function nozzleFluxKgPerM2s(insidePa: number, atmospherePa: number): number {
  const { heatCapacityRatio, airGasConstant, shopTemperature } = CONSTANTS;
  const g = heatCapacityRatio.value;
  const ratio = Math.min(1, Math.max(insidePa / atmospherePa, criticalPressureRatio()));
  const rise = ratio ** (2 / g) - ratio ** ((g + 1) / g);
  const heat = ((g - 1) / (2 * g)) * airGasConstant.value * shopTemperature.value;
  return atmospherePa * Math.sqrt(Math.max(0, rise) / heat);
}

/** Inner over outer pressure below which the flow through an opening grows no more. */
export function criticalPressureRatio(): number {
  const g = CONSTANTS.heatCapacityRatio.value;
  return (2 / (g + 1)) ** (g / (g - 1));
}

/** A blower stays above; there a border is up to an eighth wider than the closed form, beside a kerf of a third of the board up to a twentieth. */
const SHALLOW = 0.7;

/** In spoilboard thicknesses: the field falls off by a factor of 4.8 each, so beyond nothing is lost. */
const FIELD_END = 8;
const FIELD_STEPS = 4000;

/** Integral of the lost share of the vacuum over the distance, by the midpoint rule in the square root of the distance, where the field is smooth. */
function deepBorderLoss(insideShare: number): number {
  const inside2 = insideShare * insideShare;
  let lost = 0;
  for (let i = 0; i < FIELD_STEPS; i++) {
    const root = ((i + 0.5) / FIELD_STEPS) * Math.sqrt(FIELD_END);
    const pressure = Math.sqrt(inside2 + fieldShare(root * root) * (1 - inside2));
    lost += ((pressure - insideShare) / (1 - insideShare)) * 2 * root;
  }
  return (lost * Math.sqrt(FIELD_END)) / FIELD_STEPS;
}

/** In spoilboard thicknesses: beyond, both forms agree to the last digit. */
const WIDE_KERF = 20;

/** Arithmetic-geometric mean of 1 and `low`, 0 < low <= 1; it doubles its digits each turn. */
function geometricMean(low: number): number {
  let a = 1;
  let b = low;
  for (let turn = 0; turn < 40 && a - b > 1e-15 * a; turn++)
    [a, b] = [(a + b) / 2, Math.sqrt(a * b)];
  return a;
}
