import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { planRecord } from '../../src/index.ts';
import type { Job } from '../../src/model/job.ts';
import { readPartsFile } from '../../src/partsfile/read-parts-file.ts';
import { planJob } from '../../src/plan.ts';

const EXAMPLES = resolve(import.meta.dirname, '..', '..', 'examples');

/** A job with the record of a plan of it, as its text. */
export interface Planned {
  readonly name: string;
  readonly job: Job;
  readonly sha256: string;
  readonly text: string;
}

/** The plan of an example with the first layout that is found, which takes no time. */
export async function plannedExample(name: string): Promise<Planned> {
  const bytes = readFileSync(join(EXAMPLES, name));
  const { job } = readPartsFile(bytes.toString('utf8'), (path) => {
    const drawing = readFileSync(join(EXAMPLES, path));
    return { ok: true, text: drawing.toString('utf8'), sha256: hashOf(drawing) };
  });
  const { plan } = await planJob(
    job!,
    { effort: 'quick', seed: 1, seconds: null },
    { pack: null, stopCause: () => 'time', onProgress: () => {} },
  );
  const sha256 = hashOf(bytes);
  return { name, job: job!, sha256, text: planRecord(plan!, sha256) };
}

function hashOf(bytes: Buffer): string {
  return createHash('sha256').update(bytes).digest('hex');
}
