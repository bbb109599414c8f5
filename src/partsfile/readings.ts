import type { FileUnit } from '../model/job.ts';
import type { Table } from '../model/machine.ts';
import type { GaugeReading, PullReading, Surface, TableReadings } from '../model/readings.ts';
import { type ResourceLimits, USUAL_LIMITS } from '../model/resource-limits.ts';
import { UNITS_PER_MM } from '../model/units.ts';
import { showSize, usualName } from './lengths.ts';
import type { Problem, ProblemCode } from './problem.ts';
import { vacuumQuantity } from './pump-curve.ts';
import { type Quantity, readQuantity } from './quantities.ts';
import { readTree } from './read-parts-file.ts';
import { READINGS_SCHEMA, readingsFileSchema } from './readings-schema.ts';
import { readGivenTable } from './readings-table.ts';
import { Report, type Spot } from './report.ts';
import { checkShape } from './shape-check.ts';
import {
  child,
  type Field,
  isFlawed,
  itemsOf,
  keySpot,
  keysOf,
  rootField,
  textOf,
} from './tree.ts';
import {
  type LengthRange,
  POSITIVE,
  type Reading,
  readLength,
  readSize,
  readWord,
  readYes,
} from './values.ts';

/** The readings, or null where any problem is an error. */
export interface ReadingsResult {
  readonly readings: TableReadings | null;
  readonly problems: readonly Problem[];
  /** Where a key of a reading stands, for what is found wrong with the readings later. */
  readonly spotOf: (reading: number, key: string) => Spot;
}

/** Reads a readings file: its text, then its form, then what it means. It never throws for a bad file. */
export function readReadingsFile(
  text: string,
  limits: ResourceLimits = USUAL_LIMITS,
): ReadingsResult {
  const report = new Report(limits);
  const tree = readTree(text, report);
  const form = { schema: READINGS_SCHEMA, schemaOf: readingsFileSchema };
  const root = tree === null ? null : rootField(checkShape(tree, report, form));
  const readings = root === null || isFlawed(root) ? null : readAll(root, report);
  return {
    readings: report.hasErrors ? null : readings,
    problems: report.list().map(reworded),
    spotOf: (reading, key) => {
      const field = child(root, 'readings');
      const item = field === null ? undefined : itemsOf(field)[reading];
      return item === undefined ? { place: null, path: '' } : (child(item, key) ?? item);
    },
  };
}

/** The text's own problems are told with parts files in mind. */
const HINTS: Partial<Record<ProblemCode, string>> = {
  'empty-file': 'holdfast gauge --help shows a file to start from',
  'yaml-syntax': 'compare with the file that holdfast gauge --help shows',
  'not-text': 'a readings file is plain text in UTF-8',
  'several-documents': 'a readings file is one document: remove the line ---',
};

function reworded(problem: Problem): Problem {
  const isOfParts = /holdfast new|parts file/.test(problem.hint ?? '');
  return isOfParts ? { ...problem, hint: HINTS[problem.code] ?? problem.hint } : problem;
}

function readAll(root: Field, report: Report): TableReadings | null {
  const unitField = child(root, 'unit');
  const list = child(root, 'readings');
  // Without its unit no length of the file means anything.
  if (unitField === null || isFlawed(unitField) || list === null || isFlawed(list)) return null;
  const unit: FileUnit = textOf(unitField) === 'mm' ? 'mm' : 'in';
  const reading: Reading = { unit, report };
  const items = itemsOf(list);
  const isWithin = report.within(list, {
    ...{ limit: 'readings', code: 'out-of-range', found: items.length },
    ...{ subject: 'the file has', instead: 'leave out those that say the same' },
  });
  if (!isWithin) return null;
  const read = items.map((item) => readReading(item, reading));
  const sound = read.filter((one) => one !== null);
  const kinds = new Set(sound.map(({ kind }) => kind));
  const restsOnBoard = sound.some((one) => one.kind === 'pull' && one.openBeside);
  const given = readGivenTable(root, kinds, restsOnBoard, reading);
  if (given === null) return null;
  read.forEach((one, i) => {
    if (one !== null) checkSheet(items[i]!, one, given.table, reading);
  });
  return { unit, ...given, readings: sound };
}

type Kind = GaugeReading['kind'];

const NEEDED: Readonly<Record<Kind, readonly string[]>> = {
  bare: ['vacuum'],
  covered: ['sheet', 'vacuum'],
  kerf: ['sheet', 'length', 'width', 'vacuum'],
  hole: ['diameter', 'vacuum'],
  tilt: ['angle'],
  pull: ['square', 'vacuum', 'force'],
};

const POSSIBLE: Readonly<Record<Kind, readonly string[]>> = {
  bare: ['throttle'],
  covered: ['throttle'],
  kerf: ['throttle'],
  hole: [],
  tilt: ['surface'],
  pull: ['weight', 'covered-beside', 'surface'],
};

const EXAMPLES: Readonly<Record<Kind, string>> = {
  bare: '{ kind: bare, vacuum: 12.5 kPa }',
  covered: '{ kind: covered, sheet: 2440 x 1220, vacuum: 25 kPa }',
  kerf: '{ kind: kerf, sheet: 2440 x 1220, length: 10 m, width: 6.35mm, vacuum: 24.1 kPa }',
  hole: '{ kind: hole, diameter: 32mm, vacuum: 14 kPa }',
  tilt: '{ kind: tilt, angle: 23 }',
  pull: '{ kind: pull, square: 200mm, vacuum: 20 kPa, force: 260 N }',
};

function readReading(field: Field, reading: Reading): GaugeReading | null {
  const kindField = child(field, 'kind');
  if (isFlawed(field) || kindField === null || isFlawed(kindField)) return null;
  const kind = textOf(kindField) as Kind;
  if (!hasItsKeys(field, kind, reading)) return null;
  if (kind === 'tilt') return readTilt(field, reading);
  const vacuumKpa = readQuantity(child(field, 'vacuum')!, reading, gaugeQuantity(reading));
  if (kind === 'pull') return readPull(field, vacuumKpa, reading);
  if (kind === 'hole') {
    const diameter = readLength(child(field, 'diameter')!, reading, HOLE);
    return vacuumKpa === null || diameter === null ? null : { kind, vacuumKpa, diameter };
  }
  const lengthOf = (key: string, range: LengthRange) => {
    const found = child(field, key);
    return found === null ? 0 : readLength(found, reading, range);
  };
  const sheetField = child(field, 'sheet');
  const sheet = sheetField === null ? 'none' : readSize(sheetField, reading, POSITIVE);
  const kerfLength = lengthOf('length', KERF_LENGTH);
  const kerfWidth = lengthOf('width', KERF_WIDTH);
  const throttle = lengthOf('throttle', HOLE);
  if (vacuumKpa === null || sheet === null) return null;
  if (kerfLength === null || kerfWidth === null || throttle === null) return null;
  const size = sheet === 'none' ? null : { length: sheet[0], width: sheet[1] };
  return { kind, vacuumKpa, sheet: size, kerfLength, kerfWidth, throttle };
}

function hasItsKeys(field: Field, kind: Kind, { report }: Reading): boolean {
  const keys = keysOf(field);
  const hint = `such as ${EXAMPLES[kind]}`;
  const missing = NEEDED[kind].filter((key) => !keys.includes(key));
  for (const key of missing) report.error(field, 'missing-key', `${key} is missing here`, hint);
  const own = ['kind', ...NEEDED[kind], ...POSSIBLE[kind]];
  const stray = keys.filter((key) => !own.includes(key));
  for (const key of stray) {
    const message = `a reading of kind ${kind} has no ${key}`;
    report.error(keySpot(field, key), 'misplaced-key', message, hint);
  }
  return missing.length === 0 && stray.length === 0;
}

const HOLE: LengthRange = { min: UNITS_PER_MM, max: 300 * UNITS_PER_MM };
const KERF_LENGTH: LengthRange = { min: 100 * UNITS_PER_MM, max: 1_000_000 * UNITS_PER_MM };
const KERF_WIDTH: LengthRange = { min: UNITS_PER_MM / 2, max: 50 * UNITS_PER_MM };

function gaugeQuantity(reading: Reading): Quantity {
  const range = 'a gauge that can be reckoned with shows between 0.05 and 101.325 kPa';
  return { ...vacuumQuantity(reading), min: 0.05, range };
}

const ANGLE: Quantity = {
  units: { '': 1, '°': 1, deg: 1, degree: 1, degrees: 1 },
  usual: '',
  min: 0,
  max: 60,
  range: 'an angle at which a piece slides is between 0 and 60 degrees',
  right: 'an angle in degrees, such as 23',
};

function readTilt(field: Field, reading: Reading): GaugeReading | null {
  const angleDeg = readQuantity(child(field, 'angle')!, reading, ANGLE);
  return angleDeg === null ? null : { kind: 'tilt', angleDeg, surface: surfaceOf(field) };
}

const FORCE: Omit<Quantity, 'usual' | 'right'> = {
  units: { n: 1, kn: 1000, kg: 9.80665, kgf: 9.80665, lb: 4.448222, lbs: 4.448222, lbf: 4.448222 },
  min: 0.01,
  max: 100_000,
  range: 'it must be between 0.01 and 100000 N',
};

const WEIGHT: Omit<Quantity, 'usual' | 'right'> = {
  units: { kg: 1, g: 0.001, lb: 0.45359237, lbs: 0.45359237, oz: 0.028349523125 },
  min: 0,
  max: 1000,
  range: 'it must be between 0 and 1000 kg',
};

function readPull(field: Field, vacuumKpa: number | null, reading: Reading): PullReading | null {
  const isInch = reading.unit === 'in';
  const force = {
    ...FORCE,
    usual: isInch ? 'lbf' : 'n',
    right: 'a pull such as 60 N, 6 kg or 13 lbf',
  };
  const weight = { ...WEIGHT, usual: isInch ? 'lb' : 'kg', right: 'a weight such as 0.3 kg' };
  const square = readLength(child(field, 'square')!, reading, POSITIVE);
  const forceN = readQuantity(child(field, 'force')!, reading, force);
  const weightField = child(field, 'weight');
  const weightKg = weightField === null ? 0 : readQuantity(weightField, reading, weight);
  if (square === null || forceN === null || weightKg === null || vacuumKpa === null) return null;
  const openBeside = !readYes(child(field, 'covered-beside'));
  const surface = surfaceOf(field);
  return { kind: 'pull', square, vacuumKpa, forceN, weightKg, openBeside, surface };
}

function surfaceOf(field: Field): Surface {
  return readWord<Surface>(child(field, 'surface'), 'raw');
}

/** Whether the sheet can lie as said, and whether its kerfs fit into it. */
function checkSheet(field: Field, one: GaugeReading, { size }: Table, reading: Reading): void {
  if (!('sheet' in one) || one.sheet === null || size === null) return;
  const { sheet, kerfLength, kerfWidth } = one;
  const { report, unit } = reading;
  const spot = child(field, 'sheet') ?? field;
  const reachesOver = sheet.length > size.length || sheet.width > size.width;
  const fitsTurned = sheet.width <= size.length && sheet.length <= size.width;
  const named = `a sheet of ${showSize(sheet.length, sheet.width, unit)}`;
  const over = `the table of ${showSize(size.length, size.width, unit)}`;
  if (reachesOver && fitsTurned) {
    const hint = `write ${usualName(sheet.width, sheet.length, unit)}: the first number is along the table's length`;
    report.error(spot, 'impossible-reading', `${named} reaches over ${over}`, hint);
  } else if (reachesOver && kerfLength > 0) {
    const message = `${named} is larger than ${over}: how much of the kerf lies over it is not known`;
    report.error(
      spot,
      'impossible-reading',
      message,
      'read kerfs under a sheet no larger than the table',
    );
  } else if (kerfLength * kerfWidth > sheet.length * sheet.width) {
    const message = `so long a kerf does not fit into ${named}`;
    report.error(
      child(field, 'length') ?? field,
      'impossible-reading',
      message,
      'is the unit right?',
    );
  }
}
