import type { FileUnit } from '../model/job.ts';
import { type FirstCut, type PanelSaw, STAGE_LIMITS, type Stages } from '../model/machine.ts';
import { fromMm, UNITS_PER_INCH, UNITS_PER_MM } from '../model/units.ts';
import { showLength, showSize } from './lengths.ts';
import { child, type Field, isFlawed, keySpot, keysOf, textOf } from './tree.ts';
import {
  type LengthRange,
  POSITIVE,
  type Reading,
  readLength,
  readSize,
  readWord,
} from './values.ts';

/** Common practice, no source: the width of a blade, and what is fed by hand alone, in round figures of the file's unit. */
const USUAL_KERF = fromMm(3.2);
const USUAL_FEED: Readonly<Record<FileUnit, PanelSaw['leastFeed']>> = {
  mm: { width: fromMm(150), length: fromMm(300) },
  in: { width: 6 * UNITS_PER_INCH, length: 12 * UNITS_PER_INCH },
};

const KERF: LengthRange = { min: 0, max: 20 * UNITS_PER_MM };

/** Keys that only one kind of machine has. */
export const SAW_KEYS: readonly string[] = [
  'stages',
  'first-cut',
  'longest-rip',
  'longest-crosscut',
  'stack',
  'least-feed',
];
export const ROUTER_KEYS: readonly string[] = [
  'cutter',
  'speed',
  'feed',
  'pass-depth',
  'last-pass',
  'finish',
  'spacing',
  'common-cuts',
];

/** The saw of the file, with usual values for what it leaves out. */
export function readPanelSaw(field: Field, reading: Reading): PanelSaw | null {
  const assumed: string[] = [];
  const kerf = readKerf(field, reading);
  if (child(field, 'kerf') === null) assumed.push(usualKerf(reading));
  if (kerf === 0) {
    reading.report.warning(
      keySpot(field, 'kerf'),
      'no-kerf',
      'kerf is 0, but every blade turns some wood to dust: strips and pieces would come out too small',
      'measure the width of a cut and write it',
    );
  }
  const longestRip = readOptional(field, 'longest-rip', reading);
  const longestCrosscut = readOptional(field, 'longest-crosscut', reading);
  const stackHeight = readOptional(field, 'stack', reading);
  const leastFeed = readLeastFeed(child(field, 'least-feed'), reading);
  if (child(field, 'least-feed') === null) assumed.push(usualFeed(reading));
  const isWhole = refuseOther(field, ROUTER_KEYS, 'a panel saw', 'kind: router', reading);
  if (kerf === null || leastFeed === null || !isWhole) return null;
  if (longestRip === undefined || longestCrosscut === undefined || stackHeight === undefined)
    return null;
  const first = readWord<FirstCut | 'better'>(child(field, 'first-cut'), 'better');
  return {
    kind: 'panel-saw',
    kerf,
    spacing: kerf,
    stages: readStages(child(field, 'stages')),
    firstCut: first === 'better' ? null : first,
    longestRip,
    longestCrosscut,
    stackHeight,
    leastFeed,
    assumed,
  };
}

/** Of the saw, or beside a router of the one for boards; null after a problem. */
export function readKerf(machine: Field | null, reading: Reading): number | null {
  const field = child(machine, 'kerf');
  return field === null ? USUAL_KERF : readLength(field, reading, KERF);
}

/** What is said where the file has no kerf. */
export function usualKerf({ unit }: Reading): string {
  return `kerf ${showLength(USUAL_KERF, unit)}`;
}

function usualFeed({ unit }: Reading): string {
  const { width, length } = USUAL_FEED[unit];
  return `least feed ${showSize(width, length, unit)}`;
}

/** Whether a router has no key that only a saw has. */
export function refuseSawKeys(field: Field | null, reading: Reading): boolean {
  return field === null || refuseOther(field, SAW_KEYS, 'a router', 'kind: panel-saw', reading);
}

function refuseOther(
  machine: Field,
  keys: readonly string[],
  name: string,
  other: string,
  { report }: Reading,
): boolean {
  const strange = keysOf(machine).filter((key) => keys.includes(key));
  for (const key of strange) {
    const hint = `write ${other}, or take ${key} out`;
    report.error(keySpot(machine, key), 'misplaced-key', `${name} has no ${key}`, hint);
  }
  return strange.length === 0;
}

function readStages(field: Field | null): Stages {
  if (field === null || isFlawed(field)) return null;
  return STAGE_LIMITS.find((limit) => textOf(field) === String(limit)) ?? null;
}

/** Null where the file has none; undefined after a problem. */
function readOptional(machine: Field, key: string, reading: Reading): number | null | undefined {
  const field = child(machine, key);
  return field === null ? null : (readLength(field, reading, POSITIVE) ?? undefined);
}

function readLeastFeed(field: Field | null, reading: Reading): PanelSaw['leastFeed'] | null {
  if (field === null) return USUAL_FEED[reading.unit];
  const size = readSize(field, reading, POSITIVE);
  return size === null ? null : { width: Math.min(...size), length: Math.max(...size) };
}
