import { lengthNumber } from '../../model/format.ts';
import type { FileUnit } from '../../model/job.ts';
import type { Band, Pipe, Table } from '../../model/machine.ts';
import { type Calibration, inHg, type TableReadings } from '../../model/readings.ts';
import { fromMm, toMm } from '../../model/units.ts';
import { WIDTH } from './line.ts';

const M3H_PER_CFM = 1.699011;

/**
 * The `table:` of a parts file with the figures that were found, as its lines. What the readings file left out and the
 * readings do not give is left out here too, so that a plan goes on naming it as assumed.
 */
export function tableBlock({ unit, given }: TableReadings, found: Calibration): readonly string[] {
  const { table } = found;
  const isPumpFitted = found.flowFactor !== null || found.vacuumFactor !== null;
  const hasBoard = given.has('spoilboard') || found.permeabilityM2 !== null;
  const hasFriction = given.has('friction') || found.friction !== null;
  const hasFilmFaced = given.has('friction-film-faced') || found.frictionFilmFaced !== null;
  const { size, pipe } = table;
  return [
    'table:',
    ...(size === null ? [] : [`  size: ${sizeText(size.length, size.width, unit)}`]),
    ...(given.has('pump') || isPumpFitted ? pumpLines(table, unit, isPumpFitted) : []),
    ...(pipe === null ? [] : [`  pipe: ${pipeText(pipe, unit)}`]),
    ...(hasBoard
      ? boardLines(table, unit, given.has('permeability') || found.permeabilityM2 !== null)
      : []),
    ...(given.has('altitude') ? [`  altitude: ${digits(table.altitudeM)} m`] : []),
    ...(hasFriction ? [`  friction: ${bandText(table.friction)}`] : []),
    ...(hasFilmFaced ? [`  friction-film-faced: ${bandText(table.frictionFilmFaced)}`] : []),
  ];
}

function pumpLines({ pump }: Table, unit: FileUnit, isFitted: boolean): readonly string[] {
  const most = isFitted ? FITTED_DIGITS : GIVEN_DIGITS;
  const figure = (value: number) => digits(value, most);
  const pairs = pump.curve.map(({ flowM3h, vacuumKpa }) => {
    const [flow, vacuum] =
      unit === 'mm' ? [flowM3h, vacuumKpa] : [flowM3h / M3H_PER_CFM, inHg(vacuumKpa)];
    return `[${figure(flow)}, ${figure(vacuum)}]`;
  });
  const lines: string[] = [];
  let line = '    curve: [';
  pairs.forEach((pair, i) => {
    const text = i === pairs.length - 1 ? `${pair}]` : `${pair},`;
    const gap = line.endsWith('[') || line.trim() === '' ? '' : ' ';
    if (line.length + gap.length + text.length > WIDTH) {
      lines.push(line);
      line = `      ${text}`;
    } else line += `${gap}${text}`;
  });
  return ['  pump:', `    kind: ${word(pump.kind)}`, ...lines, line];
}

function boardLines(
  { spoilboard }: Table,
  unit: FileUnit,
  hasPermeability: boolean,
): readonly string[] {
  const { kind, thickness, permeabilityM2, alongRatio } = spoilboard;
  return [
    '  spoilboard:',
    `    kind: ${word(kind)}`,
    `    thickness: ${number(thickness, unit)}`,
    ...(hasPermeability ? [`    permeability: ${bandText(permeabilityM2)}`] : []),
    ...(alongRatio === 1 ? [] : [`    along-ratio: ${digits(alongRatio)}`]),
  ];
}

function pipeText(pipe: Pipe, unit: FileUnit): string {
  if (pipe.kind === 'plain') {
    const { bore, length, elbows } = pipe;
    return `{ bore: ${number(bore, unit)}, length: ${number(length, unit)}, elbows: ${elbows} }`;
  }
  const { lossKpa, flowM3h } = pipe;
  const [loss, flow] = unit === 'mm' ? [lossKpa, flowM3h] : [inHg(lossKpa), flowM3h / M3H_PER_CFM];
  return `{ loss: ${digits(loss)}, flow: ${digits(flow)} }`;
}

function bandText({ nominal, low }: Band): string {
  return `[${digits(nominal)}, ${digits(low)}]`;
}

/** A length that reads back as it is: in the file's unit where its printed digits say all of it. */
function number(length: number, unit: FileUnit): string {
  const text = lengthNumber(length, unit);
  const isWhole = unit === 'mm' ? fromMm(Number(text)) === length : !text.includes('.');
  return isWhole ? text : `${toMm(length)}mm`;
}

/** Both lengths without a unit, or both with the same. */
function sizeText(length: number, width: number, unit: FileUnit): string {
  const [first, second] = [number(length, unit), number(width, unit)];
  const isPlain = ![first, second].some((text) => text.endsWith('mm'));
  return isPlain ? `${first} x ${second}` : `${toMm(length)}mm x ${toMm(width)}mm`;
}

/** A name as YAML takes it. */
function word(name: string): string {
  return /^\p{L}[\p{L}\d .-]*$/u.test(name) && !/^(true|false|null|yes|no)$/i.test(name)
    ? name
    : JSON.stringify(name);
}

const FITTED_DIGITS = 4;
const GIVEN_DIGITS = 7;

function digits(value: number, most = GIVEN_DIGITS): string {
  return String(Number(value.toPrecision(most)));
}
