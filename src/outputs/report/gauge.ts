import { counted, formatLength, formatShare, formatSize } from '../../model/format.ts';
import type { FileUnit } from '../../model/job.ts';
import {
  type Calibration,
  formatVacuum,
  type GaugeReading,
  isAir,
  type TableReadings,
} from '../../model/readings.ts';
import { N_PER_LBF, toMm } from '../../model/units.ts';
import { tableBlock } from './gauge-table.ts';
import { openSentences, takenAsGiven } from './gauge-wording.ts';
import { type Line, type Tone, table, wrap } from './line.ts';

/** What readings say of a table: the block for the parts file, how well it fits, what is open, what was taken as given. */
export function gaugeLines(readings: TableReadings, found: Calibration): readonly Line[] {
  return [
    ...wrap('heading', `${headText(found)} from ${counted(readings.readings.length, 'reading')}.`),
    ...farOffLines(readings, found),
    ...slipLines(found),
    ...wrap('plain', 'For the parts file:'),
    blank(),
    ...tableBlock(readings, found).map((text): Line => ({ tone: 'plain', text })),
    blank(),
    ...readingLines(readings, found),
    blank(),
    ...figureSentences(readings, found).flatMap((text) => wrap('plain', text, '  ')),
    ...openSentences(readings, found).flatMap((text) => wrap('care', text, '  ')),
    ...wrap('plain', `Taken as given: ${takenAsGiven(readings, found).join('; ')}.`, '  '),
    blank(),
    ...GAUGE_CAUTIONS.flatMap((caution) => wrap('quiet', caution)),
  ];
}

export const GAUGE_CAUTIONS: readonly string[] = [
  'Take readings with the spindle stopped and locked, hands and clothes clear of the pump inlet and of every open hose, and the pump off while a plate or a sheet is changed.',
  'The figures are estimates, no guarantee: make a test cut, and read again when the spoilboard is planed or changed. Local rules, the makers’ instructions and trained people come first.',
];

function headText({ permeabilityM2, flowFactor, vacuumFactor, ...found }: Calibration): string {
  const names = [
    ...(permeabilityM2 === null ? [] : ['permeability']),
    ...(flowFactor === null && vacuumFactor === null ? [] : ['pump']),
    ...(found.friction === null && found.frictionFilmFaced === null ? [] : ['friction']),
  ];
  if (names.length === 0) return 'Nothing could be found';
  const text =
    names.length === 1 ? names[0]! : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
  return `${text.slice(0, 1).toUpperCase()}${text.slice(1)}`;
}

const COLUMNS = [
  { most: 44, right: false },
  { most: 10, right: true },
  { most: 10, right: true },
  { most: 10, right: true },
];

function readingLines({ unit, readings }: TableReadings, found: Calibration): readonly Line[] {
  const shares = sharesOff(readings, found);
  const rows = readings.map((reading, i) => [
    readingName(reading, unit),
    valueText(reading, readValue(reading), unit),
    valueText(reading, found.reckoned[i]!, unit),
    shareText(shares[i]!),
  ]);
  return table([['reading', 'read', 'reckoned', 'difference'], ...rows], COLUMNS).map(
    (text, i): Line => ({ tone: i === 0 ? 'quiet' : toneOf(shares[i - 1]!), text }),
  );
}

const CARE_SHARE = 0.05;
const BAD_SHARE = 0.15;

function toneOf(share: number): Tone {
  if (Math.abs(share) > BAD_SHARE) return 'bad';
  return Math.abs(share) > CARE_SHARE ? 'care' : 'plain';
}

function farOffLines({ readings }: TableReadings, found: Calibration): readonly Line[] {
  const far = sharesOff(readings, found).filter((share) => Math.abs(share) > BAD_SHARE).length;
  if (far === 0) return [];
  const text = `Do not use these figures yet: ${counted(far, 'reading')} cannot be met within ${formatShare(BAD_SHARE)}. Read again, first what is farthest off below, and look for a leak or a slip of the pen.`;
  return wrap('bad', text, '  ');
}

/** Air-dry wood on wood and on steel: 0.65 (McKenzie & Karpovich 1968, Wood Science and Technology 2); nothing dry was found above 0.7. */
const MOST_FRICTION = 0.7;

function slipLines({ friction, frictionFilmFaced }: Calibration): readonly Line[] {
  const most = Math.max(friction?.nominal ?? 0, frictionFilmFaced?.nominal ?? 0);
  if (most <= MOST_FRICTION) return [];
  const text = `A friction of ${most.toFixed(2)} is more than is published for dry panels (up to ${MOST_FRICTION}): see that nothing else held the test piece.`;
  return wrap('bad', text, '  ');
}

/** By how much what is reckoned is above what was read. */
function sharesOff(
  readings: readonly GaugeReading[],
  { reckoned }: Calibration,
): readonly number[] {
  return readings.map((reading, i) => reckoned[i]! / readValue(reading) - 1);
}

function shareText(share: number): string {
  const text = formatShare(share);
  return share >= 0 && text !== '0.0 %' ? `+${text}` : text.replace(/^-(0\.0 %)$/, '$1');
}

function readValue(reading: GaugeReading): number {
  if (reading.kind === 'tilt') return reading.angleDeg;
  return reading.kind === 'pull' ? reading.forceN : reading.vacuumKpa;
}

function valueText(reading: GaugeReading, value: number, unit: FileUnit): string {
  if (reading.kind === 'tilt') return `${value.toFixed(1)}°`;
  if (reading.kind !== 'pull') return formatVacuum(value, unit);
  return unit === 'mm' ? `${value.toFixed(1)} N` : `${(value / N_PER_LBF).toFixed(1)} lbf`;
}

function readingName(reading: GaugeReading, unit: FileUnit): string {
  const text = plainName(reading, unit);
  if (!isAir(reading)) return reading.surface === 'raw' ? text : `${text}, film-faced`;
  if (reading.kind === 'hole' || reading.throttle === 0) return text;
  return `${text}, plate ${formatLength(reading.throttle, unit)}`;
}

function plainName(reading: GaugeReading, unit: FileUnit): string {
  switch (reading.kind) {
    case 'bare':
      return 'bare table';
    case 'covered':
    case 'kerf': {
      const { sheet, kerfLength, kerfWidth } = reading;
      const named =
        sheet === null ? 'sheet' : `sheet ${formatSize(sheet.length, sheet.width, unit)}`;
      if (kerfLength === 0) return named;
      const metres = toMm(kerfLength) / 1000;
      const length =
        unit === 'mm' ? `${metres.toFixed(1)} m` : `${(metres / 0.3048).toFixed(1)} ft`;
      return `${length} of ${formatLength(kerfWidth, unit)} kerf`;
    }
    case 'hole':
      return `hole ${formatLength(reading.diameter, unit)} in place of the table`;
    case 'tilt':
      return 'tilted board';
    default:
      return `pull on a square of ${formatLength(reading.square, unit)}`;
  }
}

function figureSentences({ readings }: TableReadings, found: Calibration): readonly string[] {
  const { permeabilityM2, permeabilitySpread, flowFactor, vacuumFactor, airResidual } = found;
  const pump = [
    ...(flowFactor === null ? [] : [`moves ${times(flowFactor)} the flow`]),
    ...(vacuumFactor === null ? [] : [`reaches ${times(vacuumFactor)} the vacuum`]),
  ];
  const frictions = readings.filter((reading) => !isAir(reading)).length;
  return [
    ...(airResidual === null
      ? []
      : [`Read and reckoned vacuum differ by ${formatShare(airResidual)} (root mean square).`]),
    ...(permeabilityM2 === null
      ? []
      : [
          `Permeability: ${permeabilityM2.nominal.toPrecision(3)} m2, by these readings within about ${Math.ceil(100 * Math.expm1(permeabilitySpread))} %; the cautious end is that much up, at least 10 %.`,
        ]),
    ...(pump.length === 0 ? [] : [`Pump: it ${pump.join(' and ')} of the given curve.`]),
    ...(frictions === 0
      ? []
      : [
          'Friction: the mean of its readings; the low end is the lowest of them, at most 3/4 of the mean where there are fewer than three and 9/10 where there are more.',
        ]),
  ];
}

function times(factor: number): string {
  return `${factor.toFixed(2)} times`;
}

function blank(): Line {
  return { tone: 'plain', text: '' };
}
