import { pressureAtGeopotentialPa } from '../../src/holding/atmosphere.ts';
import { borderLossMm, fieldShare } from '../../src/holding/border.ts';
import { calibrate } from '../../src/holding/calibrate.ts';
import { CONSTANTS } from '../../src/holding/constants.ts';
import { fromPa } from '../../src/holding/conversions.ts';
import {
  criticalPressureRatio,
  interfaceShare,
  layerResistancePerM,
  leakWidthMm,
  nozzleFluxKgPerM2s,
  orificeFlowM3h,
  porousFlowM3h,
  skinLeakShare,
} from '../../src/holding/leak.ts';
import { gapFlowM3h } from '../../src/holding/lifted.ts';
import { operatingVacuumKpa } from '../../src/holding/operating-point.ts';
import { curveAtPressure, pumpFlowM3h } from '../../src/holding/pump.ts';
import type { Table } from '../../src/model/machine.ts';
import { fromMm } from '../../src/model/units.ts';
import { DEFAULT_TABLE } from '../holding/jobs.ts';
import {
  type Compute,
  type Computed,
  heldMm2,
  type Inputs,
  leastWhere,
  num,
  pumpCurve,
  SEA_LEVEL_PA,
} from './inputs.ts';

/** Leaks, the field beside a kerf, and the vacuum that a pump keeps up against them. */
export const COMPUTED_AIR: Computed = {
  ...openings(),
  ...layers(),
  ...field(),
  ...operatingPoints(),
};

function openings(): Computed {
  return {
    A_critical_ratio_air: () => criticalPressureRatio(),
    A_choke_vacuum_inHg: (i) =>
      fromPa((1 - criticalPressureRatio()) * num(i, 'p_atm_kPa') * 1000, 'inHg'),
    A_choked_flux: (i) => nozzleFluxKgPerM2s(0, num(i, 'p')),
    A_choked_free_air_velocity: (i) => {
      const coefficient = CONSTANTS.dischargeCoefficient.value;
      return orificeFlowM3h(1e6 / coefficient, num(i, 'p') / 1000, num(i, 'p')) / 3600;
    },
    A_orifice_1mm2_20kPa: (i) => orificeFlowM3h(num(i, 'A_mm2'), num(i, 'dp_kPa'), SEA_LEVEL_PA),
    A_orifice_incompressible_20kPa: (i) =>
      // A flow at next to no vacuum, scaled up by the root of the vacuum, is that of an incompressible fluid.
      orificeFlowM3h(num(i, 'A_mm2'), num(i, 'dp_kPa') * 1e-6, SEA_LEVEL_PA) * 1e3,
    A_gap_poiseuille: (i) => {
      const gap = {
        lengthMm: num(i, 'b_m') * 1000,
        heightMm: num(i, 'h_mm'),
        depthMm: num(i, 'L_mm'),
      };
      // At next to no vacuum, scaled up: the published one is that of an incompressible fluid.
      return gapFlowM3h([gap], 0, num(i, 'dp_kPa') * 1e-6, SEA_LEVEL_PA) * 1e6;
    },
    A_orifice_exponent_large: (i) => {
      const [single, double] = [1, 2].map((times) =>
        orificeFlowM3h(1, times * num(i, 'dp_kPa'), SEA_LEVEL_PA),
      );
      return Math.log2(double! / single!);
    },
  };
}

function layers(): Computed {
  /** Permeability is in proportion to the flow. */
  const permeability = (m3h: number, areaM2: number, thicknessMm: number, kpa: number): number =>
    m3h / porousFlowM3h(areaM2 * 1e6, layerResistancePerM(thicknessMm, 1), kpa, SEA_LEVEL_PA);
  const osb: Compute = (i) => permeability(num(i, 'q50'), 1, num(i, 'L_mm'), 0.05);
  return {
    A_k_OSB_low_from_q50: osb,
    A_k_OSB_high_from_q50: osb,
    A_leak_conductance_fit: calibratedPermeability,
    A_darcy_1m2_20kPa: (i) => {
      const resistance = layerResistancePerM(num(i, 'L_mm'), num(i, 'k_m2'));
      return porousFlowM3h(num(i, 'A_m2') * 1e6, resistance, num(i, 'dp_kPa'), num(i, 'pa'));
    },
    A_darcy_ratio: (i) => {
      const [kpa, pa] = [num(i, 'dp_kPa'), num(i, 'pa')];
      // A flow at next to no vacuum, scaled up, is that of an incompressible fluid.
      return porousFlowM3h(1, 1, kpa, pa) / (porousFlowM3h(1, 1, 1e-6, pa) * kpa * 1e6);
    },
    A_interface_fraction: (i) =>
      interfaceShare(
        layerResistancePerM(num(i, 'tw'), num(i, 'kw')),
        layerResistancePerM(num(i, 'ts'), num(i, 'ks')),
      ),
    A_skin_series_MDF: (i) => skinLeakShare(num(i, 'skin_mm'), num(i, 't')),
    A_skin_series_veneer: (i) =>
      skinLeakShare(
        layerResistancePerM(num(i, 'skin_mm'), num(i, 'k_skin')),
        layerResistancePerM(num(i, 't'), num(i, 'k')),
      ),
  };
}

/** From the gauge at a bare table, with a pump that moves the flow at the vacuum that was read. */
function calibratedPermeability(i: Inputs): number {
  const [flowM3h, vacuumKpa] = [num(i, 'Q_m3h'), num(i, 'dp_kPa')];
  const curve = [
    { flowM3h: 2 * flowM3h, vacuumKpa: 0 },
    { flowM3h, vacuumKpa },
    { flowM3h: 0, vacuumKpa: 2 * vacuumKpa },
  ];
  const table: Table = {
    ...DEFAULT_TABLE,
    size: { length: fromMm(num(i, 'A_m2') * 1000), width: fromMm(1000) },
    pump: { kind: 'pump', curve },
    spoilboard: { ...DEFAULT_TABLE.spoilboard, thickness: fromMm(num(i, 't_mm')) },
  };
  const kerf = { kerfLength: 0, kerfWidth: 0, throttle: 0 };
  const bare = { kind: 'bare', vacuumKpa, sheet: null, ...kerf } as const;
  const all = { unit: 'mm', table, given: new Set<string>(), readings: [bare] } as const;
  return calibrate(all).permeabilityM2!.nominal;
}

function field(): Computed {
  const width: Compute = (i) => leakWidthMm(num(i, 'w_mm'), num(i, 't_mm'));
  const border: Compute = (i) => borderLossMm(num(i, 't_mm'));
  const keptShare: Compute = (i) => {
    const side = num(i, 's_mm');
    return heldMm2(side, side, num(i, 't_mm')) / side ** 2;
  };
  return {
    A_edge_loss_coeff: border,
    A_edge_loss_18mm: border,
    A_phi_profile: (i) => fieldShare(num(i, 'x_over_t')),
    A_edge_half_pressure: (i) => {
      const board = num(i, 't_mm');
      return leastWhere(board, (away) => fieldShare(away / board) <= 0.5);
    },
    'A_weff_6.35_18': width,
    'A_weff_12.7_18': width,
    A_eta_edge_50sq: keptShare,
    A_eta_edge_100sq: keptShare,
  };
}

function operatingPoints(): Computed {
  const kerfs = [0, 10, 20, 40, 60].map((metres) => `A_W1_cut${metres}m`);
  const slots = [50, 100, 200, 400, 800].map((area) => `A_W2_slot${area}mm2`);
  return {
    ...Object.fromEntries(kerfs.map((id) => [id, (i: Inputs) => kerfPoint(i, SEA_LEVEL_PA)])),
    ...Object.fromEntries(slots.map((id) => [id, slotPoint])),
    A_W3_op_1500m: (i) => kerfPoint(i, pressureAtGeopotentialPa(num(i, 'H_m'))),
  };
}

/** Vacuum and flow with a length of kerf open on a porous spoilboard. */
function kerfPoint(i: Inputs, atmospherePa: number): readonly number[] {
  const curve = curveAtPressure(pumpCurve(i), atmospherePa / SEA_LEVEL_PA);
  const kerfMm2 = num(i, 'cut_m') * 1000 * leakWidthMm(num(i, 'kerf_mm'), num(i, 't_mm'));
  const areaMm2 = num(i, 'exposed_m2') * 1e6 + kerfMm2;
  const resistance = layerResistancePerM(num(i, 't_mm'), num(i, 'k'));
  const leak = (kpa: number): number => porousFlowM3h(areaMm2, resistance, kpa, atmospherePa);
  const vacuum = operatingVacuumKpa(curve, leak);
  return [vacuum, pumpFlowM3h(curve, vacuum)];
}

/** Vacuum and flow with a slot open to the plenum. */
function slotPoint(i: Inputs): readonly number[] {
  const curve = pumpCurve(i);
  const leak = (kpa: number): number => orificeFlowM3h(num(i, 'A_mm2'), kpa, SEA_LEVEL_PA);
  const vacuum = operatingVacuumKpa(curve, leak);
  return [vacuum, pumpFlowM3h(curve, vacuum)];
}
