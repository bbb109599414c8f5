import { rectangle } from '../../src/geometry/shape.ts';
import { airPressurePa, pressureAtGeopotentialPa } from '../../src/holding/atmosphere.ts';
import { feedPerToothMm, meanChipMm, usualChipIn } from '../../src/holding/chip.ts';
import { CONSTANTS } from '../../src/holding/constants.ts';
import {
  cfmToM3h,
  fromPa,
  kgToLb,
  newtonToLbf,
  type PressureUnit,
  toPa,
} from '../../src/holding/conversions.ts';
import { axialForceN, tangentialForceN } from '../../src/holding/cutting-force.ts';
import { discMeanRadius, rectangleMeanRadius } from '../../src/holding/friction.ts';
import {
  borderLossMm,
  criticalPressureRatio,
  interfaceShare,
  layerResistancePerM,
  leakWidthMm,
  nozzleFluxKgPerM2s,
  orificeFlowM3h,
  porousFlowM3h,
  skinLeakShare,
} from '../../src/holding/leak.ts';
import { operatingVacuumKpa } from '../../src/holding/operating-point.ts';
import { curveAtPressure, pumpFlowM3h } from '../../src/holding/pump.ts';
import { skinShearN } from '../../src/holding/skin.ts';
import { tabBendingN, tabCount, tabSectionN } from '../../src/holding/tab-strength.ts';
import { massKg, vacuumForceN, weightN } from '../../src/holding/weight.ts';
import type { PumpPoint } from '../../src/model/machine.ts';
import type { Family } from '../../src/model/stock.ts';
import { fromMm } from '../../src/model/units.ts';
import { borderedBody } from '../holding/jobs.ts';

export type Inputs = Readonly<Record<string, unknown>>;
type Compute = (inputs: Inputs) => number | readonly number[];

/** How the tool computes each value of values.yaml, by its id. */
export const COMPUTED: Readonly<Record<string, Compute>> = {
  ...atmosphere(),
  ...conversions(),
  ...leaks(),
  ...workedExamples(),
  ...friction(),
  ...cutting(),
  ...masses(),
  ...tabsAndSkins(),
};

const MM_PER_INCH = 25.4;
const SEA_LEVEL_PA = CONSTANTS.seaLevelPressure.value;

function atmosphere(): Record<string, Compute> {
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

function conversions(): Record<string, Compute> {
  const pascal =
    (unit: PressureUnit): Compute =>
    (i) =>
      toPa(num(i, unit), unit);
  return {
    A_inHg_to_Pa: pascal('inHg'),
    A_27inHg: pascal('inHg'),
    'A_29.92inHg': pascal('inHg'),
    A_psi_to_Pa: pascal('psi'),
    A_mbar: pascal('mbar'),
    A_inH2O: pascal('inH2O'),
    A_cfm_to_m3h: (i) => cfmToM3h(num(i, 'cfm')),
    A_force_12x12in_full_vac: (i) =>
      newtonToLbf(
        vacuumForceN(toPa(num(i, 'p_psi'), 'psi') / 1000, num(i, 'area_in2') * MM_PER_INCH ** 2),
      ),
    'A_force_80kPa_0.01m2': (i) => vacuumForceN(num(i, 'dp_kPa'), num(i, 'A_m2') * 1e6),
    A_force_80kPa_mass: (i) => num(i, 'F_N') / weightN(1),
  };
}

function leaks(): Record<string, Compute> {
  /** Permeability is in proportion to the flow. */
  const permeability = (m3h: number, areaM2: number, thicknessMm: number, kpa: number): number =>
    m3h / porousFlowM3h(areaM2 * 1e6, layerResistancePerM(thicknessMm, 1), kpa, SEA_LEVEL_PA);
  const osb: Compute = (i) => permeability(num(i, 'q50'), 1, num(i, 'L_mm'), 0.05);
  const width: Compute = (i) => leakWidthMm(num(i, 'w_mm'), num(i, 't_mm'));
  const keptShare: Compute = (i) => {
    const side = num(i, 's_mm');
    return heldMm2(side, side, num(i, 't_mm')) / side ** 2;
  };
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
    A_k_OSB_low_from_q50: osb,
    A_k_OSB_high_from_q50: osb,
    A_leak_conductance_fit: (i) =>
      permeability(num(i, 'Q_m3h'), num(i, 'A_m2'), num(i, 't_mm'), num(i, 'dp_kPa')),
    A_darcy_1m2_20kPa: (i) => {
      const resistance = layerResistancePerM(num(i, 'L_mm'), num(i, 'k_m2'));
      return porousFlowM3h(num(i, 'A_m2') * 1e6, resistance, num(i, 'dp_kPa'), num(i, 'pa'));
    },
    A_darcy_ratio: (i) => {
      const [kpa, pa] = [num(i, 'dp_kPa'), num(i, 'pa')];
      // A flow at next to no vacuum, scaled up, is that of an incompressible fluid.
      return porousFlowM3h(1, 1, kpa, pa) / (porousFlowM3h(1, 1, 1e-6, pa) * kpa * 1e6);
    },
    A_edge_loss_18mm: (i) => borderLossMm(num(i, 't_mm')),
    'A_weff_6.35_18': width,
    'A_weff_12.7_18': width,
    A_eta_edge_50sq: keptShare,
    A_eta_edge_100sq: keptShare,
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

function workedExamples(): Record<string, Compute> {
  const force: Compute = (i) =>
    vacuumForceN(num(i, 'dp_kPa'), heldMm2(num(i, 'a_mm'), num(i, 'b_mm'), num(i, 't_mm')));
  const examples: Record<string, Compute> = {
    A_W3_op_1500m: (i) => kerfPoint(i, pressureAtGeopotentialPa(num(i, 'H_m'))),
    A_W1_force_150x100: force,
    A_W1_force_600x400: force,
    A_W1_force_50x50: force,
    A_force_50x50_uncut_skin: (i) =>
      vacuumForceN(num(i, 'dp_kPa'), num(i, 'a_mm') * num(i, 'b_mm')),
  };
  for (const metres of [0, 10, 20, 40, 60])
    examples[`A_W1_cut${metres}m`] = (i) => kerfPoint(i, SEA_LEVEL_PA);
  for (const area of [50, 100, 200, 400, 800]) examples[`A_W2_slot${area}mm2`] = slotPoint;
  return examples;
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

function friction(): Record<string, Compute> {
  return {
    A_mean_radius_square: (i) => rectangleMeanRadius(num(i, 'a'), num(i, 'b')),
    A_mean_radius_150x100: (i) => rectangleMeanRadius(num(i, 'a_mm'), num(i, 'b_mm')),
    A_friction_torque_disc: (i) => num(i, 'mu') * num(i, 'N') * discMeanRadius(num(i, 'R_m')),
  };
}

function cutting(): Record<string, Compute> {
  const slot = 1;
  const mean: Compute = (i) => meanChipMm(num(i, 'fz'), num(i, 'ae_over_D'));
  const force =
    (chip: string): Compute =>
    (i) =>
      tangentialForceN({
        depthMm: num(i, 'b_mm'),
        edgeNPerMm: num(i, 'ke'),
        shearNPerMm2: num(i, 'kc'),
        chipMm: num(i, chip),
      });
  const deeper: Compute = (i) => {
    const share =
      usualChipIn('mdf', 0.5, num(i, 'depth_D') * 0.5).low / usualChipIn('mdf', 0.5, 0.5).low;
    return num(i, 'c') * share;
  };
  const examples: Record<string, Compute> = {
    B_fz: (i) => feedPerToothMm(num(i, 'feed_mm_min'), num(i, 'rpm'), num(i, 'z')),
    B_hm_slot: (i) => meanChipMm(num(i, 'fz'), slot),
    B_hm_quarter: mean,
    'B_hm_0.1': mean,
    B_Ft_peak_MDF: force('h_mm'),
    B_mean_tooth_force: force('hm'),
    B_axial_upcut_30deg: (i) => axialForceN(num(i, 'Ft'), 1, 0, num(i, 'helix_deg')),
    B_axial_compression: (i) =>
      axialForceN(num(i, 'Ft_per_mm'), num(i, 'up_mm'), num(i, 'down_mm'), num(i, 'helix_deg')),
    B_chipload_derate_2D: deeper,
    B_chipload_derate_3D: deeper,
  };
  for (const cutter of ['1_4_MDF', '1_4_hardwood', '1_4_plywood', '1_2_MDF', '1_2_hardwood'])
    examples[`B_chipload_${cutter}`] = usualChip;
  for (const cutter of ['1_2_plywood', '3_8_plywood', '1_8_plywood'])
    examples[`B_chipload_${cutter}`] = usualChip;
  return examples;
}

/** For a depth of one diameter. */
function usualChip(i: Inputs): readonly number[] {
  const [numerator, denominator] = String(i.D_in).split('/').map(Number);
  const diameter = numerator! / denominator!;
  const family = String(i.material).toLowerCase().split('/')[0] as Family;
  const { low, high } = usualChipIn(family, diameter, diameter);
  return [low, high];
}

function masses(): Record<string, Compute> {
  const plywood: Compute = (i) =>
    massKg(num(i, 'length_mm') * num(i, 'width_mm'), num(i, 't_mm'), num(i, 'rho'));
  return {
    C_birchply_18_1220x2440: plywood,
    C_birchply_18_3050x1525: plywood,
    C_birchply_12_1220x2440: plywood,
    C_birchply_24_3050x1525: plywood,
    C_MDF_19_4x8: (i) => {
      const cubicFootM3 = (12 * MM_PER_INCH * 1e-3) ** 3;
      const density = num(i, 'pcf') / kgToLb(1) / cubicFootM3;
      const areaMm2 = num(i, 'length_in') * num(i, 'width_in') * MM_PER_INCH ** 2;
      return kgToLb(massKg(areaMm2, num(i, 't_in') * MM_PER_INCH, density));
    },
  };
}

function tabsAndSkins(): Record<string, Compute> {
  return {
    D_tab_inplane: (i) => tabBendingN(num(i, 'sigma'), num(i, 't'), num(i, 'w'), num(i, 'D')),
    D_tab_vertical: (i) => tabBendingN(num(i, 'sigma'), num(i, 'w'), num(i, 't'), num(i, 'D')),
    D_tab_tension: (i) =>
      tabSectionN(num(i, 'sigma_t'), { widthMm: num(i, 'w'), heightMm: num(i, 't'), kerfMm: 0 }),
    D_tab_count: (i) => tabCount(num(i, 'demand'), num(i, 'friction'), num(i, 'cap')),
    D_skin_shear: (i) => skinShearN(num(i, 'L'), num(i, 't'), num(i, 'tau')),
    D_min_square_SF2: (i) => {
      const slides = (side: number): boolean => {
        const held = heldMm2(side, side, num(i, 't'));
        const most = num(i, 'mu') * vacuumForceN(num(i, 'dp_kPa'), held);
        return most / num(i, 'F') < num(i, 'SF');
      };
      let side = 50;
      while (slides(side)) side += 0.1;
      return side;
    },
  };
}

/** Area of a rectangle that keeps its vacuum on a spoilboard of a thickness. */
function heldMm2(a: number, b: number, boardMm: number): number {
  const region = { outer: rectangle(0, 0, fromMm(a), fromMm(b)), holes: [] };
  return borderedBody(region, borderLossMm(boardMm)).heldAreaMm2;
}

function num(inputs: Inputs, name: string): number {
  const value = inputs[name];
  if (typeof value !== 'number') throw new Error(`no number ${name}`);
  return value;
}

function pumpCurve(inputs: Inputs): readonly PumpPoint[] {
  const points = inputs.pump_pts_m3h_kPa as readonly (readonly [number, number])[];
  return points.map(([flowM3h, vacuumKpa]) => ({ flowM3h, vacuumKpa }));
}
