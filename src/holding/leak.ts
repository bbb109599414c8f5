/**
 * How much air leaks into a vacuum table.
 *
 * Through porous layers the flow of a gas follows the difference of the squared pressures (Darcy,
 * isothermal). An open kerf over a porous spoilboard lets in air from the sides too, as if it were
 * wider, which follows from a conformal map of the layer (derived for this tool, checked by finite
 * differences); what it takes of the vacuum beside it is in border.ts. Through an open slot the flow is that of
 * a nozzle, choked below about half the outer pressure.
 * Sources: Darcy's law for gases; isentropic nozzle flow; Abramowitz & Stegun 1964, section 17.6,
 * for K(k) by the arithmetic-geometric mean.
 * Where we differ: a board through which air goes more easily along than through behaves in the
 * field as a thicker one: the caller widens it.
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

/**
 * The share of the table's vacuum that reaches the underside of a piece through which air leaks too, in series with the
 * spoilboard: the squared pressures divide as the resistances do. `insideShare` is the pressure under the board over that
 * of the air; at 1, for hardly any vacuum, the pressures themselves do.
 */
export function interfaceShare(piecePerM: number, spoilboardPerM: number, insideShare = 1): number {
  // In this form an airtight piece, whose resistance is infinite, gets the whole vacuum.
  const share = 1 / (1 + spoilboardPerM / piecePerM);
  if (insideShare === 1) return share;
  const inside2 = insideShare * insideShare;
  return (1 - Math.sqrt(1 - share * (1 - inside2))) / (1 - insideShare);
}

/** What a skin left at the bottom of a kerf lets through, as a share of the open kerf. */
export function skinLeakShare(skinPerM: number, spoilboardPerM: number): number {
  return spoilboardPerM / (spoilboardPerM + skinPerM);
}

/** The width of the bare strip that leaks as much as a kerf, mm; the spoilboard beside the kerf is covered. */
export function leakWidthMm(kerfMm: number, spoilboardMm: number): number {
  const wide = kerfMm + 2 * CONSTANTS.borderLoss.value * spoilboardMm;
  if (kerfMm > WIDE_KERF * spoilboardMm) return wide;
  const angle = (Math.PI * kerfMm) / (4 * spoilboardMm);
  const modulus = Math.tanh(angle);
  const complement = 1 / Math.cosh(angle);
  // K(k) is pi / 2 over the mean of 1 and k', and K'(k) over that of 1 and k.
  return 2 * spoilboardMm * (geometricMean(modulus) / geometricMean(complement));
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
