import { costPlan } from '../../src/costing/cost-plan.ts';
import type { Job } from '../../src/model/job.ts';
import type { Layout } from '../../src/model/layout.ts';
import type { Plan } from '../../src/model/plan.ts';

/** A plan of one layout in which nothing is held by vacuum. */
export function planOf(job: Job, layout: Layout): Plan {
  return {
    job,
    options: { effort: 'quick', seed: 1, seconds: null },
    stopped: null,
    layouts: [layout],
    holding: [],
    sensitivity: [],
    cutWarnings: [],
    costs: costPlan(job, [layout], []),
  };
}
