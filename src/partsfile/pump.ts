/**
 * The pump of the table: a curve of points, or its kind with what its plate says.
 *
 * A blower moves less free air in proportion to the vacuum, down to none at its deepest. Vane, claw and liquid-ring
 * pumps take in the same volume at any vacuum, of air that gets thinner: free air (air pressure - vacuum - rest) / air
 * pressure, the rest being what they cannot take out. Both are straight lines in free air. A curve of inlet volumes is
 * turned into free air point by point, with points in between, because it is no longer straight.
 */
import type { PumpPoint, Table } from '../model/machine.ts';
import { flowQuantity, readPumpCurve, vacuumQuantity } from './pump-curve.ts';
import { readQuantity } from './quantities.ts';
import { child, type Field, isFlawed, keySpot, textOf } from './tree.ts';
import { type Reading, readName, readWhole, readWord } from './values.ts';
import { quote } from './visible.ts';

/** An illustrative curve of a blower of about 5 kW, no product's: a shop enters the plate of its own pump. */
const USUAL_CURVE: readonly PumpPoint[] = [
  { flowM3h: 520, vacuumKpa: 0 },
  { flowM3h: 430, vacuumKpa: 5 },
  { flowM3h: 340, vacuumKpa: 10 },
  { flowM3h: 245, vacuumKpa: 15 },
  { flowM3h: 140, vacuumKpa: 20 },
  { flowM3h: 0, vacuumKpa: 26 },
];

/** Pumps whose plate is enough to go on. */
const PLATE_KINDS = ['blower', 'vane', 'claw', 'liquid-ring'] as const;
type PlateKind = (typeof PLATE_KINDS)[number];

const SEA_LEVEL_KPA = 101.325;

/** Points of a curve of inlet volumes lie no farther apart than this. */
const STEP_KPA = 10;

export function readPump(
  field: Field | null,
  assumed: string[],
  reading: Reading,
): Table['pump'] | null {
  if (field === null) {
    const plate =
      reading.unit === 'mm'
        ? '520 m3/h open and 26 kPa closed'
        : '306 cfm open and 7.68 inHg closed';
    assumed.push(`an ordinary blower, ${plate}`);
    return { kind: 'blower', curve: USUAL_CURVE };
  }
  if (isFlawed(field)) return null;
  const kindField = child(field, 'kind');
  const kind = kindField === null ? 'pump' : readName(kindField, reading);
  const countField = child(field, 'count');
  const count = countField === null ? 1 : readWhole(countField);
  const curve =
    child(field, 'curve') === null ? readPlate(field, kind, reading) : readCurve(field, reading);
  if (kind === null || curve === null || count === null) return null;
  return {
    kind: count === 1 ? kind : `${count} x ${kind}`,
    curve: curve.map(({ flowM3h, vacuumKpa }) => ({ flowM3h: flowM3h * count, vacuumKpa })),
  };
}

function readCurve(pump: Field, reading: Reading): readonly PumpPoint[] | null {
  for (const key of ['flow', 'vacuum'] as const) {
    if (child(pump, key) === null) continue;
    const message = `the pump has both curve and ${key}`;
    reading.report.error(keySpot(pump, key), 'misplaced-key', message, 'the curve says it all');
    return null;
  }
  const curve = readPumpCurve(child(pump, 'curve')!, reading);
  const isInlet = readWord<'free-air' | 'inlet'>(child(pump, 'volume'), 'free-air') === 'inlet';
  return curve === null || !isInlet ? curve : freeAirOf(curve);
}

/** A straight line from the flow at no vacuum to none at the deepest. */
function readPlate(
  pump: Field,
  kind: string | null,
  reading: Reading,
): readonly PumpPoint[] | null {
  const { report } = reading;
  const flowField = child(pump, 'flow');
  const vacuumField = child(pump, 'vacuum');
  if (flowField === null || vacuumField === null) {
    const missing =
      flowField === null && vacuumField === null ? 'curve' : flowField === null ? 'flow' : 'vacuum';
    const hint =
      'write the curve, or flow: and vacuum: from the plate of the pump, or leave pump out for a cautious one';
    report.error(pump, 'missing-key', `${missing} is missing here`, hint);
    return null;
  }
  if (child(pump, 'volume') !== null) {
    const message = 'volume goes with a curve: on the plate it is what the kind says';
    report.error(keySpot(pump, 'volume'), 'misplaced-key', message, 'take volume out');
    return null;
  }
  if (kind !== null && !isPlateKind(kind)) {
    const spot = child(pump, 'kind') ?? pump;
    const message = `the plate of ${quote(kind)} does not say how its flow falls with the vacuum`;
    const hint = `write kind: ${PLATE_KINDS.join(', ')}, or a curve`;
    report.error(spot, 'unknown-word', message, hint);
    return null;
  }
  const flow = readQuantity(flowField, reading, flowQuantity(reading));
  const vacuum = readQuantity(vacuumField, reading, vacuumQuantity(reading));
  if (kind === null || flow === null || vacuum === null) return null;
  if (flow > 0 && vacuum > 0)
    return [
      { flowM3h: kind === 'blower' ? flow : (flow * vacuum) / SEA_LEVEL_KPA, vacuumKpa: 0 },
      { flowM3h: 0, vacuumKpa: vacuum },
    ];
  const empty = flow > 0 ? vacuumField : flowField;
  report.error(empty, 'out-of-range', `a pump of ${quote(textOf(empty))} moves nothing`);
  return null;
}

function isPlateKind(kind: string): kind is PlateKind {
  return (PLATE_KINDS as readonly string[]).includes(kind);
}

/** Inlet volumes are those of the thin air at the vacuum. */
function freeAirOf(inlet: readonly PumpPoint[]): readonly PumpPoint[] {
  return inlet.flatMap((to, i) => {
    const from = inlet[i - 1] ?? to;
    const steps = Math.max(1, Math.ceil((to.vacuumKpa - from.vacuumKpa) / STEP_KPA));
    return Array.from({ length: steps }, (_, k) => {
      const share = (k + 1) / steps;
      const vacuumKpa = from.vacuumKpa + share * (to.vacuumKpa - from.vacuumKpa);
      const volume = from.flowM3h + share * (to.flowM3h - from.flowM3h);
      return { flowM3h: (volume * (SEA_LEVEL_KPA - vacuumKpa)) / SEA_LEVEL_KPA, vacuumKpa };
    });
  });
}
