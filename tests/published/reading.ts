import { isRouterJob, type RouterJob } from '../../src/model/job.ts';
import { FAMILIES } from '../../src/model/stock.ts';
import { readPartsFile } from '../../src/partsfile/read-parts-file.ts';

export interface Given {
  /** More lines of the file. */
  readonly lines?: string;
  /** More keys of every material. */
  readonly stock?: string;
}

/** A job with one material of 18 mm for each family, in their order; all that is not given as the tool takes it. */
export function readJob({ lines = '', stock = '' }: Given = {}): RouterJob {
  const materials = FAMILIES.map(
    (family) =>
      `  ${family}: { family: ${family}, thickness: 18, sheets: [{ size: 2440 x 1220 }]${stock} }`,
  );
  const text = `job: Figures
unit: mm
${lines}
materials:
${materials.join('\n')}
parts:
  - { name: Part, material: plywood, size: 600 x 400 }
`;
  const { job, problems } = readPartsFile(text, () => ({
    ok: false,
    reason: 'missing',
    detail: '',
  }));
  if (job === null || !isRouterJob(job)) throw new Error(JSON.stringify(problems));
  return job;
}
