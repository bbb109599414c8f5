import type { Pipe } from '../model/machine.ts';
import { UNITS_PER_MM } from '../model/units.ts';
import { flowQuantity, vacuumQuantity } from './pump-curve.ts';
import { readQuantity } from './quantities.ts';
import { child, type Field, isFlawed, keySpot } from './tree.ts';
import { type LengthRange, POSITIVE, type Reading, readLength, readWhole } from './values.ts';

const BORE: LengthRange = { min: 5 * UNITS_PER_MM, max: 1000 * UNITS_PER_MM };

const MEASURED = ['loss', 'flow'] as const;
const PLAIN = ['bore', 'length', 'elbows'] as const;

/** What was read of the loss, or the measures of the pipe; undefined after a problem. */
export function readPipe(field: Field | null, reading: Reading): Pipe | null | undefined {
  if (field === null) return null;
  if (isFlawed(field)) return undefined;
  const has = (key: string): boolean => child(field, key) !== null;
  const isMeasured = MEASURED.some(has);
  const stray = isMeasured ? PLAIN.find(has) : undefined;
  if (stray !== undefined) {
    const message = `the pipe has both a loss that was read and its ${stray}`;
    reading.report.error(keySpot(field, stray), 'misplaced-key', message, HINT);
    return undefined;
  }
  const missing = (isMeasured ? MEASURED : (['bore', 'length'] as const)).find((key) => !has(key));
  if (missing !== undefined) {
    reading.report.error(field, 'missing-key', `${missing} is missing here`, HINT);
    return undefined;
  }
  return (isMeasured ? readMeasured(field, reading) : readPlain(field, reading)) ?? undefined;
}

const HINT =
  'write { loss: 2, flow: 300 } as read at the gauge, or { bore: 50, length: 6000, elbows: 3 }';

function readMeasured(field: Field, reading: Reading): Pipe | null {
  const lossKpa = readQuantity(child(field, 'loss')!, reading, vacuumQuantity(reading));
  const flowField = child(field, 'flow')!;
  const flowM3h = readQuantity(flowField, reading, flowQuantity(reading));
  if (lossKpa === null || flowM3h === null) return null;
  if (flowM3h > 0) return { kind: 'measured', lossKpa, flowM3h };
  reading.report.error(flowField, 'out-of-range', 'a pipe without flow loses nothing', HINT);
  return null;
}

function readPlain(field: Field, reading: Reading): Pipe | null {
  const bore = readLength(child(field, 'bore')!, reading, BORE);
  const length = readLength(child(field, 'length')!, reading, POSITIVE_PIPE);
  const elbowsField = child(field, 'elbows');
  const elbows = elbowsField === null ? 0 : readWhole(elbowsField);
  if (bore === null || length === null || elbows === null) return null;
  return { kind: 'plain', bore, length, elbows };
}

/** Up to 100 m. */
const POSITIVE_PIPE: LengthRange = { ...POSITIVE, max: 100_000 * UNITS_PER_MM };
