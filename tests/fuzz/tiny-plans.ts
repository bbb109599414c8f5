import { planRecord, recheck } from '../../src/index.ts';
import type { Job } from '../../src/model/job.ts';
import type { DrawingRead } from '../../src/partsfile/drawings.ts';
import { readPartsFile } from '../../src/partsfile/read-parts-file.ts';
import { planJob } from '../../src/plan.ts';
import { readRecord } from '../../src/record/read-record.ts';

const SHA = 'a'.repeat(64);

export interface TinyPlan {
  readonly job: Job;
  readonly sha256: string;
  readonly text: string;
}

/** A plan with the first layout that is found, which takes next to no time; null where a piece fits no sheet. */
export async function planTiny(job: Job): Promise<TinyPlan | null> {
  const { plan } = await planJob(
    job,
    { effort: 'quick', seed: 1, seconds: null },
    { pack: null, stopCause: () => 'time', onProgress: () => {} },
  );
  return plan === null ? null : { job, sha256: SHA, text: planRecord(plan, SHA) };
}

/** What is wrong with the plan of a job that was read: it is made, and its record holds against the job. */
export async function planFaults(job: Job): Promise<readonly string[]> {
  const plan = await planTiny(job);
  if (plan === null) return [];
  const { plan: record, faults } = readRecord(plan.text);
  const told = record === null ? faults : recheck(job, record, plan.sha256).faults;
  return told
    .slice(0, 3)
    .map(({ code, path, message }) => `the plan does not verify: ${code} ${path}: ${message}`);
}

const TEXTS = [
  `job: Router
unit: mm
currency: EUR
machine: { cutter: { diameter: 6 }, spacing: 8 }
materials:
  ply:
    family: plywood
    thickness: 18
    sheets:
      - { size: 700 x 500, price: 20, trim: 10, grain: first, keep-out: [{ at: [0, 0], size: 30 x 20, why: knot }] }
      - { points: [[0, 0], [500, 0], [500, 200], [250, 300], [0, 300]], price: 5, on-hand: 1, grain: first }
parts:
  - { name: Front, matched: [[200, 100], [200, 100]], material: ply, grain: along }
  - { name: Wing, path: M0 0 H100 V31 A120 120 0 0 0 0 60 Z, material: ply, count: 2, turns: any, face: either }
  - { name: Frame, material: ply, size: 200 x 200, cut-outs: [{ at: [40, 40], size: 120 x 120 }], nest-inside: yes, holes: [{ at: [20, 20], diameter: 8 }], pockets: [{ at: [0, 10], size: 200 x 20, depth: 6 }] }
`,
  `unit: in
machine: { kind: panel-saw, kerf: 1/8 }
materials:
  mdf: { family: mdf, thickness: 3/4, sheets: [{ size: 48 x 24 }], boards: [{ length: 40, on-hand: 2, trim: 1/2 }] }
parts:
  - { name: Side, material: mdf, size: 20 x 10, count: 3, edges: { left: 1mm } }
  - { name: Rail, material: mdf, length: 12-1/3, count: 4 }
`,
];

/** Small jobs with their plans, whose records are changed. */
export async function tinyPlans(): Promise<readonly TinyPlan[]> {
  return Promise.all(
    TEXTS.map(async (text) => (await planTiny(readPartsFile(text, NO_DRAWING).job!))!),
  );
}

export const NO_DRAWING = (): DrawingRead => ({ ok: false, reason: 'missing', detail: '' });
