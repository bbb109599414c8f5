import { formatLength } from '../../model/format.ts';
import {
  type Calibration,
  FACTOR_BOUNDS,
  isAir,
  PUMP_READINGS,
  type TableReadings,
} from '../../model/readings.ts';

/** Beyond, the permeability is said to be poorly known. */
const POOR_SPREAD = Math.log(1.3);

/** What the readings do not tell, and which reading would. */
export function openSentences(
  { readings, table }: TableReadings,
  found: Calibration,
): readonly string[] {
  const air = readings.filter(isAir);
  const sentences: string[] = [];
  if (air.length > 0 && found.permeabilityM2 === null)
    sentences.push(`Permeability: not told by these readings. ${THROTTLE_HINT}`);
  if (found.permeabilityM2 !== null && found.permeabilitySpread > POOR_SPREAD)
    sentences.push(
      `Permeability: poorly known, because these vacuums hardly depend on it. ${THROTTLE_HINT}`,
    );
  if (air.length > 0) sentences.push(...pumpSentences(air.length, found));
  if (table.seal === null && found.friction === null && found.frictionFilmFaced === null)
    sentences.push('Friction: nothing was tilted or pulled.');
  return sentences;
}

const THROTTLE_HINT =
  'Read the bare table with a throttle whose hole brings the gauge to about half.';

function pumpSentences(airCount: number, found: Calibration): readonly string[] {
  if (airCount < PUMP_READINGS)
    return [`Pump: taken as given; it is fitted too from ${PUMP_READINGS} air readings on.`];
  const unclear = 'these readings would leave it more than 15 % wrong, so it is taken as given';
  const sentences: string[] = [];
  if (found.untold.includes('vacuum')) sentences.push(`Vacuum of the pump: ${unclear}.`);
  if (found.untold.includes('flow')) sentences.push(`Flow of the pump: ${unclear}.`);
  else if (found.flowFactor === null && found.permeabilityM2 !== null)
    sentences.push(
      'Flow of the pump: taken as given, because only a known hole tells it from the permeability (kind: hole, or a throttle). The vacuum of a plan hangs on the ratio of the two, which is known.',
    );
  for (const [name, factor] of [
    ['flow', found.flowFactor],
    ['vacuum', found.vacuumFactor],
  ] as const) {
    const [least, most] = FACTOR_BOUNDS[name];
    if (factor !== null && (factor < least * AT_BOUND || factor > most / AT_BOUND))
      sentences.push(`The pump's ${name} is at the end of what is believed: is its plate right?`);
  }
  return sentences;
}

const AT_BOUND = 1.001;

/** What the figures rest on. */
export function takenAsGiven(
  { readings, table, given, unit }: TableReadings,
  found: Calibration,
): readonly string[] {
  const air = readings.filter(isAir);
  const onTable = air.filter((reading) => reading.kind !== 'hole');
  const hasHole = air.some((reading) => reading.kind === 'hole' || reading.throttle > 0);
  const pulls = readings.filter((reading) => reading.kind === 'pull');
  const restsOnBoard = onTable.length > 0 || pulls.some(({ openBeside }) => openBeside);
  return [
    ...(air.length > 0 ? table.assumed : []),
    ...(air.length > 0 && given.has('pump') ? [pumpText(found)] : []),
    ...(restsOnBoard ? [`a spoilboard of ${formatLength(table.spoilboard.thickness, unit)}`] : []),
    ...(air.length > 0 && given.has('altitude')
      ? [`${Math.round(table.altitudeM)} m above the sea`]
      : []),
    ...(onTable.some(({ sheet }) => sheet !== null) ? ['airtight sheets with sealed edges'] : []),
    ...(hasHole ? ['sharp-edged holes (discharge coefficient 0.61)'] : []),
    ...(pulls.some(({ weightKg }) => weightKg === 0) ? ['a test square without weight'] : []),
    ...(readings.some(({ kind }) => kind === 'tilt')
      ? ['a board that was level before the tilt']
      : []),
  ];
}

function pumpText({ flowFactor, vacuumFactor }: Calibration): string {
  if (flowFactor !== null && vacuumFactor !== null) return "the shape of the pump's curve";
  if (vacuumFactor !== null) return 'the flow of the pump';
  return flowFactor === null ? 'the pump' : 'the vacuum of the pump';
}
