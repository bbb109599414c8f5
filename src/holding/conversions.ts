/**
 * Pressure, flow and force in the units of the trade. Source: NIST Special Publication 811,
 * appendix B (from memory, the exact ones by definition).
 */
import { KG_PER_LB, N_PER_LBF } from '../model/units.ts';

const PA = {
  mbar: 100,
  /** Inch of mercury at 32 °F. */
  inHg: 3386.389,
  /** Conventional inch of water. */
  inH2O: 249.0889,
  psi: 6894.757,
} as const;

export type PressureUnit = keyof typeof PA;

const M3H_PER_CFM = 1.699_010_795_5;

export function toPa(value: number, unit: PressureUnit): number {
  return value * PA[unit];
}

export function fromPa(pressurePa: number, unit: PressureUnit): number {
  return pressurePa / PA[unit];
}

export function cfmToM3h(flowCfm: number): number {
  return flowCfm * M3H_PER_CFM;
}

export function newtonToLbf(forceN: number): number {
  return forceN / N_PER_LBF;
}

export function kgToLb(massKg: number): number {
  return massKg / KG_PER_LB;
}
