import type { Seal } from '../model/machine.ts';
import { fromMm, UNITS_PER_MM } from '../model/units.ts';
import { showLength } from './lengths.ts';
import { type Quantity, readQuantity } from './quantities.ts';
import { child, type Field, isFlawed, keySpot } from './tree.ts';
import {
  type LengthRange,
  NOT_NEGATIVE,
  POSITIVE,
  type Reading,
  readLength,
  readSize,
  readWhole,
  readWord,
} from './values.ts';

/** What a table without a spoilboard is reckoned with where the file is silent: common practice, no source. */
const USUAL = { inset: fromMm(12), leakMm2: 50, groove: fromMm(8), pitch: fromMm(50), perPiece: 2 };

const LEAK: Quantity = {
  units: { mm2: 1, 'mm²': 1, in2: 645.16, 'in²': 645.16 },
  usual: 'mm2',
  min: 0,
  max: 100_000,
  range: 'it must be between 0 and 100000 mm2',
  right: 'an area such as 50 mm2',
};

const GROOVE: LengthRange = { min: 1, max: 500 * UNITS_PER_MM };

/** The gaskets or pods of the table; null for a spoilboard, undefined after a problem. */
export function readSeal(
  table: Field | null,
  assumed: string[],
  reading: Reading,
): Seal | null | undefined {
  const gasket = child(table, 'gasket');
  const pods = child(table, 'pods');
  const field = gasket ?? pods;
  if (table === null || field === null) return null;
  if (isFlawed(field)) return undefined;
  const other = gasket !== null && pods !== null ? 'pods' : 'spoilboard';
  if (child(table, other) !== null) {
    const message = `the table has both ${gasket === null ? 'pods' : 'gasket'} and ${other}`;
    const hint = 'keep what the stock lies on: a spoilboard, gaskets or pods';
    reading.report.error(keySpot(table, other), 'misplaced-key', message, hint);
    return undefined;
  }
  const leakMm2 = readLeak(field, assumed, reading);
  if (leakMm2 === null) return undefined;
  const seal =
    gasket === null
      ? readPods(field, leakMm2, assumed, reading)
      : readGasket(field, leakMm2, assumed, reading);
  return seal ?? undefined;
}

function readLeak(field: Field, assumed: string[], reading: Reading): number | null {
  const leak = child(field, 'leak');
  if (leak !== null) {
    const usual = reading.unit === 'in' ? 'in2' : 'mm2';
    return readQuantity(leak, reading, { ...LEAK, usual });
  }
  assumed.push(`leaks past the seals of ${USUAL.leakMm2} mm2 in all`);
  return USUAL.leakMm2;
}

function readGasket(
  field: Field,
  leakMm2: number,
  assumed: string[],
  reading: Reading,
): Seal | null {
  const around = readWord<'pieces' | 'sheet'>(child(field, 'around'), 'pieces');
  if (child(field, 'around') === null) assumed.push('a gasket round each piece');
  const insetField = child(field, 'inset');
  const inset = insetField === null ? USUAL.inset : readLength(insetField, reading, NOT_NEGATIVE);
  if (insetField === null)
    assumed.push(`gaskets ${showLength(USUAL.inset, reading.unit)} inside the edge`);
  const grooveShare = readGrooves(field, around, assumed, reading);
  if (inset === null || grooveShare === null) return null;
  return { kind: 'gasket', around, inset, grooveShare, leakMm2 };
}

/** Share of the face that a square grid of grooves leaves open: `width x pitch`. */
function readGrooves(
  field: Field,
  around: 'pieces' | 'sheet',
  assumed: string[],
  reading: Reading,
): number | null {
  const grooves = child(field, 'grooves');
  if (around === 'pieces') {
    if (grooves === null) return 0;
    const message = 'grooves matter only to a gasket round the whole sheet';
    reading.report.error(keySpot(field, 'grooves'), 'misplaced-key', message, 'take grooves out');
    return null;
  }
  if (grooves === null) {
    const [groove, pitch] = [USUAL.groove, USUAL.pitch].map((l) => showLength(l, reading.unit));
    assumed.push(`grooves ${groove} wide every ${pitch}`);
    return openShare(USUAL.groove, USUAL.pitch);
  }
  const size = readSize(grooves, reading, GROOVE);
  if (size === null) return null;
  const [width, pitch] = size;
  if (width < pitch) return openShare(width, pitch);
  const message = `grooves ${showLength(width, reading.unit)} wide every ${showLength(pitch, reading.unit)} leave no table`;
  reading.report.error(grooves, 'out-of-range', message, 'write width x pitch, such as 8 x 50');
  return null;
}

function openShare(width: number, pitch: number): number {
  return 1 - (1 - width / pitch) ** 2;
}

function readPods(field: Field, leakMm2: number, assumed: string[], reading: Reading): Seal | null {
  const sizeField = child(field, 'size');
  const size = sizeField === null ? null : readSize(sizeField, reading, POSITIVE);
  const most = child(field, 'per-piece');
  const perPiece = most === null ? USUAL.perPiece : readWhole(most);
  if (most === null) assumed.push(`up to ${USUAL.perPiece} pods under a piece`);
  if (size === null || perPiece === null) return null;
  return { kind: 'pods', length: size[0], width: size[1], perPiece, leakMm2 };
}
