import { costPlan } from '../../src/costing/cost-plan.ts';
import type { Job } from '../../src/model/job.ts';
import type { Plan } from '../../src/model/plan.ts';
import { readPartsFile } from '../../src/partsfile/read-parts-file.ts';

/** A job whose only material is lumber, with the given keys of it and of its parts. */
export function lumberText(
  keys: string,
  parts: readonly string[] = ['size: 720 x 70, count: 8'],
  { unit = 'mm', thickness = '21mm', family = 'hardwood' } = {},
): string {
  return `job: Table
unit: ${unit}
currency: EUR
materials:
  oak: { name: Oak 21 mm, family: ${family}, thickness: ${thickness}, lumber: { ${keys} } }
parts:
${parts.map((part, i) => `  - { name: Part ${i + 1}, material: oak, ${part} }\n`).join('')}`;
}

export function lumberJob(...text: Parameters<typeof lumberText>): Job {
  const { job, problems } = readPartsFile(lumberText(...text), () => ({
    ok: false,
    reason: 'missing',
    detail: '',
  }));
  if (job === null) throw new Error(JSON.stringify(problems));
  return job;
}

/** The plan of such a job: nothing is laid out. */
export function lumberPlan(...text: Parameters<typeof lumberText>): Plan {
  const job = lumberJob(...text);
  return {
    job,
    options: { effort: 'quick', seed: 1, seconds: null },
    stopped: null,
    layouts: [],
    holding: [],
    sensitivity: [],
    cutWarnings: [],
    costs: costPlan(job, [], []),
  };
}
