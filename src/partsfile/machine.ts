import type { Cutter, Machine, Router, Spiral } from '../model/machine.ts';
import { fromMm, UNITS_PER_INCH, UNITS_PER_MM } from '../model/units.ts';
import { showLength } from './lengths.ts';
import { readKerf, readPanelSaw, refuseSawKeys } from './panel-saw.ts';
import { type Quantity, readQuantity } from './quantities.ts';
import { child, type Field, isFlawed, keySpot } from './tree.ts';
import {
  type LengthRange,
  NOT_NEGATIVE,
  POSITIVE,
  type Reading,
  readLength,
  readWhole,
  readWord,
  readYes,
} from './values.ts';

/**
 * What a file without a machine is reckoned with: common values that flatter nothing. The cut through the whole thickness
 * in one pass is the cautious end for hold-down.
 */
const USUAL = {
  diameter: fromMm(6.35),
  flutes: 2,
  helixDeg: 30,
  spindleRpm: 18_000,
  feedMmPerMin: 9000,
} as const;

const CUTTER: LengthRange = { min: UNITS_PER_MM / 10, max: 100 * UNITS_PER_MM };

const HELIX: Quantity = {
  units: { '': 1, '°': 1, deg: 1, degrees: 1 },
  usual: '',
  min: 0,
  max: 60,
  range: 'it must be between 0 and 60 degrees',
  right: 'an angle in degrees, such as 30',
};

const SPEED: Quantity = {
  units: { rpm: 1, '1/min': 1, '/min': 1 },
  usual: 'rpm',
  min: 100,
  max: 100_000,
  range: 'it must be between 100 and 100000 rpm',
  right: 'a speed such as 18000 rpm',
};

const MM_PER_INCH = UNITS_PER_INCH / UNITS_PER_MM;

const FEED: Omit<Quantity, 'usual' | 'right'> = {
  units: {
    'mm/min': 1,
    'm/min': 1000,
    'mm/s': 60,
    'in/min': MM_PER_INCH,
    '"/min': MM_PER_INCH,
    ipm: MM_PER_INCH,
    'ft/min': 12 * MM_PER_INCH,
    fpm: 12 * MM_PER_INCH,
  },
  min: 10,
  max: 200_000,
  range: 'it must be between 10 mm and 200 m a minute',
};

/**
 * The machine of the file, with cautious values for what it leaves out. `thickest` is the thickness of the thickest material,
 * for a cut in one pass; null where no material could be read.
 */
export function readMachine(
  field: Field | null,
  thickest: number | null,
  reading: Reading,
): Machine | null {
  if (field !== null && isFlawed(field)) return null;
  const kind = readWord<Machine['kind']>(child(field, 'kind'), 'router');
  return field !== null && kind === 'panel-saw'
    ? readPanelSaw(field, reading)
    : readRouter(field, thickest, reading);
}

function readRouter(field: Field | null, thickest: number | null, reading: Reading): Router | null {
  const assumed: string[] = [];
  const isWhole = refuseSawKeys(field, reading);
  const cutter = readCutter(child(field, 'cutter'), assumed, reading);
  const speedField = child(field, 'speed');
  const spindleRpm =
    speedField === null ? USUAL.spindleRpm : readQuantity(speedField, reading, SPEED);
  if (speedField === null) assumed.push(`spindle speed ${USUAL.spindleRpm} rpm`);
  const feedMmPerMin = readFeed(child(field, 'feed'), assumed, reading);
  const passField = child(field, 'pass-depth');
  const passDepth = passField === null ? thickest : readLength(passField, reading, POSITIVE);
  if (passField === null) assumed.push('each cut in one pass of full depth');
  const lastField = child(field, 'last-pass');
  const lastPass = lastField === null ? 0 : readLength(lastField, reading, POSITIVE);
  const finish = readFinish(field, cutter, reading);
  const spacing = readSpacing(field, cutter, assumed, reading);
  const boardKerf = readKerf(field, reading);
  if (!isWhole || cutter === null || spindleRpm === null || feedMmPerMin === null) return null;
  if (passDepth === null || spacing === null || lastPass === null || finish === null) return null;
  if (boardKerf === null) return null;
  const passes = { passDepth, lastPass, finish };
  return {
    kind: 'router',
    cutter,
    spindleRpm,
    feedMmPerMin,
    ...passes,
    spacing,
    boardKerf,
    assumed,
  };
}

/** A finishing cut takes less than half of the cutter's width, or it is no finishing cut. */
function readFinish(machine: Field | null, cutter: Cutter | null, reading: Reading): number | null {
  const field = child(machine, 'finish');
  const finish = field === null ? 0 : readLength(field, reading, NOT_NEGATIVE);
  if (field === null || finish === null || cutter === null) return finish;
  if (2 * finish < cutter.diameter) return finish;
  const message = `a finishing allowance of ${showLength(finish, reading.unit)} is half the cutter or more`;
  reading.report.error(
    field,
    'out-of-range',
    message,
    'write what the finishing cut takes, such as 0.3mm',
  );
  return null;
}

function readCutter(field: Field | null, assumed: string[], reading: Reading): Cutter | null {
  if (field !== null && isFlawed(field)) return null;
  const diameterField = child(field, 'diameter');
  const diameter =
    diameterField === null ? USUAL.diameter : readLength(diameterField, reading, CUTTER);
  if (diameterField === null) assumed.push(`cutter ${showLength(USUAL.diameter, reading.unit)}`);
  const flutesField = child(field, 'flutes');
  const flutes = flutesField === null ? USUAL.flutes : readWhole(flutesField);
  if (flutesField === null) assumed.push(`${USUAL.flutes} flutes`);
  const spiralField = child(field, 'spiral');
  const spiral = readWord<Spiral>(spiralField, 'straight');
  if (spiralField === null) assumed.push('straight flutes');
  const wornField = child(field, 'worn');
  if (wornField === null) assumed.push('a sharp cutter');
  const helixDeg = readHelix(field, spiral, assumed, reading);
  const upcutLength = readUpcut(field, { spiral, diameter }, assumed, reading);
  if (diameter === null || flutes === null || helixDeg === null || upcutLength === null)
    return null;
  return { diameter, flutes, spiral, helixDeg, upcutLength, worn: readYes(wornField) };
}

function readHelix(
  cutter: Field | null,
  spiral: Spiral,
  assumed: string[],
  reading: Reading,
): number | null {
  const field = child(cutter, 'helix');
  if (spiral === 'straight') {
    if (cutter !== null && field !== null) refuseWithSpiral(cutter, 'helix', spiral, reading);
    return 0;
  }
  if (field !== null) return readQuantity(field, reading, HELIX);
  assumed.push(`flutes at ${USUAL.helixDeg} degrees`);
  return USUAL.helixDeg;
}

function readUpcut(
  cutter: Field | null,
  { spiral, diameter }: { readonly spiral: Spiral; readonly diameter: number | null },
  assumed: string[],
  reading: Reading,
): number | null {
  const field = child(cutter, 'upcut');
  if (spiral !== 'compression') {
    if (cutter !== null && field !== null) refuseWithSpiral(cutter, 'upcut', spiral, reading);
    return 0;
  }
  if (field !== null) return readLength(field, reading, NOT_NEGATIVE);
  if (diameter !== null)
    assumed.push(
      `an up-cut tip as long as the cutter is wide, ${showLength(diameter, reading.unit)}`,
    );
  return diameter;
}

function refuseWithSpiral(cutter: Field, key: string, spiral: Spiral, { report }: Reading): void {
  const message = `a ${spiral} cutter has no ${key}`;
  const hint = `write spiral: ${key === 'upcut' ? 'compression' : 'up-cut, down-cut or compression'}, or take ${key} out`;
  report.error(keySpot(cutter, key), 'misplaced-key', message, hint);
}

function readFeed(field: Field | null, assumed: string[], reading: Reading): number | null {
  const inches = reading.unit === 'in';
  if (field === null) {
    const shown = inches
      ? `${Math.round(USUAL.feedMmPerMin / MM_PER_INCH)} in/min`
      : `${USUAL.feedMmPerMin} mm/min`;
    assumed.push(`feed ${shown}`);
    return USUAL.feedMmPerMin;
  }
  const usual = inches ? 'in/min' : 'mm/min';
  const right = inches ? 'a feed such as 350 (inches a minute)' : 'a feed such as 9000 or 9 m/min';
  return readQuantity(field, reading, { ...FEED, usual, right });
}

/** Two pieces cannot be nearer than the cutter that goes between them, unless one cut parts them both. */
function readSpacing(
  machine: Field | null,
  cutter: Cutter | null,
  assumed: string[],
  reading: Reading,
): number | null {
  const common = readYes(child(machine, 'common-cuts'));
  const field = child(machine, 'spacing');
  if (field === null) {
    if (cutter === null) return null;
    const usual = common ? 0 : cutter.diameter;
    assumed.push(`spacing ${showLength(usual, reading.unit)}${common ? '' : ', the cutter'}`);
    return usual;
  }
  const spacing = readLength(field, reading, NOT_NEGATIVE);
  if (spacing === null || cutter === null) return null;
  if (cutter.diameter <= spacing || (spacing === 0 && common)) return spacing;
  const show = (length: number) => showLength(length, reading.unit);
  const message = `a spacing of ${show(spacing)} is less than the cutter, ${show(cutter.diameter)}`;
  const hint =
    spacing === 0
      ? 'write common-cuts: yes if one cut may part two pieces'
      : 'write the diameter of the cutter or more';
  reading.report.error(field, 'spacing-too-small', message, hint);
  return null;
}
