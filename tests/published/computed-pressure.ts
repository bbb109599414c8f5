import { airPressurePa, pressureAtGeopotentialPa } from '../../src/holding/atmosphere.ts';
import {
  cfmToM3h,
  fromPa,
  newtonToLbf,
  type PressureUnit,
  toPa,
} from '../../src/holding/conversions.ts';
import { curveAtPressure } from '../../src/holding/pump.ts';
import { vacuumForceN, weightN } from '../../src/holding/weight.ts';
import { type Compute, type Computed, MM_PER_INCH, num, SEA_LEVEL_PA } from './inputs.ts';
import { readJob } from './reading.ts';

/** The air outside, and the units of pressure and flow. */
export const COMPUTED_PRESSURE: Computed = { ...atmosphere(), ...conversions() };

function atmosphere(): Computed {
  const geopotential: Compute = (i) => pressureAtGeopotentialPa(num(i, 'H_m'));
  const feet: Compute = (i) =>
    fromPa(pressureAtGeopotentialPa(num(i, 'Z_ft') * 12 * MM_PER_INCH * 1e-3), 'psi');
  return {
    A_isa_p_0m: geopotential,
    A_isa_p_500m: geopotential,
    A_isa_p_1000m: geopotential,
    A_isa_p_1500m: geopotential,
    A_isa_p_2000m: geopotential,
    A_isa_p_3000m: geopotential,
    A_isa_geometric_1000m: (i) => airPressurePa(num(i, 'z_m')),
    A_isa_short_formula_1000m: (i) => pressureAtGeopotentialPa(num(i, 'h_m')),
    A_ip_formula_1000ft: feet,
    A_ip_formula_5000ft: feet,
    A_ip_formula_10000ft: feet,
    A_barometric_drop: (i) => fromPa(airPressurePa(0) - airPressurePa(num(i, 'dz_m')), 'mbar'),
    A_W3_altitude_force_ratio: (i) => pressureAtGeopotentialPa(num(i, 'H_m')) / SEA_LEVEL_PA,
    A_altitude_pump_derate: (i) => {
      const rated = [{ flowM3h: 0, vacuumKpa: toPa(num(i, 'Vo_inHg'), 'inHg') / 1000 }];
      const share = toPa(num(i, 'Pa_inHg'), 'inHg') / SEA_LEVEL_PA;
      return fromPa(curveAtPressure(rated, share)[0]!.vacuumKpa * 1000, 'inHg');
    },
  };
}

function conversions(): Computed {
  const pascal =
    (unit: PressureUnit): Compute =>
    (i) =>
      toPa(num(i, unit), unit);
  return {
    A_inHg_to_Pa: pascal('inHg'),
    A_27inHg: (i) => [
      toPa(num(i, 'inHg'), 'inHg'),
      writtenPoint('1 m3/h', `${i.inHg} inHg`).vacuumKpa * 1000,
    ],
    'A_29.92inHg': pascal('inHg'),
    A_psi_to_Pa: pascal('psi'),
    C_psi_300: (i) => toPa(num(i, 'psi'), 'psi') / 1e6,
    A_mbar: (i) => [
      toPa(num(i, 'mbar'), 'mbar'),
      writtenPoint('1 m3/h', `${i.mbar} mbar`).vacuumKpa * 1000,
    ],
    A_inH2O: pascal('inH2O'),
    A_cfm_to_m3h: (i) => [cfmToM3h(num(i, 'cfm')), writtenPoint(`${i.cfm} cfm`, '0 kPa').flowM3h],
    A_force_12x12in_full_vac: (i) =>
      newtonToLbf(
        vacuumForceN(toPa(num(i, 'p_psi'), 'psi') / 1000, num(i, 'area_in2') * MM_PER_INCH ** 2),
      ),
    'A_force_80kPa_0.01m2': (i) => vacuumForceN(num(i, 'dp_kPa'), num(i, 'A_m2') * 1e6),
    A_force_80kPa_mass: (i) => num(i, 'F_N') / weightN(1),
  };
}

/** The first point of a pump's curve as a parts file has it. */
function writtenPoint(flow: string, vacuum: string) {
  const curve = `[[${flow}, ${vacuum}], [0, 100 kPa]]`;
  return readJob({ lines: `table: { pump: { curve: ${curve} } }` }).table.pump.curve[0]!;
}
