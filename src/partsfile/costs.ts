import type { BandRates, LabourRates, MarginOf, Rates } from '../model/rates.ts';
import { type HardwareReading, readHardware } from './hardware.ts';
import { type Quantity, readPricePer, readQuantity } from './quantities.ts';
import { child, type Field, isFlawed, textOf } from './tree.ts';
import { readWord } from './values.ts';

const S_PER_MIN = 60;
const S_PER_H = 3600;
const FT_PER_M = 1 / 0.3048;

export const TIME: Quantity = {
  units: { s: 1, sec: 1, min: S_PER_MIN, h: S_PER_H },
  usual: '',
  min: 0,
  max: 100 * S_PER_H,
  range: 'it must be between 0 and 100 h',
  right: 'a time with its unit, such as 20 min, 3 s or 1.5 h',
};

const TIME_PER: Quantity = {
  units: {
    's per m': 1,
    's/m': 1,
    'min per m': S_PER_MIN,
    'min/m': S_PER_MIN,
    's per ft': FT_PER_M,
    's/ft': FT_PER_M,
    'min per ft': S_PER_MIN * FT_PER_M,
    'min/ft': S_PER_MIN * FT_PER_M,
  },
  usual: '',
  min: 0,
  max: S_PER_H,
  range: 'it must be between 0 and 60 min per m',
  right: 'a time for so much, such as 40 s per m or 12 s per ft',
};

const SHARE: Quantity = {
  units: { '': 1, '%': 0.01 },
  usual: '',
  min: 0,
  max: 3,
  range: 'it must be between 0 and 300 %',
  right: 'a share such as 20 % or 0.2',
};

const PER_HOUR = { h: ['h', 'hr', 'hour'] } as const;
const PER_LENGTH = {
  m: ['m', 'metre', 'meter'],
  ft: ['ft', 'foot'],
} as const;

/** What the job costs besides its stock; null after a problem, undefined where the file says nothing, hardware of its parts included. */
export function readCosts(field: Field | null, reading: HardwareReading): Rates | null | undefined {
  if (field !== null && isFlawed(field)) return null;
  const hardware = readHardware(child(field, 'hardware'), reading);
  if (field === null && hardware?.length === 0) return undefined;
  const labour = optional(child(field, 'labour'), (at) => readLabour(at, reading));
  const edgeBand = optional(child(field, 'edge-band'), (at) => readEdgeBand(at, reading));
  const time = (key: string) =>
    optional(child(field, key), (at) => readQuantity(at, reading, TIME));
  const [setupS, loadingS, toolChangeS] = [time('setup'), time('loading'), time('tool-change')];
  const [holeS, sawCutS, boardCutS] = [time('hole'), time('saw-cut'), time('board-cut')];
  const share = (key: string) =>
    optional(child(field, key), (at) => readQuantity(at, reading, SHARE));
  const [wasteShare, taxShare] = [share('waste'), share('tax')];
  const margin = readMargin(field, share('margin'), reading);
  const read = [labour, edgeBand, hardware, setupS, loadingS, toolChangeS, holeS, sawCutS];
  if ([...read, boardCutS, wasteShare, taxShare, margin].some((value) => value === null))
    return null;
  return {
    labour: labour ?? null,
    setupS: setupS ?? null,
    loadingS: loadingS ?? null,
    toolChangeS: toolChangeS ?? null,
    holeS: holeS ?? null,
    sawCutS: sawCutS ?? null,
    boardCutS: boardCutS ?? null,
    edgeBand: edgeBand ?? null,
    hardware: hardware ?? [],
    wasteShare: wasteShare ?? 0,
    margin: margin ?? { share: 0, of: 'cost' },
    taxShare: taxShare ?? null,
  };
}

/** Null after a problem, undefined where there is nothing to read. */
function optional<Value>(
  field: Field | null,
  reader: (field: Field) => Value | null,
): Value | null | undefined {
  return field === null ? undefined : reader(field);
}

function readLabour(field: Field, reading: HardwareReading): LabourRates | null {
  if (isFlawed(field)) return null;
  const rate = (key: string) =>
    optional(child(field, key), (at) => readPricePer(at, reading, reading.currency, PER_HOUR));
  const [machine, bench] = [rate('machine'), rate('bench')];
  if (machine === null || bench === null) return null;
  return { machineCents: machine?.cents ?? null, benchCents: bench?.cents ?? null };
}

function readEdgeBand(field: Field, reading: HardwareReading): BandRates | null {
  if (isFlawed(field)) return null;
  const price = optional(child(field, 'price'), (at) =>
    readPricePer(at, reading, reading.currency, PER_LENGTH),
  );
  const time = optional(child(field, 'time'), (at) => readQuantity(at, reading, TIME_PER));
  const waste = optional(child(field, 'waste'), (at) => readQuantity(at, reading, SHARE));
  if (price === null || time === null || waste === null) return null;
  return {
    measure: price?.measure ?? (reading.unit === 'in' ? 'ft' : 'm'),
    priceCents: price?.cents ?? null,
    secondsPerM: time ?? null,
    wasteShare: waste ?? 0,
  };
}

/** The price is the cost over what the margin leaves of it. */
const MOST_OF_PRICE = 0.999;

function readMargin(
  costs: Field | null,
  share: number | null | undefined,
  { report }: HardwareReading,
): Rates['margin'] | null | undefined {
  const field = child(costs, 'margin');
  const of = readWord<MarginOf>(child(costs, 'margin-of'), 'cost');
  if (field === null || typeof share !== 'number') return share === null ? null : undefined;
  if (of === 'cost' || share <= MOST_OF_PRICE) return { share, of };
  const message = `margin is ${textOf(field)} of the price; at most 99.9 % can be`;
  report.error(field, 'out-of-range', message, 'is margin-of: cost meant?');
  return null;
}
