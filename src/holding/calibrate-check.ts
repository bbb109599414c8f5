/**
 * Readings that no table can give, each with the reason.
 *
 * A vacuum is never deeper than the air is heavy or the pump can pull, and it falls as more of the table is open, all
 * else alike. A share of 1 % is left for reading a dial, and 5 % against the pump's plate.
 */
import type { FileUnit } from '../model/job.ts';
import type { Table } from '../model/machine.ts';
import {
  type AirReading,
  FACTOR_BOUNDS,
  FRICTION_BOUNDS,
  type FrictionReading,
  formatVacuum,
  type GaugeReading,
  isAir,
  PUMP_READINGS,
  type TableReading,
  type TableReadings,
} from '../model/readings.ts';
import { airPressurePa } from './atmosphere.ts';
import { frictionOf, heldMm2 } from './calibrate-friction.ts';
import { openMm2 } from './calibrate-model.ts';
import { CONSTANTS } from './constants.ts';
import { deepestVacuumKpa } from './pump.ts';

export interface ReadingFault {
  readonly reading: number;
  /** The key that has to be looked at. */
  readonly key: string;
  readonly message: string;
  readonly hint: string;
}

export function impossibleReadings(all: TableReadings): readonly ReadingFault[] {
  const { table, readings } = all;
  return readings.flatMap((one, reading) => {
    const fault =
      tooDeep(all, one) ?? (isAir(one) ? tooDeepBeside(all, one) : badFriction(table, one));
    return fault === null ? [] : [{ reading, ...fault }];
  });
}

type Fault = Omit<ReadingFault, 'reading'>;

const DIAL_SHARE = 1.01;
const PLATE_SHARE = 1.05;

function tooDeep(all: TableReadings, reading: GaugeReading): Fault | null {
  const { table, unit, readings, given } = all;
  if (reading.kind === 'tilt') return null;
  const { vacuumKpa } = reading;
  const show = (value: number) => formatVacuum(value, unit);
  const atmosphereKpa = airPressurePa(table.altitudeM) / 1000;
  if (vacuumKpa >= atmosphereKpa) {
    const at = `${Math.round(table.altitudeM)} m`;
    return {
      key: 'vacuum',
      message: `a vacuum of ${show(vacuumKpa)} is deeper than the whole air at ${at}, ${show(atmosphereKpa)}`,
      hint: 'are the unit and the altitude right?',
    };
  }
  // A usual pump that was merely assumed says nothing of what a test square was held with.
  if (reading.kind === 'pull' && !given.has('pump')) return null;
  const share = (atmosphereKpa * 1000) / CONSTANTS.seaLevelPressure.value;
  const deepest = deepestVacuumKpa(table.pump.curve) * share;
  const isFitted = readings.filter(isAir).length >= PUMP_READINGS;
  if (vacuumKpa <= deepest * (isFitted ? FACTOR_BOUNDS.vacuum[1] : PLATE_SHARE)) return null;
  return {
    key: 'vacuum',
    message: `a vacuum of ${show(vacuumKpa)} is deeper than this pump can pull, ${show(deepest)}`,
    hint: isFitted
      ? 'give the pump by its plate: kind, flow and vacuum'
      : `give the pump by its plate, or take ${PUMP_READINGS} air readings so that it is fitted too`,
  };
}

/** Whether another reading with less open board, all else alike, shows less. */
function tooDeepBeside(
  { table, unit, readings }: TableReadings,
  reading: AirReading,
): Fault | null {
  if (reading.kind === 'hole') {
    const smaller = readings.find(
      (other) =>
        other.kind === 'hole' &&
        other.diameter < reading.diameter &&
        reading.vacuumKpa > other.vacuumKpa * DIAL_SHARE,
    );
    return smaller === undefined ? null : contradiction('a larger hole', reading, smaller, unit);
  }
  const area = openMm2(table, reading);
  const tighter = readings.find(
    (other) =>
      isAir(other) &&
      other.kind !== 'hole' &&
      other.throttle === reading.throttle &&
      openMm2(table, other) < area &&
      reading.vacuumKpa > other.vacuumKpa * DIAL_SHARE,
  ) as TableReading | undefined;
  if (tighter === undefined) return null;
  return contradiction(moreOpen(reading, tighter), reading, tighter, unit);
}

function moreOpen(reading: TableReading, tighter: TableReading): string {
  if (reading.kind === 'bare') return 'the bare table';
  return reading.kerfLength > tighter.kerfLength ? 'more open kerf' : 'less cover';
}

function contradiction(
  what: string,
  reading: AirReading,
  tighter: GaugeReading,
  unit: FileUnit,
): Fault {
  const [here, there] = [reading, tighter as AirReading].map(({ vacuumKpa }) =>
    formatVacuum(vacuumKpa, unit),
  );
  return {
    key: 'vacuum',
    message: `with ${what} the vacuum cannot be higher, ${here} against ${there}`,
    hint: 'read both again: were they swapped, or does the sheet not lie flat?',
  };
}

function badFriction(table: Table, reading: FrictionReading): Fault | null {
  const key = reading.kind === 'tilt' ? 'angle' : 'force';
  if (reading.kind === 'pull' && heldMm2(table, reading) === 0) {
    const message = 'so small a square has no vacuum left under it on an open board';
    const hint = 'take a larger square, or cover the board beside it and write covered-beside: yes';
    return { key: 'square', message, hint };
  }
  const friction = frictionOf(table, reading);
  const [least, most] = FRICTION_BOUNDS;
  if (least <= friction && friction <= most) return null;
  const side = friction < least ? `under ${least}` : `over ${most}`;
  return {
    key,
    message: `this needs a friction of ${friction.toPrecision(2)}, and ${side} none is believable`,
    hint:
      reading.kind === 'tilt'
        ? 'read the angle again'
        : 'are the units of square, vacuum and force right?',
  };
}
