import type { FileUnit } from '../model/job.ts';
import type { Band, Table } from '../model/machine.ts';
import { fromMm, UNITS_PER_MM } from '../model/units.ts';
import { showLength } from './lengths.ts';
import { readPipe } from './pipe.ts';
import { readPump } from './pump.ts';
import { type Quantity, readQuantity } from './quantities.ts';
import { readSeal } from './seal.ts';
import { child, type Field, isFlawed, itemsOf, subjectOf, textOf } from './tree.ts';
import {
  type LengthRange,
  POSITIVE,
  type Reading,
  readLength,
  readName,
  readSize,
} from './values.ts';
import { quote } from './visible.ts';
import { readTablePlaces } from './zones.ts';

/** MDF with both faces planed, and the top of the published range. */
const USUAL_PERMEABILITY: Band = { nominal: 3e-13, low: 6.3e-13 };
const USUAL_THICKNESS_MM = 18;
const USUAL_FRICTION: Band = { nominal: 0.4, low: 0.3 };
const USUAL_FRICTION_FILM_FACED: Band = { nominal: 0.25, low: 0.2 };

const SPOILBOARD: LengthRange = { min: UNITS_PER_MM, max: 200 * UNITS_PER_MM };

const FRICTION: Quantity = {
  units: { '': 1 },
  usual: '',
  min: 0.02,
  max: 2,
  range: 'it must be between 0.02 and 2',
  right: 'a number such as 0.4',
};

const ALONG_RATIO: Quantity = {
  units: { '': 1 },
  usual: '',
  min: 0.1,
  max: 100,
  range: 'it must be between 0.1 and 100',
  right: 'a number such as 2, for a board that lets through twice as much along as across',
};

const ALTITUDE: Omit<Quantity, 'usual' | 'right'> = {
  units: { m: 1, km: 1000, ft: 0.3048, feet: 0.3048, "'": 0.3048 },
  min: -430,
  max: 5000,
  range: 'it must be between -430 m and 5000 m (-1410 ft and 16404 ft)',
};

/** The vacuum table of the file, with cautious values for what it leaves out; null after a problem. */
export function readTable(field: Field | null, reading: Reading): Table | null {
  if (field !== null && isFlawed(field)) return null;
  const assumed: string[] = [];
  const size = readTableSize(child(field, 'size'), assumed, reading);
  const pump = readPump(child(field, 'pump'), assumed, reading);
  const pipe = readPipe(child(field, 'pipe'), reading);
  const seal = readSeal(field, assumed, reading);
  const isPorous = seal === null;
  const spoilboard = readSpoilboard(child(field, 'spoilboard'), isPorous ? assumed : [], reading);
  const altitudeM = readAltitude(child(field, 'altitude'), assumed, reading);
  const friction = readFriction(child(field, 'friction'), 'friction', assumed, reading);
  const filmFaced = child(field, 'friction-film-faced');
  const frictionFilmFaced = readFriction(filmFaced, 'film-faced friction', assumed, reading);
  if (size === null || pump === null || spoilboard === null || altitudeM === null) return null;
  if (friction === null || frictionFilmFaced === null) return null;
  if (pipe === undefined || seal === undefined) return null;
  const tableSize = size === 'as the sheet' ? null : size;
  const places = readTablePlaces(field, tableSize, reading);
  if (places === null) return null;
  return {
    isGiven: field !== null,
    size: tableSize,
    ...places,
    pump,
    pipe,
    seal,
    spoilboard,
    altitudeM,
    friction,
    frictionFilmFaced,
    assumed,
  };
}

function readTableSize(
  field: Field | null,
  assumed: string[],
  reading: Reading,
): { readonly length: number; readonly width: number } | 'as the sheet' | null {
  if (field === null) {
    assumed.push('vacuum under the whole sheet');
    return 'as the sheet';
  }
  const size = readSize(field, reading, POSITIVE);
  return size === null ? null : { length: size[0], width: size[1] };
}

function readSpoilboard(
  field: Field | null,
  assumed: string[],
  reading: Reading,
): Table['spoilboard'] | null {
  if (field === null) {
    assumed.push(`an MDF spoilboard of ${showLength(fromMm(USUAL_THICKNESS_MM), reading.unit)}`);
    assumed.push(USUAL_PERMEABILITY_TEXT);
    return {
      kind: 'mdf',
      thickness: fromMm(USUAL_THICKNESS_MM),
      permeabilityM2: USUAL_PERMEABILITY,
      alongRatio: 1,
    };
  }
  if (isFlawed(field)) return null;
  const kindField = child(field, 'kind');
  const kind = kindField === null ? 'mdf' : readName(kindField, reading);
  const thicknessField = child(field, 'thickness');
  const thickness =
    thicknessField === null ? null : readLength(thicknessField, reading, SPOILBOARD);
  const permeabilityM2 = readPermeability(field, kind, assumed, reading);
  const ratioField = child(field, 'along-ratio');
  const alongRatio = ratioField === null ? 1 : readQuantity(ratioField, reading, ALONG_RATIO);
  if (kind === null || thickness === null || permeabilityM2 === null || alongRatio === null)
    return null;
  return { kind, thickness, permeabilityM2, alongRatio };
}

const USUAL_PERMEABILITY_TEXT = `spoilboard permeability ${USUAL_PERMEABILITY.nominal} m2, at worst ${USUAL_PERMEABILITY.low} m2`;

function readPermeability(
  spoilboard: Field,
  kind: string | null,
  assumed: string[],
  reading: Reading,
): Band | null {
  const field = child(spoilboard, 'permeability');
  if (field !== null) {
    const values = isFlawed(field) ? [] : scalarsOf(field).map((f) => readSquareMetres(f, reading));
    const [nominal = null, low = nominal] = values;
    return nominal === null || low === null ? null : { nominal, low: Math.max(nominal, low) };
  }
  if (kind !== null && kind.toLowerCase() !== 'mdf') {
    const message = `nothing is known here of how much air a spoilboard of ${quote(kind)} lets through`;
    const hint = 'write permeability: and a value in m2, such as 3e-12 for loose particleboard';
    reading.report.error(spoilboard, 'missing-key', message, hint);
    return null;
  }
  assumed.push(USUAL_PERMEABILITY_TEXT);
  return USUAL_PERMEABILITY;
}

/** The one quantity that nobody writes without an exponent. */
function readSquareMetres(field: Field, { report }: Reading): number | null {
  if (isFlawed(field)) return null;
  const text = textOf(field);
  const value = /^\d+(\.\d+)?(e-?\d{1,3})? ?(m2|m²)?$/i.test(text) ? Number.parseFloat(text) : null;
  const right = 'write a permeability in m2, such as 3e-13';
  if (value === null) report.error(field, 'bad-quantity', `cannot read ${quote(text)}`, right);
  else if (value < 1e-17 || 1e-9 < value) {
    const message = `${subjectOf(field)} is ${quote(text)}; it must be between 1e-17 and 1e-9 m2`;
    report.error(field, 'out-of-range', message, right);
  } else return value;
  return null;
}

function readAltitude(field: Field | null, assumed: string[], reading: Reading): number | null {
  if (field === null) {
    assumed.push('sea level');
    return 0;
  }
  const usual: Record<FileUnit, string> = { mm: 'm', in: 'ft' };
  const right = `an altitude such as 300 m or 1000 ft`;
  return readQuantity(field, reading, { ...ALTITUDE, usual: usual[reading.unit], right });
}

/** A single measured value is the nominal one; its cautious end is three quarters of it, as with the usual values. */
function readFriction(
  field: Field | null,
  name: 'friction' | 'film-faced friction',
  assumed: string[],
  reading: Reading,
): Band | null {
  if (field === null) {
    const usual = name === 'friction' ? USUAL_FRICTION : USUAL_FRICTION_FILM_FACED;
    assumed.push(`${name} ${usual.nominal}, at worst ${usual.low}`);
    return usual;
  }
  if (isFlawed(field)) return null;
  const [nominal, low] = scalarsOf(field).map((f) => readQuantity(f, reading, FRICTION));
  if (nominal === undefined || nominal === null || low === null) return null;
  if (low !== undefined) return { nominal, low: Math.min(nominal, low) };
  const cautious = Math.round(nominal * 750) / 1000;
  assumed.push(`${name} at worst ${cautious}`);
  return { nominal, low: cautious };
}

/** The one value, or the two of a list. */
function scalarsOf(field: Field): readonly Field[] {
  return field.tree.kind === 'list' ? itemsOf(field) : [field];
}
