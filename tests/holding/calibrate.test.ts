import { describe, expect, it } from 'vitest';
import { calibrate } from '../../src/holding/calibrate.ts';
import { reckonedFriction } from '../../src/holding/calibrate-friction.ts';
import { type AirFigures, reckonedVacuumKpa } from '../../src/holding/calibrate-model.ts';
import type { PumpPoint, Table } from '../../src/model/machine.ts';
import {
  type AirReading,
  type Calibration,
  type FrictionReading,
  type GaugeReading,
  isAir,
} from '../../src/model/readings.ts';
import { fromMm } from '../../src/model/units.ts';
import { type Random, seededRandom } from '../../src/packing/random.ts';

const CURVE: readonly PumpPoint[] = [
  { flowM3h: 520, vacuumKpa: 0 },
  { flowM3h: 430, vacuumKpa: 5 },
  { flowM3h: 340, vacuumKpa: 10 },
  { flowM3h: 245, vacuumKpa: 15 },
  { flowM3h: 140, vacuumKpa: 20 },
  { flowM3h: 0, vacuumKpa: 26 },
];

interface Truth extends AirFigures {
  readonly friction: number;
}

/** Holes that a shop drills into its plates, mm. */
const HOLES = [5, 6.5, 8, 10, 13, 16, 20, 25, 32, 40, 50, 63];

function randomTable(random: Random): { table: Table; truth: Truth } {
  const between = (low: number, high: number) => low + random() * (high - low);
  const permeabilityM2 = Math.exp(between(Math.log(4e-14), Math.log(3e-12)));
  const friction = between(0.2, 0.6);
  const table = tableOf(between(12, 25), between(0, 2000));
  const truth = {
    permeabilityM2,
    flowFactor: between(0.7, 1.4),
    vacuumFactor: between(0.8, 1.25),
    friction,
  };
  return { table, truth };
}

function tableOf(boardMm: number, altitudeM: number): Table {
  const usual = { nominal: 3e-13, low: 6.3e-13 };
  return {
    isGiven: true,
    size: { length: fromMm(2500), width: fromMm(1250) },
    sheetAt: { x: 0, y: 0 },
    zones: [],
    masked: [],
    pump: { kind: 'blower', curve: CURVE },
    pipe: null,
    seal: null,
    spoilboard: {
      kind: 'mdf',
      thickness: fromMm(boardMm),
      permeabilityM2: usual,
      alongRatio: 1,
    },
    altitudeM,
    friction: { nominal: 0.4, low: 0.3 },
    frictionFilmFaced: { nominal: 0.25, low: 0.2 },
    assumed: [],
  };
}

const SHEET = { length: fromMm(2440), width: fromMm(1220) };

function air(kind: 'bare' | 'covered' | 'kerf', other: Partial<AirReading> = {}): AirReading {
  const sheet = kind === 'bare' ? null : SHEET;
  const kerf = { kerfLength: 0, kerfWidth: fromMm(6.35), throttle: 0 };
  return { kind, sheet, vacuumKpa: 0, ...kerf, ...other } as AirReading;
}

/** The reading at a table of these figures, times an error. */
function readAt(table: Table, truth: Truth, noise: () => number) {
  return (reading: GaugeReading): GaugeReading => {
    if (isAir(reading))
      return { ...reading, vacuumKpa: reckonedVacuumKpa(table, reading, truth) * noise() };
    const read = reckonedFriction(table, reading, truth.friction) * noise();
    return reading.kind === 'tilt' ? { ...reading, angleDeg: read } : { ...reading, forceN: read };
  };
}

/**
 * The eight vacuums that the help asks for, three tilts and two pulls. The plates have those of the drilled holes that
 * bring the gauge nearest to these shares of the covered table's vacuum.
 */
function readingsFor(table: Table, truth: Truth): readonly GaugeReading[] {
  const vacuum = (reading: AirReading) => reckonedVacuumKpa(table, reading, truth);
  const full = vacuum(air('covered'));
  const plated = (of: (diameter: number) => AirReading, share: number) =>
    HOLES.map((mm) => of(fromMm(mm))).toSorted(
      (a, b) => Math.abs(vacuum(a) - share * full) - Math.abs(vacuum(b) - share * full),
    )[0]!;
  const hole = (diameter: number): AirReading => ({ kind: 'hole', vacuumKpa: 0, diameter });
  const throttled = (throttle: number): AirReading => air('bare', { throttle });
  return [
    air('bare'),
    air('covered'),
    air('kerf', { kerfLength: fromMm(20_000) }),
    ...[0.3, 0.6].map((share) => plated(throttled, share)),
    ...[0.3, 0.5, 0.7].map((share) => plated(hole, share)),
    ...[0, 0, 0].map((): FrictionReading => ({ kind: 'tilt', angleDeg: 0, surface: 'raw' })),
    ...[100, 200].map(
      (mm): FrictionReading => ({
        kind: 'pull',
        square: fromMm(mm),
        vacuumKpa: vacuum(air('covered')),
        forceN: 0,
        weightKg: 0.2,
        openBeside: true,
        surface: 'raw',
      }),
    ),
  ];
}

const GIVEN = new Set(['size', 'pump', 'spoilboard', 'altitude']);

function calibrated(table: Table, readings: readonly GaugeReading[]): Calibration {
  return calibrate({ unit: 'mm', table, given: GIVEN, readings });
}

type Constant = 'permeability' | 'flow factor' | 'vacuum factor' | 'friction';

/** By what share each constant is off; all of it where it was not found. */
function errorsOf(found: Calibration, truth: Truth): Readonly<Record<Constant, number>> {
  const off = (value: number | null | undefined, right: number) =>
    value === null || value === undefined ? 1 : Math.abs(value / right - 1);
  return {
    permeability: off(found.permeabilityM2?.nominal, truth.permeabilityM2),
    'flow factor': off(found.flowFactor, truth.flowFactor),
    'vacuum factor': off(found.vacuumFactor, truth.vacuumFactor),
    friction: off(found.friction?.nominal, truth.friction),
  };
}

const CONSTANTS_FOUND = ['permeability', 'flow factor', 'vacuum factor', 'friction'] as const;

describe('calibration of random tables', () => {
  const random = seededRandom(20260331);
  const tables = Array.from({ length: 100 }, () => randomTable(random));
  const errors = (noise: () => number) =>
    tables.map(({ table, truth }) => {
      const readings = readingsFor(table, truth).map(readAt(table, truth, noise));
      return errorsOf(calibrated(table, readings), truth);
    });
  const noisy = errors(() => 1 + 0.03 * gauss(random));
  const exact = errors(() => 1);

  it.each(CONSTANTS_FOUND)(
    'finds the %s within a tenth in 95 of 100, from eight vacuums and five slides with an error of 0.03 (one sd)',
    (constant) => {
      expect(noisy.filter((error) => error[constant] <= 0.1).length).toBeGreaterThanOrEqual(95);
    },
  );

  it.each(CONSTANTS_FOUND)('finds the %s within a thousandth from exact readings', (constant) => {
    expect(Math.max(...exact.map((error) => error[constant]))).toBeLessThan(0.001);
  });
});

/** Normally distributed about 0, after Box and Muller 1958. */
function gauss(random: Random): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

describe('what is fitted', () => {
  const table = tableOf(18, 300);
  const truth = { permeabilityM2: 5e-13, flowFactor: 1, vacuumFactor: 1, friction: 0.4 };
  const exactly = (readings: readonly GaugeReading[], other: Partial<Truth> = {}) =>
    calibrated(table, readings.map(readAt(table, { ...truth, ...other }, () => 1)));
  const kerf = (metres: number) => air('kerf', { kerfLength: fromMm(1000 * metres) });
  const plate = (mm: number) => air('bare', { throttle: fromMm(mm) });
  const hole = (mm: number): AirReading => ({ kind: 'hole', vacuumKpa: 0, diameter: fromMm(mm) });
  const nothing = { permeability: null, flow: null, vacuum: null };

  it.each<[string, readonly AirReading[], Partial<Truth>, Partial<Record<string, number | null>>]>([
    ['one reading', [air('bare')], {}, { ...nothing, permeability: 5e-13 }],
    ['two readings', [air('bare'), air('covered')], {}, { ...nothing, permeability: 5e-13 }],
    [
      'three readings without a known hole',
      [air('bare'), air('covered'), kerf(20)],
      { vacuumFactor: 0.9 },
      { ...nothing, permeability: 5e-13, vacuum: 0.9 },
    ],
    [
      'a weak pump without a known hole: the ratio of permeability and flow',
      [air('bare'), air('covered'), kerf(20)],
      { flowFactor: 0.8 },
      { ...nothing, permeability: 5e-13 / 0.8, vacuum: 1 },
    ],
    [
      'three readings with a known hole',
      [air('bare'), air('covered'), hole(32)],
      { flowFactor: 0.8, vacuumFactor: 1.1 },
      { permeability: 5e-13, flow: 0.8, vacuum: 1.1 },
    ],
    [
      'a plate between pump and table in place of the hole',
      [air('bare'), air('covered'), plate(25)],
      { flowFactor: 0.8, vacuumFactor: 1.1 },
      { permeability: 5e-13, flow: 0.8, vacuum: 1.1 },
    ],
    [
      'holes alone: the pump',
      [hole(20), hole(32), hole(40)],
      { flowFactor: 0.8, vacuumFactor: 1.1 },
      { permeability: null, flow: 0.8, vacuum: 1.1 },
    ],
    [
      'one reading taken three times: no pump',
      [air('bare'), air('bare'), air('bare')],
      {},
      { ...nothing, permeability: 5e-13 },
    ],
    ['a table that is covered all over', [covering()], {}, nothing],
  ])('%s', (_, readings, other, right) => {
    const found = exactly(readings, other);
    const values = {
      permeability: found.permeabilityM2?.nominal ?? null,
      flow: found.flowFactor,
      vacuum: found.vacuumFactor,
    };
    for (const [name, value] of Object.entries(values)) {
      const expected = right[name] ?? null;
      if (expected === null) expect(value, name).toBeNull();
      else expect(value! / expected, name).toBeCloseTo(1, 3);
    }
  });

  it('meets a pipe that takes some of the vacuum', () => {
    const piped: Table = { ...table, pipe: { kind: 'measured', lossKpa: 2, flowM3h: 300 } };
    const readings = [air('bare'), air('covered'), plate(25), hole(32)];
    const read = readings.map(readAt(piped, { ...truth, flowFactor: 0.9 }, () => 1));
    const found = calibrated(piped, read);
    expect(found.permeabilityM2!.nominal / 5e-13).toBeCloseTo(1, 3);
    expect(found.flowFactor).toBeCloseTo(0.9, 3);
  });

  it('keeps the cautious permeability 10 % up at least, and more where the readings scatter', () => {
    const calm = exactly([air('bare'), air('covered'), kerf(20), plate(25), plate(16), hole(32)]);
    expect(calm.permeabilityM2!.low / calm.permeabilityM2!.nominal).toBeCloseTo(1.1, 6);
    const wild = [0.9, 1.1, 0.9, 1.1].map((by) => readAt(table, truth, () => by)(air('bare')));
    const { nominal, low } = calibrated(table, wild).permeabilityM2!;
    expect(low / nominal).toBeGreaterThan(1.2);
  });

  it('does not say a permeability that a tight table hardly shows', () => {
    const found = exactly([air('covered')], { permeabilityM2: 1e-15 });
    expect(found.permeabilityM2).toBeNull();
  });

  function covering(): AirReading {
    return air('covered', { sheet: { length: fromMm(2600), width: fromMm(1300) } });
  }
});

describe('friction', () => {
  const table = tableOf(18, 0);
  const tilt = (angleDeg: number, surface: 'raw' | 'film-faced' = 'raw'): GaugeReading => ({
    kind: 'tilt',
    angleDeg,
    surface,
  });
  const pull = (other: object = {}): FrictionReading => ({
    kind: 'pull',
    square: fromMm(200),
    vacuumKpa: 20,
    forceN: 100,
    weightKg: 0,
    openBeside: false,
    surface: 'raw',
    ...other,
  });

  it.each<[string, readonly GaugeReading[], number, number]>([
    ['one tilt', [tilt(45)], 1, 0.75],
    ['two tilts far apart', [tilt(45), tilt(20)], 0.682, 0.364],
    ['three equal tilts', [tilt(20), tilt(20), tilt(20)], 0.364, 0.3276],
    ['three tilts', [tilt(20), tilt(22), tilt(24)], 0.4044, 0.364],
    // 20 kPa on 200 x 200 mm is 800 N, and 1 kg is 9.8 N more.
    ['a pull beside a covered board', [pull()], 0.125, 0.09375],
    ['a pull of something heavy', [pull({ weightKg: 1 })], 100 / 809.80665, 75 / 809.80665],
    // Beside an open board of 18 mm each side loses 8.50 mm at 20 kPa.
    ['a pull beside an open board', [pull({ openBeside: true })], 0.14932, 0.11199],
  ])('of %s', (_, readings, nominal, low) => {
    const { friction, frictionFilmFaced } = calibrated(table, readings);
    expect(friction!.nominal).toBeCloseTo(nominal, 4);
    expect(friction!.low).toBeCloseTo(low, 4);
    expect(frictionFilmFaced).toBeNull();
  });

  it('of film-faced pieces stands apart', () => {
    const found = calibrated(table, [tilt(14, 'film-faced')]);
    expect(found.friction).toBeNull();
    expect(found.frictionFilmFaced!.nominal).toBeCloseTo(0.2493, 4);
    expect(found.table.friction).toEqual(table.friction);
  });
});

describe('a worked example', () => {
  it('is met: 200 m3/h at 15 kPa through 3.125 m2 of 18 mm', () => {
    const curve = [
      { flowM3h: 400, vacuumKpa: 0 },
      { flowM3h: 200, vacuumKpa: 15 },
      { flowM3h: 0, vacuumKpa: 30 },
    ];
    const table = { ...tableOf(18, 0), pump: { kind: 'blower', curve } };
    const found = calibrated(table, [{ ...air('bare'), vacuumKpa: 15 }]);
    expect(found.permeabilityM2!.nominal).toBeCloseTo(4.18e-13, 15);
  });
});
