import type { Job } from '../model/job.ts';
import type { RecordFault } from '../model/recheck.ts';
import { fromMm, toMm } from '../model/units.ts';

/** What is collected while layouts are rebuilt from a record. */
export interface Rebuilding {
  readonly job: Job;
  readonly names: Names;
  readonly faults: RecordFault[];
  /** Names of pieces and lengths that were placed or left out already. */
  readonly seen: Set<string>;
}

/** Indices of pieces, and of the parts of lengths, by name. Names of parts are unique in a job; those of a matched set share one and count through. */
export interface Names {
  readonly pieces: ReadonlyMap<string, number>;
  readonly lengths: ReadonlyMap<string, number>;
}

export function rebuildingOf(job: Job): Rebuilding {
  const pieces = job.pieces.map(
    ({ part, number, index }) => [nameOf(job.parts[part]!.name, number), index] as const,
  );
  const lengths = job.lengthParts.flatMap(({ name, count, index }) =>
    Array.from({ length: count }, (_, i) => [nameOf(name, i + 1), index] as const),
  );
  return {
    job,
    names: { pieces: new Map(pieces), lengths: new Map(lengths) },
    faults: [],
    seen: new Set(),
  };
}

export function nameOf(part: string, piece: number): string {
  return `${part} ${piece}`;
}

/** What is wrong with naming a piece here; notes it as named. A second mention is not rebuilt, so a layout never has more pieces than its job. */
export function mentionFault(
  name: string,
  index: number | undefined,
  seen: Set<string>,
  path: string,
): RecordFault | null {
  if (index === undefined)
    return { code: 'unknown-piece', path, message: `the job has no ${name}` };
  if (seen.has(name)) return { code: 'twice', path, message: `${name} is in the record twice` };
  seen.add(name);
  return null;
}

/** Half of the last decimal that a record has. */
const HALF_DIGIT = 5e-7;

/** A length that is no whole number of base lengths: what would be checked is not what is written. */
export function gridFaults(path: string, mm: number): readonly RecordFault[] {
  if (Math.abs(toMm(fromMm(mm)) - mm) <= HALF_DIGIT) return [];
  const message = `${mm} mm is no whole number of eighths of a micrometre`;
  return [{ code: 'not-whole', path, message }];
}
