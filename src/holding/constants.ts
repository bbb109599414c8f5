import type { Family } from '../model/stock.ts';

/**
 * How far a number can be trusted: `published` was read in its source; `derived` follows from
 * physics or a definition; `memory` is remembered from the source named; `practice` is what shops
 * do, without a source.
 */
export type Basis = 'published' | 'derived' | 'memory' | 'practice';

export interface Constant {
  readonly value: number;
  readonly unit: string;
  readonly basis: Basis;
  readonly source: string;
}

/** Every number of the reckoning that is not the user's, with its unit and where it comes from. */
export const CONSTANTS = {
  seaLevelPressure: constant(101_325, 'Pa', 'published', 'ISO 2533:1975'),
  seaLevelTemperature: constant(288.15, 'K', 'published', 'ISO 2533:1975'),
  temperatureLapse: constant(0.0065, 'K/m', 'published', 'ISO 2533:1975, below 11 km'),
  gravity: constant(9.80665, 'm/s2', 'published', 'ISO 2533:1975'),
  molarMass: constant(0.0289644, 'kg/mol', 'published', 'US Standard Atmosphere 1976'),
  molarGasConstant: constant(8.31432, 'J/(mol K)', 'published', 'US Standard Atmosphere 1976'),
  earthRadius: constant(6_356_766, 'm', 'published', 'ISO 2533:1975'),
  airGasConstant: constant(287.053, 'J/(kg K)', 'published', 'ISO 2533:1975'),
  airViscosity: constant(1.813e-5, 'Pa s', 'memory', 'dry air at 20 °C, any table of gases'),
  shopTemperature: constant(293.15, 'K', 'practice', 'a shop at 20 °C'),
  heatCapacityRatio: constant(1.4, '1', 'published', 'dry air'),
  dischargeCoefficient: constant(0.61, '1', 'memory', 'sharp-edged orifice'),
  airDensity: constant(1.204, 'kg/m3', 'memory', 'dry air at 20 °C and sea level'),
  pipeFriction: constant(0.02, '1', 'memory', 'friction factor of plain pipe, Moody 1944'),
  elbowLoss: constant(0.9, 'dynamic pressures', 'memory', 'a sharp elbow, handbook tables'),
  borderLoss: constant(
    (2 * Math.LN2) / Math.PI,
    'spoilboard thicknesses',
    'derived',
    'conformal map of the field under a covered layer beside an open kerf',
  ),
  forceBand: constant(0.4, '1', 'memory', 'spread of published cutting forces, either way'),
  radialRatioSharp: constant(0.3, '1', 'memory', 'radial to tangential force, sharp carbide'),
  radialRatioWorn: constant(1, '1', 'memory', 'radial to tangential force, worn cutter'),
  wornEdgeFactor: constant(2.5, '1', 'memory', 'edge force of a worn cutter, 2 to 3 times'),
  cutterChange: constant(180, 's', 'practice', 'changing the cutter by hand and measuring it'),
  openZone: constant(10, 's', 'practice', 'opening the valve of a zone'),
  maskTable: constant(120, 's', 'practice', 'laying strips over the bare table'),
  strengthShare: constant(
    0.8,
    '1',
    'published',
    'panels of the trade fall short of their standard: Dettmer & Smith 2015, BioResources 10(3) 6032',
  ),
  skinThickness: constant(
    0.5,
    'mm',
    'practice',
    'skins of 0.2 to 0.8 mm; under 0.4 mm is a gamble',
  ),
  skinShear: constant(3, 'MPa', 'memory', 'shear of a thin layer of panel'),
  thinnestSkinned: constant(3, 'mm', 'practice', 'thinnest stock in which a skin makes sense'),
  tabWidth: constant(1.5, 'cutter diameters', 'practice', 'tabs 1 to 2 diameters wide'),
  tabHeight: constant(0.2, 'thicknesses', 'practice', 'tabs 15 to 25 % of the thickness high'),
  manyTabs: constant(4, '1', 'practice', 'rather than more tabs than this, larger ones'),
  largeTabWidth: constant(2, 'cutter diameters', 'practice', 'tabs 1 to 2 diameters wide'),
  largeTabHeight: constant(
    0.25,
    'thicknesses',
    'practice',
    'tabs 15 to 25 % of the thickness high',
  ),
  mostTabs: constant(6, '1', 'practice', 'more tabs than this cost more than a clamp'),
  tabSpread: constant(75, 'mm', 'practice', 'tabs 150 to 300 mm apart, so two places for each'),
  skinSeconds: constant(5, 's', 'practice', 'going down and up again for a skin, besides the way'),
  tabSeconds: constant(20, 's', 'practice', 'cutting one tab by hand and sanding its place'),
  slantedTab: constant(1.5, '1', 'practice', 'such a tab tears along the grain: more sanding'),
  showTab: constant(3, '1', 'practice', 'a tab on an edge that is seen: filling and sanding'),
  clampSeconds: constant(180, 's', 'practice', 'setting up one clamp and looking after it'),
  colletNutRadius: constant(32, 'mm', 'practice', 'nuts of router spindles, 40 to 63 mm wide'),
  clampForce: constant(500, 'N', 'practice', 'a screw clamp tightened by hand, cautiously'),
  clampFoot: constant(60, 'mm', 'practice', 'side of the square that a clamp needs'),
  lostVacuum: constant(
    0.25,
    'of the start',
    'practice',
    'a table that has lost three quarters of its vacuum to the kerfs holds next to nothing of what is still to be cut',
  ),
  skeletonArea: constant(
    92_903,
    'mm2',
    'practice',
    'a square foot, where careful shops begin to look',
  ),
  dustSide: constant(2, 'cutter diameters', 'practice', 'smaller bits go with the dust'),
  thinnestSliver: constant(1, 'mm', 'practice', 'a thinner strip breaks up in the cut'),
} as const;

/** What the reckoning knows of a family of materials. */
export interface FamilyConstants {
  /** Linear model F = b (edge + shear h) of the greatest force on one tooth, at `referenceDensityKgPerM3`. */
  readonly edgeNPerMm: number;
  readonly shearNPerMm2: number;
  readonly referenceDensityKgPerM3: number;
  /** Permeability through the stock with its faces as they come. */
  readonly permeabilityM2: number;
  readonly strength: Strength;
}

/** In the weakest direction that a tab can have; MPa. */
export interface Strength {
  readonly bendingMpa: number;
  readonly tensionMpa: number;
  /** On a section across the panel, for forces in its plane. */
  readonly panelShearMpa: number;
  /** Between the layers, for forces across its plane. */
  readonly planarShearMpa: number;
}

/**
 * Cutting forces: sharp carbide, 8 to 12 % moisture, mean over grain angles, from memory within 40
 * %; the values for particleboard agree with Palubicki 2021, Materials 14, 2208 (32 to 38 N/mm2),
 * which was read. OSB is taken as particleboard and hardboard as MDF, scaled by density. The edge
 * force of plywood is remembered as 2.0 N/mm and taken 0.3 lower, so that the square of 200 mm
 * that careful shops call marginal (common practice, no source) is so here too.
 * Permeability: MDF of middling density with its faces on, and veneers across the grain (Siau
 * 1984), from memory; OSB from air tests to EN 12114, read; particleboard with sanded faces at the
 * lower end of von Haas 1998, from memory. Strength: plywood and OSB from the Wood Handbook (read),
 * lowest figure of each range, plywood halved in bending and tension because the grain may run
 * along the kerf; MDF from EN 622-5 and EN 12369-1, particleboard from EN 312 (read) and EN 12369-1
 * (from memory); solid wood across the grain, from memory. Hardboard is taken as MDF.
 */
export const FAMILY_CONSTANTS: Readonly<Record<Family, FamilyConstants>> = {
  plywood: family([1.7, 28, 680], 1e-15, [24, 13.8, 5.5, 1.7]),
  'softwood-plywood': family([1.5, 18, 500], 1e-15, [24, 13.8, 5.5, 1.7]),
  mdf: family([2, 20, 750], 5e-14, [20, 12, 6.5, 1.6]),
  particleboard: family([1.5, 22, 665], 1e-13, [11, 7, 6.1, 1.6]),
  osb: family([1.5, 22, 665], 7e-13, [21.8, 9, 6.8, 1]),
  hardboard: family([2, 20, 750], 1e-15, [20, 12, 6.5, 1.6]),
  softwood: family([1.2, 14, 450], 1e-15, [5, 2, 6, 1.2]),
  hardwood: family([2, 25, 700], 1e-15, [8, 4, 10, 2.2]),
};

/**
 * Usual feed per tooth in inches, lowest and highest, for a depth of one diameter: a cutter
 * supplier's public chart, common practice. A row a cutter diameter; panels of particles and
 * fibres, hardwood, softwood, plywood.
 */
export const CHIP_LOADS_IN: readonly ChipLoads[] = [
  chips(1 / 8, [0.004, 0.007], [0.002, 0.004], [0.003, 0.005], [0.003, 0.005]),
  chips(1 / 4, [0.012, 0.015], [0.005, 0.007], [0.006, 0.008], [0.006, 0.009]),
  chips(3 / 8, [0.017, 0.019], [0.013, 0.015], [0.015, 0.017], [0.015, 0.018]),
  chips(1 / 2, [0.02, 0.025], [0.017, 0.019], [0.019, 0.021], [0.018, 0.021]),
];

/** The usual feed shrinks as the cut gets deeper: depth in diameters and the share that is left, same chart. */
export const CHIP_LOAD_BY_DEPTH: readonly (readonly [depthInDiameters: number, share: number])[] = [
  [1, 1],
  [2, 0.75],
  [3, 0.5],
];

export type ChipStock = 'panel' | 'hardwood' | 'softwood' | 'plywood';
type Range = readonly [low: number, high: number];

export interface ChipLoads {
  readonly diameterIn: number;
  readonly loads: Readonly<Record<ChipStock, Range>>;
}

function constant(value: number, unit: string, basis: Basis, source: string): Constant {
  return { value, unit, basis, source };
}

function family(
  [edgeNPerMm, shearNPerMm2, referenceDensityKgPerM3]: readonly [number, number, number],
  permeabilityM2: number,
  [bendingMpa, tensionMpa, panelShearMpa, planarShearMpa]: readonly [
    number,
    number,
    number,
    number,
  ],
): FamilyConstants {
  const strength = { bendingMpa, tensionMpa, panelShearMpa, planarShearMpa };
  return { edgeNPerMm, shearNPerMm2, referenceDensityKgPerM3, permeabilityM2, strength };
}

function chips(
  diameterIn: number,
  ...[panel, hardwood, softwood, plywood]: readonly [Range, Range, Range, Range]
): ChipLoads {
  return { diameterIn, loads: { panel, hardwood, softwood, plywood } };
}
