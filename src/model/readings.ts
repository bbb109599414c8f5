import type { FileUnit } from './job.ts';
import type { Band, Table } from './machine.ts';

/** What a shop read at its table, to reckon the table's own figures from. A vacuum is that of the gauge at the table. */
export type GaugeReading = AirReading | FrictionReading;

/** Readings of how much air comes in. */
export type AirReading = TableReading | HoleReading;

/** Readings of how hard a test piece slips. */
export type FrictionReading = TiltReading | PullReading;

export function isAir(reading: GaugeReading): reading is AirReading {
  return reading.kind !== 'tilt' && reading.kind !== 'pull';
}

/** The bare spoilboard, or one under an airtight sheet with or without kerfs in it. */
export interface TableReading {
  readonly kind: 'bare' | 'covered' | 'kerf';
  readonly vacuumKpa: number;
  /** Null: no sheet. */
  readonly sheet: { readonly length: number; readonly width: number } | null;
  /** 0 where no kerf is open. */
  readonly kerfLength: number;
  readonly kerfWidth: number;
  /** Diameter of the round hole in a plate between pump and table; 0 without such a plate. */
  readonly throttle: number;
}

/** Nothing but a plate with a round hole at the end of the hose, in place of the table. */
export interface HoleReading {
  readonly kind: 'hole';
  readonly vacuumKpa: number;
  readonly diameter: number;
}

export type Surface = 'raw' | 'film-faced';

/** The board was tilted until the test piece slid. */
export interface TiltReading {
  readonly kind: 'tilt';
  readonly angleDeg: number;
  readonly surface: Surface;
}

/** A square test piece, held by vacuum, was pulled along until it slid. */
export interface PullReading {
  readonly kind: 'pull';
  readonly square: number;
  readonly vacuumKpa: number;
  readonly forceN: number;
  readonly weightKg: number;
  /** Whether the board beside the square is open, so that the border of the square loses its vacuum. */
  readonly openBeside: boolean;
  readonly surface: Surface;
}

/** All readings at one table. `assumed` of the table names what the file left out and the readings rest on. */
export interface TableReadings {
  readonly unit: FileUnit;
  readonly table: Table;
  /** Keys of `table:` that the file has, and `permeability` where it has that. */
  readonly given: ReadonlySet<string>;
  readonly readings: readonly GaugeReading[];
}

/** From so many air readings on the pump is fitted too. */
export const PUMP_READINGS = 3;

/** The most by which a pump may be found to differ from its curve; more is another pump. */
export const FACTOR_BOUNDS = { flow: [0.25, 4], vacuum: [0.6, 1.6] } as const;

/** No less and no more friction is believed. */
export const FRICTION_BOUNDS = [0.02, 2] as const;

export type PumpFactor = 'flow' | 'vacuum';

/** What the readings say of the table. A figure is null where no reading says anything of it. */
export interface Calibration {
  readonly permeabilityM2: Band | null;
  /** The pump moves so many times the flow of the given curve, and reaches so many times its vacuum. */
  readonly flowFactor: number | null;
  readonly vacuumFactor: number | null;
  readonly friction: Band | null;
  readonly frictionFilmFaced: Band | null;
  /** Two standard deviations of the permeability's logarithm. */
  readonly permeabilitySpread: number;
  /** Root of the mean squared difference of the air readings, as a share; null without any. */
  readonly airResidual: number | null;
  /** What each reading is by these figures, in the unit of the reading: kPa, degrees or newtons. */
  readonly reckoned: readonly number[];
  /** Factors that were tried and that the readings do not tell: taken as 1. */
  readonly untold: readonly PumpFactor[];
  /** The table with all figures as they are printed. */
  readonly table: Table;
}

const KPA_PER_INHG = 3.386389;

/** A vacuum with its unit: "24.3 kPa", "7.18 inHg". */
export function formatVacuum(kpa: number, unit: FileUnit): string {
  return unit === 'mm' ? `${kpa.toFixed(1)} kPa` : `${inHg(kpa).toFixed(2)} inHg`;
}

export function inHg(kpa: number): number {
  return kpa / KPA_PER_INHG;
}
