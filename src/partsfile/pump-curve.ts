import type { PumpPoint } from '../model/machine.ts';
import { type Quantity, readQuantity } from './quantities.ts';
import { type Field, isFlawed, itemsOf } from './tree.ts';
import type { Reading } from './values.ts';

const FLOW: Omit<Quantity, 'usual' | 'right'> = {
  units: { 'm3/h': 1, 'm³/h': 1, 'l/min': 0.06, 'l/s': 3.6, cfm: 1.699011, scfm: 1.699011 },
  min: 0,
  max: 100_000,
  range: 'it must be between 0 and 100000 m3/h',
};

const VACUUM: Omit<Quantity, 'usual' | 'right'> = {
  units: { kpa: 1, mbar: 0.1, bar: 100, inhg: 3.386389, 'in hg': 3.386389, '"hg': 3.386389 },
  min: 0,
  max: 101.325,
  range: 'it must be between 0 and the pressure of the air, 101.325 kPa (29.92 inHg)',
};

/** A flow of air; a bare number is in the unit that goes with the file's. */
export function flowQuantity({ unit }: Reading): Quantity {
  return unit === 'in'
    ? { ...FLOW, usual: 'cfm', right: 'a flow in cfm, such as 300' }
    : { ...FLOW, usual: 'm3/h', right: 'a flow in m3/h, such as 520' };
}

/** A vacuum below the air; a bare number is in the unit that goes with the file's. */
export function vacuumQuantity({ unit }: Reading): Quantity {
  return unit === 'in'
    ? { ...VACUUM, usual: 'inhg', right: 'a vacuum in inHg, such as 8' }
    : { ...VACUUM, usual: 'kpa', right: 'a vacuum in kPa, such as 26' };
}

/** Pairs of flow and vacuum in ascending vacuum; a pump moves less air the deeper it pulls. Null after a problem. */
export function readPumpCurve(field: Field, reading: Reading): readonly PumpPoint[] | null {
  if (isFlawed(field)) return null;
  const points = itemsOf(field).map((pair) => readPumpPoint(pair, reading));
  if (!points.every((point) => point !== null)) return null;
  const sorted = points.toSorted((a, b) => a.vacuumKpa - b.vacuumKpa);
  const falls = sorted.every((point, i) => {
    const before = sorted[i - 1];
    return (
      before === undefined ||
      (before.vacuumKpa < point.vacuumKpa && point.flowM3h <= before.flowM3h)
    );
  });
  const open = sorted[0]?.flowM3h ?? 0;
  if (2 <= sorted.length && falls && 0 < open) return sorted;
  const message =
    sorted.length < 2
      ? 'the curve needs two points at least'
      : 'the flow must fall as the vacuum grows, from more than 0';
  const hint = 'each pair is flow first, then vacuum, such as [[520, 0], [340, 10], [0, 26]]';
  reading.report.error(field, 'bad-pump-curve', message, hint);
  return null;
}

function readPumpPoint(pair: Field, reading: Reading): PumpPoint | null {
  const [flowField, vacuumField] = itemsOf(pair);
  if (flowField === undefined || vacuumField === undefined) return null;
  const flowM3h = readQuantity(flowField, reading, flowQuantity(reading));
  const vacuumKpa = readQuantity(vacuumField, reading, vacuumQuantity(reading));
  return flowM3h === null || vacuumKpa === null ? null : { flowM3h, vacuumKpa };
}
