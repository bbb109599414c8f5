import { CONSTANTS } from './constants.ts';

/** Mass in kg of an area of stock. */
export function massKg(areaMm2: number, thicknessMm: number, densityKgPerM3: number): number {
  return areaMm2 * thicknessMm * 1e-9 * densityKgPerM3;
}

/** Weight of a mass, N. */
export function weightN(kg: number): number {
  return kg * CONSTANTS.gravity.value;
}

/** Force of a vacuum on the area that it reaches, N. */
export function vacuumForceN(vacuumKpa: number, areaMm2: number): number {
  return (vacuumKpa * areaMm2) / 1000;
}
