import { parseLength } from '../../src/partsfile/lengths.ts';
import { readPartsFile } from '../../src/partsfile/read-parts-file.ts';
import { parseSize } from '../../src/partsfile/sizes.ts';
import { CODES } from './corpus.ts';
import type { Draw } from './draw.ts';
import { oddNumber, writtenLength } from './drawn-number.ts';
import type { FuzzCase, Outcome, Reader } from './fuzz-case.ts';
import { jobFaults } from './sound-job.ts';
import { NO_DRAWING } from './tiny-plans.ts';
import { sentenceFaults, severityFaults, toldFaults } from './told.ts';

/** Lengths and sizes on their own, right ones against what they mean by another road, and all quantities at their places in a file. */
export const lengthsReader: Reader = (draw) =>
  draw.weighed<() => FuzzCase>([
    [4, () => rightLength(draw)],
    [2, () => rightSize(draw)],
    [3, () => oddLength(draw)],
    [3, () => quantity(draw)],
  ])();

function rightLength(draw: Draw): FuzzCase {
  const unit = draw.pick(['mm', 'in'] as const);
  const { text, means } = writtenLength(draw, unit);
  return caseOf(text, () => {
    const read = parseLength(text, unit);
    if (!read.ok)
      return {
        isRead: false,
        codes: ['bad-length'],
        faults: [`not read: ${read.message}`],
        later: null,
      };
    return cleanly(read.length === Number(means) ? [] : [`${read.length} for ${means}`]);
  });
}

function rightSize(draw: Draw): FuzzCase {
  // A unit is said of both or of none.
  const units = draw.chance(0.5);
  const [a, b] = [writtenLength(draw, 'mm', units), writtenLength(draw, 'mm', units)];
  const text = `${a.text}${draw.pick([' x ', 'x', ' X ', ' × ', '*'])}${b.text}`;
  return caseOf(text, () => {
    const read = parseSize(text, 'mm');
    if (!read.ok)
      return {
        isRead: false,
        codes: ['bad-size'],
        faults: [`not read: ${read.message}`],
        later: null,
      };
    const lengths = read.sides.map((side) => (side.ok ? side.length : Number.NaN));
    const isRight = lengths[0] === Number(a.means) && lengths[1] === Number(b.means);
    return cleanly(isRight ? [] : [`${lengths} for ${a.means} and ${b.means}`]);
  });
}

function oddLength(draw: Draw): FuzzCase {
  const unit = draw.pick(['mm', 'in'] as const);
  const text = oddNumber(draw);
  return caseOf(text, () => {
    const length = parseLength(text, unit);
    const size = parseSize(text, unit);
    const told = [length, size].flatMap((read) =>
      read.ok ? [] : [read.message, read.hint ?? 'none'],
    );
    return {
      isRead: length.ok || size.ok,
      codes: [
        ...(length.ok ? [] : [length.comma ? 'decimal-comma' : 'bad-length']),
        ...(size.ok ? [] : ['bad-size']),
      ],
      faults: [
        ...told.flatMap(sentenceFaults),
        ...(length.ok && !Number.isInteger(length.length) ? [`${length.length}`] : []),
      ],
      later: null,
    };
  });
}

/** Where each kind of quantity stands. */
const PLACES: readonly ((value: string) => string)[] = [
  (value) => `machine: { feed: ${value} }`,
  (value) => `machine: { speed: ${value} }`,
  (value) => `machine: { cutter: { diameter: 6, helix: ${value}, spiral: up-cut } }`,
  (value) => `table: { altitude: ${value} }`,
  (value) => `table: { pump: { flow: ${value}, vacuum: 20, kind: vane } }`,
  (value) => `table: { pump: { flow: 200, vacuum: ${value}, kind: vane } }`,
  (value) => `table: { friction: ${value} }`,
  (value) => `table: { spoilboard: { thickness: 18, permeability: ${value} } }`,
  (value) => `table: { pipe: { loss: ${value}, flow: 300 } }`,
  (value) => `table: { pods: { size: 140 x 115, leak: ${value} } }`,
  (value) => `limits: { yield: ${value} }`,
  (value) => `limits: { cost: ${value} }`,
  (value) => `limits: { weight: ${value} }`,
  (value) => `limits: { time: ${value} }`,
  (value) => `costs: { labour: { machine: ${value} } }`,
  (value) => `costs: { setup: ${value}, tax: ${value}, waste: ${value} }`,
  (value) => `costs: { edge-band: { price: ${value}, time: ${value} } }`,
  (value) => `costs: { margin: ${value} }`,
  (value) => `offcuts: { least: ${value} }`,
  (value) => `labels: { roll: ${value} }`,
  (value) => `labels: { paper: ${value}, columns: 2, rows: 3 }`,
  (value) => `currency: ${value}`,
];

function quantity(draw: Draw): FuzzCase {
  const value = draw.chance(0.3) ? draw.pick(USUAL) : oddNumber(draw);
  const line = draw.pick(PLACES)(draw.chance(0.8) ? JSON.stringify(value) : value);
  const text = `unit: mm\n${line}\nmaterials: { p: { family: mdf, thickness: 18, sheets: [{ size: 900 x 600 }] } }\nparts: [{ name: A, material: p, size: 300 x 200 }]\n`;
  return caseOf(text, () => {
    const { job, problems } = readPartsFile(text, NO_DRAWING);
    return {
      isRead: job !== null,
      codes: problems.map(({ code }) => code),
      faults: [
        ...toldFaults(problems, text, CODES),
        ...severityFaults(problems, job !== null),
        ...(job === null ? [] : jobFaults(job)),
      ],
      later: null,
    };
  });
}

const USUAL = [
  '9 m/min',
  '18000 rpm',
  '30°',
  '300 m',
  '250 m3/h',
  '90 kPa',
  '0.4',
  '3e-13',
  '5 mm2',
  '70 %',
  '600',
  '25 kg',
  '90 min',
  '65 per h',
  '0.85 per m',
  '40 s per m',
  '300 x 150',
  'a4',
  'USD',
];

function caseOf(shown: string, read: () => Outcome): FuzzCase {
  return { shown, read };
}

function cleanly(faults: readonly string[]): Outcome {
  return { isRead: true, codes: [], faults, later: null };
}
