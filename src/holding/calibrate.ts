/**
 * The figures of a vacuum table from what a shop read at it.
 *
 * The permeability of the board, and two factors on the pump's curve (one on its flow, one on its vacuum, so that it
 * keeps its shape), are those at which the reckoned vacuums differ least from the read ones, in shares. Friction is read
 * directly (calibrate-friction.ts).
 * Source: the two readings of a bare table and an airtight sheet are common practice; the rest is derived.
 * What can be told: only the ratio of permeability and pump flow follows from the table alone, because both scale all
 * flows alike. A known hole, in a plate at the end of the hose or between pump and table, tells them apart. So the flow
 * is fitted only with such a reading, both factors only from three air readings on, and none that a gauge error of 2 %
 * would make wrong by more than 15 %; what is not fitted is taken as given.
 * Cautious ends: permeability 2 standard deviations up, at least 10 %, reckoned with the larger of the readings' own
 * scatter and a gauge error of 2 %.
 * Cost: some hundred reckonings of each reading; meant for up to some dozens of them.
 * Degenerate: readings that let in no air, or too little to tell, leave the permeability open; one reading alone is met exactly.
 */
import type { Band, PumpPoint, Table } from '../model/machine.ts';
import {
  type AirReading,
  type Calibration,
  FACTOR_BOUNDS,
  isAir,
  PUMP_READINGS,
  type PumpFactor,
  type TableReadings,
} from '../model/readings.ts';
import { fitLeastSquares, sumOfSquares, type Unknown } from './calibrate-fit.ts';
import { frictionBand, reckonedFriction } from './calibrate-friction.ts';
import { type AirFigures, openMm2, reckonedVacuumKpa, scaledCurve } from './calibrate-model.ts';
import { CONSTANTS } from './constants.ts';
import { deepestVacuumKpa } from './pump.ts';

export function calibrate({ table, readings }: TableReadings): Calibration {
  const air = fitAir(table, readings.filter(isAir));
  const raw = frictionBand(table, readings, 'raw');
  const filmFaced = frictionBand(table, readings, 'film-faced');
  const reckoned = readings.map((reading) =>
    isAir(reading)
      ? reckonedVacuumKpa(table, reading, air.figures)
      : reckonedFriction(table, reading, (reading.surface === 'raw' ? raw : filmFaced)!.nominal),
  );
  const { permeabilityM2, flowFactor, vacuumFactor } = air;
  return {
    permeabilityM2,
    flowFactor,
    vacuumFactor,
    friction: raw,
    frictionFilmFaced: filmFaced,
    permeabilitySpread: air.spread,
    airResidual: air.residual,
    reckoned,
    untold: air.untold,
    table: fittedTable(table, air, raw, filmFaced),
  };
}

interface AirFit {
  readonly figures: AirFigures;
  readonly permeabilityM2: Band | null;
  readonly flowFactor: number | null;
  readonly vacuumFactor: number | null;
  readonly spread: number;
  readonly residual: number | null;
  /** Factors that were tried and that the readings do not tell. */
  readonly untold: readonly PumpFactor[];
}

type Name = 'permeability' | PumpFactor;

/** A shop's dial gauge, read to half a division. */
const GAUGE_ERROR = 0.02;
const WORST_FACTOR_SPREAD = 0.15;

function fitAir(table: Table, readings: readonly AirReading[]): AirFit {
  let names = namesToFit(table, readings);
  const untold: PumpFactor[] = [];
  for (;;) {
    const { figures, fit } = fitNames(table, readings, names);
    const spreads = fit.spreads.map((spread) => spread * GAUGE_ERROR);
    const drop = leastTold(names, spreads);
    if (drop !== null) {
      untold.push(drop);
      names = names.filter((name) => name !== drop);
      continue;
    }
    const at = names.indexOf('permeability');
    const freedom = Math.max(1, readings.length - names.length);
    const scatter = Math.sqrt(sumOfSquares(fit.residuals) / freedom);
    const spread = at < 0 ? 0 : 2 * fit.spreads[at]! * Math.max(scatter, GAUGE_ERROR);
    const { permeabilityM2: nominal } = figures;
    const isTold = at >= 0 && spread < MOST_SPREAD;
    return {
      figures,
      permeabilityM2: isTold ? { nominal, low: nominal * Math.max(1.1, Math.exp(spread)) } : null,
      flowFactor: names.includes('flow') ? figures.flowFactor : null,
      vacuumFactor: names.includes('vacuum') ? figures.vacuumFactor : null,
      spread,
      residual:
        readings.length === 0 ? null : Math.sqrt(sumOfSquares(fit.residuals) / readings.length),
      untold,
    };
  }
}

/** A permeability that may as well be ten times as much is not known. */
const MOST_SPREAD = Math.log(10);

function namesToFit(table: Table, readings: readonly AirReading[]): readonly Name[] {
  const letsAirIn = readings.some(
    (reading) => reading.kind !== 'hole' && openMm2(table, reading) > 0,
  );
  const hasHole = readings.some((reading) => reading.kind === 'hole' || reading.throttle > 0);
  const isEnough = readings.length >= PUMP_READINGS;
  return [
    ...(letsAirIn ? (['permeability'] as const) : []),
    ...(isEnough ? (['vacuum'] as const) : []),
    ...(isEnough && hasHole ? (['flow'] as const) : []),
  ];
}

/** The pump factor that the readings tell least of, where that is too little. */
function leastTold(names: readonly Name[], spreads: readonly number[]): PumpFactor | null {
  let worst: PumpFactor | null = null;
  let most = WORST_FACTOR_SPREAD;
  names.forEach((name, i) => {
    const spread = Number.isFinite(spreads[i]!) ? spreads[i]! : Number.MAX_VALUE;
    if (name === 'permeability' || spread < most) return;
    worst = name;
    most = spread;
  });
  return worst;
}

function fitNames(table: Table, readings: readonly AirReading[], names: readonly Name[]) {
  const figuresAt = (logs: readonly number[]): AirFigures => {
    const value = (name: Name, otherwise: number) =>
      names.includes(name) ? Math.exp(logs[names.indexOf(name)]!) : otherwise;
    return {
      permeabilityM2: value('permeability', table.spoilboard.permeabilityM2.nominal),
      flowFactor: value('flow', 1),
      vacuumFactor: value('vacuum', 1),
    };
  };
  const residualsAt = (logs: readonly number[]): readonly number[] => {
    const figures = figuresAt(logs);
    return readings.map((reading) => {
      const reckoned = reckonedVacuumKpa(table, reading, figures);
      return Math.log(Math.max(reckoned, LEAST_KPA) / reading.vacuumKpa);
    });
  };
  const unknowns = names.map((name) => unknownOf(table, name));
  const fit = fitLeastSquares(startNear(names, unknowns, residualsAt), residualsAt);
  return { figures: figuresAt(fit.values), fit };
}

const LEAST_KPA = 1e-6;
/** With its cautious end it then stays within what a parts file takes. */
const PERMEABILITY_BOUNDS = [1e-16, 1e-10] as const;
const START_STEPS = 32;

function unknownOf({ pump }: Table, name: Name): Unknown {
  const [min, max] = name === 'permeability' ? PERMEABILITY_BOUNDS : FACTOR_BOUNDS[name];
  const deepest = CONSTANTS.seaLevelPressure.value / 1000 / deepestVacuumKpa(pump.curve);
  const most = name === 'vacuum' ? Math.min(max, deepest) : max;
  return { start: 0, min: Math.log(min), max: Math.log(most) };
}

/** Far from its value a permeability changes nothing: the steps start from the best of a row of values. */
function startNear(
  names: readonly Name[],
  unknowns: readonly Unknown[],
  residualsAt: (logs: readonly number[]) => readonly number[],
): readonly Unknown[] {
  const at = names.indexOf('permeability');
  if (at < 0) return unknowns;
  const { min, max } = unknowns[at]!;
  let best = unknowns;
  let least = Number.POSITIVE_INFINITY;
  for (let step = 0; step <= START_STEPS; step++) {
    const start = min + ((max - min) * step) / START_STEPS;
    const tried = unknowns.map((unknown, i) => (i === at ? { ...unknown, start } : unknown));
    const sum = sumOfSquares(residualsAt(tried.map((unknown) => unknown.start)));
    if (sum < least) [best, least] = [tried, sum];
  }
  return best;
}

/** With the figures that were found, rounded as they are printed. */
function fittedTable(
  table: Table,
  { permeabilityM2, flowFactor, vacuumFactor }: AirFit,
  raw: Band | null,
  filmFaced: Band | null,
): Table {
  const isFitted = flowFactor !== null || vacuumFactor !== null;
  const factors = { flowFactor: flowFactor ?? 1, vacuumFactor: vacuumFactor ?? 1 };
  return {
    ...table,
    pump: {
      ...table.pump,
      curve: isFitted ? roundedCurve(scaledCurve(table.pump.curve, factors)) : table.pump.curve,
    },
    spoilboard: {
      ...table.spoilboard,
      permeabilityM2: roundedBand(permeabilityM2) ?? table.spoilboard.permeabilityM2,
    },
    friction: roundedBand(raw) ?? table.friction,
    frictionFilmFaced: roundedBand(filmFaced) ?? table.frictionFilmFaced,
  };
}

function roundedCurve(curve: readonly PumpPoint[]): readonly PumpPoint[] {
  return curve.map(({ flowM3h, vacuumKpa }) => ({
    flowM3h: rounded(flowM3h),
    vacuumKpa: rounded(vacuumKpa),
  }));
}

function roundedBand(band: Band | null): Band | null {
  return band === null ? null : { nominal: rounded(band.nominal), low: rounded(band.low) };
}

function rounded(value: number): number {
  return Number(value.toPrecision(DIGITS));
}

const DIGITS = 4;
