import { expect } from 'vitest';
import { isRouterJob, type Job, type RouterJob } from '../../src/model/job.ts';
import type { Part } from '../../src/model/part.ts';
import {
  type DrawingRead,
  type PartsFileResult,
  readPartsFile,
} from '../../src/partsfile/read-parts-file.ts';

import { jobText } from '../helpers/job-text.ts';

export { jobText } from '../helpers/job-text.ts';

export const MM = 8000;

export type Drawings = Readonly<Record<string, string>>;

/** Reads a text with the drawings given by name; any other drawing is missing. */
export function read(text: string, drawings: Drawings = {}): PartsFileResult {
  return readPartsFile(text, (path): DrawingRead => {
    const drawing = drawings[path];
    return drawing === undefined
      ? { ok: false, reason: 'missing', detail: '' }
      : { ok: true, text: drawing, sha256: `hash of ${path}` };
  });
}

/** The job of a text that must have no problem. */
export function jobOf(text: string, drawings: Drawings = {}): Job {
  const { job, problems } = read(text, drawings);
  expect(problems).toEqual([]);
  if (job === null) throw new Error('no job');
  return job;
}

export function routerJobOf(text: string): RouterJob {
  const job = jobOf(text);
  if (!isRouterJob(job)) throw new Error('no router');
  return job;
}

/** The problems of a text as `line:column code`. */
export function problemsOf(text: string, drawings: Drawings = {}): readonly string[] {
  return read(text, drawings).problems.map(
    ({ place, code }) => `${place === null ? '-' : `${place.line}:${place.column}`} ${code}`,
  );
}

export function codesOf(text: string, drawings: Drawings = {}): readonly string[] {
  return read(text, drawings).problems.map(({ code }) => code);
}

/** The only part of a job whose parts list is these keys, in 18 mm plywood of 2440 x 1220. */
export function partOf(keys: string, unit: 'mm' | 'in' = 'mm'): Part {
  const [part] = jobOf(jobText(keys, unit)).parts;
  if (part === undefined) throw new Error('no part');
  return part;
}
