import { airOf, vacuumAt } from '../../src/holding/air.ts';
import { CONSTANTS, FAMILY_CONSTANTS, type Strength } from '../../src/holding/constants.ts';
import { fromPa } from '../../src/holding/conversions.ts';
import { tangentialForceN } from '../../src/holding/cutting-force.ts';
import { layerResistancePerM, porousFlowM3h } from '../../src/holding/leak.ts';
import { deepestVacuumKpa } from '../../src/holding/pump.ts';
import { STAYS } from '../../src/holding/verdict.ts';
import { FAMILIES, type Family } from '../../src/model/stock.ts';
import { CAUTIONS } from '../../src/outputs/wording.ts';
import { SEA_LEVEL_PA } from './inputs.ts';
import { readJob } from './reading.ts';

/** `just under`: not above, and not needlessly far below. */
export type Relation = 'at least' | 'at most' | 'just under' | 'near';

export interface Row {
  readonly id: string;
  readonly figure: string;
  /** The tool's own. */
  readonly ours: number;
  readonly is: Relation;
  readonly published: number;
  readonly kind: 'published' | 'derived' | 'memory' | 'practice';
  readonly source: string;
}

const JOB = readJob();
const { permeabilityM2: board } = JOB.table.spoilboard;
const { friction } = JOB.table;
const { mdf, particleboard, osb } = FAMILY_CONSTANTS;
const PLYWOODS = ['plywood', 'softwood-plywood'] as const;

type Cells = readonly [
  id: string,
  figure: string,
  ours: number,
  is: Relation,
  published: number,
  kind?: Row['kind'],
];

export const CONSTANT_ROWS: readonly Row[] = [
  ...rows('Gorgan Journal of Wood & Forest Science and Technology, article 789, abstract', [
    ['A_k_MDF_low', 'spoilboard, planed', board.nominal, 'at least', 3.8e-14],
    ['A_k_MDF_low', 'stock of MDF', mdf.permeabilityM2, 'at least', 3.8e-14],
    ['A_k_MDF_high', 'spoilboard, planed', board.nominal, 'at most', 6.26e-13],
    ['A_k_MDF_high', 'spoilboard at worst', board.low, 'near', 6.26e-13],
  ]),
  ...rows('air tests of building boards to EN 12114, at 50 Pa', [
    ['A_q50_OSB_low', 'OSB of 18 mm, m3/(m2 h)', airAt50Pa('osb'), 'at least', 0.107],
    ['A_q50_OSB_high', 'OSB of 18 mm, m3/(m2 h)', airAt50Pa('osb'), 'at most', 1.504],
  ]),
  ...rows('Korane 2016, "How do you size a vacuum cup?", trade article', [
    ['A_vac_porous', 'vacuum of the usual table, kPa', usualVacuumKpa(), 'at least', 20],
    ['A_vac_porous', 'vacuum of the usual table, kPa', usualVacuumKpa(), 'at most', 40],
  ]),
  ...rows('"Liquid pistons pump vacuum", trade article', [
    ['A_liquid_ring_max', 'such a pump in a parts file, inHg', liquidRingInHg(), 'near', 29],
  ]),
  ...rows('Palubicki 2021, Materials 14, 2208, abstract; peripheral milling at 40 and 60 m/s', [
    ['B_kc_PB_slow', 'at the low end of the band', specificForce(0.1, -1), 'at most', 32],
    ['B_kc_PB_fast', 'at the high end of the band', specificForce(0.3, 1), 'at least', 37.6],
  ]),
  ...rows('Filson, Rohrbacher & Kaziunas France 2017, Design for CNC, p. 155', [
    ['B_helix_max_wood', 'usual helix, degrees', usualHelixDeg(), 'at most', 35],
  ]),
  ...rows('Wood Handbook, FPL-GTR-190, chapter 5, smooth dry wood on a hard smooth surface', [
    ['C_mu_wood_handbook', 'friction', friction.nominal, 'at most', 0.5, 'memory'],
    ['C_mu_wood_handbook', 'friction at worst', friction.low, 'at least', 0.3, 'memory'],
  ]),
  ...rows('design page of vacuum components, for wood and for porous or critical work', [
    ['C_mu_vacuum_wood', 'friction', friction.nominal, 'at most', 0.5],
    ['C_S_min_smooth', 'factor to stay', STAYS.margin, 'at least', 1.5],
    ['C_S_min_porous', 'factor to stay', STAYS.margin, 'at least', 2],
  ]),
  ...rows('Villar-García et al. 2020, International Agrophysics; chestnut on chestnut', [
    ['C_mu_chestnut_static', 'friction', friction.nominal, 'at most', 0.46],
    ['C_mu_chestnut_static_range', 'friction', friction.nominal, 'at least', 0.36],
    ['C_mu_chestnut_static_range', 'friction', friction.nominal, 'at most', 0.55],
    ['C_mu_chestnut_kinetic', 'friction at worst', friction.low, 'at most', 0.33],
    ['C_mu_chestnut_kinetic_range', 'friction at worst', friction.low, 'at least', 0.28],
    ['C_mu_chestnut_kinetic_range', 'friction at worst', friction.low, 'at most', 0.39],
  ]),
  ...rows('Villar-García et al. 2024, Sustainability 16, 3886; chestnut at 18 % moisture', [
    ['C_mu_chestnut_18MC', 'friction', friction.nominal, 'at most', 0.7],
  ]),
  ...rows('McKenzie & Karpovich 1968, Wood Science and Technology 2, abstract; unpolished steel', [
    ['C_mu_wood_steel_rough', 'friction', friction.nominal, 'at most', 0.65],
    ['C_mu_wood_steel_rough', 'friction at worst', friction.low, 'at most', 0.4],
    ['C_MK_wet', 'friction', friction.nominal, 'at most', 0.7],
    ['C_MK_wet', 'friction at worst of a parts file', writtenFriction(0.7, 0.15), 'near', 0.15],
  ]),
  // Planed pine on pine slips more easily than the usual friction at worst; a shop has to write it.
  ...rows('Aira et al. 2014, Materiales de Construcción 64 (315); Scots pine, preliminary', [
    [
      'C_mu_pine_transverse',
      'friction at worst of a file',
      writtenFriction(0.24, 0.17),
      'near',
      0.17,
    ],
    ['C_mu_pine_radial', 'friction at worst of a file', writtenFriction(0.12, 0.08), 'near', 0.08],
  ]),
  ...rows('Wood Handbook, table 5-3, as reproduced; at 12 % moisture', [
    ['C_SG_yellow_birch', 'plywood of birch', density('plywood'), 'near', airDry(0.62)],
    ['C_SG_American_beech', 'hardwood', density('hardwood'), 'near', airDry(0.64)],
    ['C_SG_sugar_maple', 'hardwood', density('hardwood'), 'near', airDry(0.63)],
    ['C_SG_white_oak', 'hardwood', density('hardwood'), 'at most', airDry(0.68)],
    ['C_SG_black_cherry', 'hardwood', density('hardwood'), 'at least', airDry(0.5)],
    ['C_SG_ponderosa_pine', 'softwood', density('softwood'), 'near', airDry(0.4)],
  ]),
  ...rows('Wood Handbook, tables 5-3 and 5-5; at 12 % moisture', [
    ['C_SG_northern_red_oak', 'hardwood', density('hardwood'), 'near', airDry(0.63), 'memory'],
    ['C_SG_coast_Douglas-fir', 'softwood', density('softwood'), 'at most', airDry(0.48), 'memory'],
    ['C_SG_ipe', 'hardwood', density('hardwood'), 'at most', airDry(0.92), 'memory'],
    ['C_density_from_SG', 'hardwood', density('hardwood'), 'near', 694.4, 'memory'],
  ]),
  ...PLYWOODS.flatMap((family) => plywoodRows(family, FAMILY_CONSTANTS[family].strength)),
  ...rows('Wood Handbook, FPL-GTR-190, table 12-3', [
    ['C_OSB_MOR_range', 'bending of OSB, MPa', osb.strength.bendingMpa, 'just under', 21.8],
  ]),
  ...rows('EN 312, type P2, 13 to 20 mm, on a data sheet', [
    ['C_EN312_P2_MOR_18', 'bending, MPa', particleboard.strength.bendingMpa, 'just under', 11],
  ]),
  ...rows('EN 622-5:2009, table 3, over 12 to 19 mm', [
    [
      'C_EN622_5_MOR_18',
      'bending of MDF, MPa',
      mdf.strength.bendingMpa,
      'just under',
      20,
      'memory',
    ],
  ]),
  ...rows('ANSI A208.2, thin MDF of grade 220, in a guide for buyers', [
    ['C_A208_2_thin_220', 'bending of MDF, MPa', mdf.strength.bendingMpa, 'at most', 28.9],
  ]),
  ...rows('ILO code of practice, Safety and health in dock work, 17.1; lifting by vacuum', [
    ['H_vac_alarm', 'gauge to stop at, share of the plan', alarmShare(), 'at least', 0.8],
  ]),
];

function rows(source: string, cells: readonly Cells[]): Row[] {
  return cells.map(([id, figure, ours, is, published, kind = 'published']) => {
    return { id, figure, ours, is, published, kind, source };
  });
}

function plywoodRows(family: Family, strength: Strength): Row[] {
  const { planarShearMpa, panelShearMpa, tensionMpa, bendingMpa } = strength;
  return rows(
    'general data of sheathing plywood, equal to the Wood Handbook; lowest of the range, MPa',
    [
      ['C_ply_rolling_shear', `${family} between the layers`, planarShearMpa, 'just under', 1.72],
      ['C_ply_edgewise_shear', `${family} across the panel`, panelShearMpa, 'just under', 5.52],
      ['C_ply_tension', `twice the tension of ${family}`, 2 * tensionMpa, 'just under', 27.6],
      ['C_ply_MOR', `twice the bending of ${family}`, 2 * bendingMpa, 'just under', 48.3],
    ],
  );
}

/** Free air in m3/h through 1 m2 of 18 mm stock. */
function airAt50Pa(family: Family): number {
  const perM = layerResistancePerM(18, FAMILY_CONSTANTS[family].permeabilityM2);
  return porousFlowM3h(1e6, perM, 0.05, SEA_LEVEL_PA);
}

/** Under a sheet of plywood with 20 m of kerf open. */
function usualVacuumKpa(): number {
  const [material] = JOB.materials;
  const air = airOf(JOB.table, JOB.machine.cutter.diameter, material!, material!.sheets[0]!);
  return vacuumAt(air, 20_000, 'nominal');
}

function liquidRingInHg(): number {
  const pump = '{ kind: liquid-ring, flow: 100 m3/h, vacuum: 29 inHg }';
  const { curve } = readJob({ lines: `table: { pump: ${pump} }` }).table.pump;
  return fromPa(deepestVacuumKpa(curve) * 1000, 'inHg');
}

/** Of particleboard in N/mm2 for a chip in mm, at the end of the band that `side` says. */
function specificForce(chipMm: number, side: -1 | 1): number {
  const force = tangentialForceN({ ...particleboard, depthMm: 1, chipMm });
  return (force / chipMm) * (1 + side * CONSTANTS.forceBand.value);
}

function usualHelixDeg(): number {
  const { cutter } = readJob({
    lines: 'machine: { cutter: { diameter: 6, spiral: up-cut } }',
  }).machine;
  return cutter.helixDeg;
}

/** What a parts file with two figures of friction takes at worst. */
function writtenFriction(nominal: number, low: number): number {
  return readJob({ lines: `table: { friction: [${nominal}, ${low}] }` }).table.friction.low;
}

function density(family: Family): number {
  return JOB.materials[FAMILIES.indexOf(family)]!.densityKgPerM3;
}

/** kg/m3 of wood with 12 % moisture from its dry mass over its volume with it: Wood Handbook, chapter 4. */
function airDry(specificGravity: number): number {
  return 1000 * specificGravity * 1.12;
}

function alarmShare(): number {
  const shares = CAUTIONS.flatMap((text) => /gauge.*below (\d+) %/.exec(text)?.[1] ?? []);
  return shares.length === 1 ? Number(shares[0]) / 100 : Number.NaN;
}
