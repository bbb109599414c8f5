/**
 * Air pressure against altitude: the standard atmosphere below 11 km.
 *
 * The air cools evenly with height, and each layer carries the weight of those above; that
 * integrates to a power law.
 * Source: ISO 2533:1975, equal to the US Standard Atmosphere 1976 at these heights. Weather moves
 * the pressure by about 3 % either way.
 */
import { CONSTANTS } from './constants.ts';

/** Pascal at a height above sea level in metres as a map gives it, below sea level too. */
export function airPressurePa(altitudeM: number): number {
  return pressureAtGeopotentialPa(geopotentialAltitudeM(altitudeM));
}

/** The height in a field of constant gravity that costs the same work as the height on the map. */
export function geopotentialAltitudeM(altitudeM: number): number {
  const radius = CONSTANTS.earthRadius.value;
  return (radius * altitudeM) / (radius + altitudeM);
}

/** Pascal at a geopotential altitude in metres. */
export function pressureAtGeopotentialPa(altitudeM: number): number {
  const { seaLevelPressure, seaLevelTemperature, temperatureLapse } = CONSTANTS;
  const { gravity, molarMass, molarGasConstant } = CONSTANTS;
  const exponent =
    (gravity.value * molarMass.value) / (molarGasConstant.value * temperatureLapse.value);
  const warmth = 1 - (temperatureLapse.value * altitudeM) / seaLevelTemperature.value;
  return seaLevelPressure.value * warmth ** exponent;
}
