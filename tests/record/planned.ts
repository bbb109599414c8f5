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

/** The parts file of a job in inches: keep-outs, an opening with pieces in it, a pocket, matched sets, arcs, packs, boards, and too little of one stock. */
export const ODD = `job: Odd
unit: in
currency: USD
machine: { cutter: { diameter: 1/4 }, spacing: 5/16 }
materials:
  ply:
    thickness: 3/4
    family: plywood
    sheets:
      - size: 48 x 48
        price: 40
        pack: 3
        grain: first
        trim: { left: 1/2, right: 1/4, bottom: 1/8, top: 0 }
        keep-out: [{ at: [3, 3], size: 4 x 4, why: knot }]
        lifted: { right: { gap: 0.3mm, depth: 150mm } }
      - { points: [[0, 0], [48, 0], [48, 16], [24, 32], [0, 32]], price: 5, on-hand: 1, trim: 1/4, grain: first }
  mdf:
    thickness: 1/4
    family: mdf
    sheets: [{ size: 24 x 24, on-hand: 1 }]
    boards: [{ length: 40, on-hand: 1, trim: 1/2 }]
parts:
  - { name: Fronts, matched: [[10, 6], [10, 6], [12, 6]], material: ply, grain: along, count: 2 }
  - { name: Wing, path: M0 0 H10 V3.1 A12 12 0 0 0 0 6 Z, material: ply, count: 5, turns: any, face: either }
  - { name: Disc, shape: disc, diameter: 7.3, material: ply, count: 6 }
  - name: Frame
    material: ply
    size: 14 x 14
    cut-outs: [{ at: [2, 2], size: 10 x 10 }]
    nest-inside: yes
    count: 2
    pockets: [{ at: [0, 1/2], size: 14 x 3/4, depth: 1/4 }]
    holes: [{ at: [1, 1], diameter: 1/4, depth: 1/2 }]
  - { name: Small, material: ply, size: 3 x 2, count: 12, edges: { left: 1mm } }
  - { name: Big, material: mdf, size: 20 x 20, count: 2 }
  - { name: Rail, material: mdf, length: 12-1/3, count: 5 }
  - { name: Post, material: mdf, length: 9, count: 2 }
`;

/** The plan of an example, or of the odd job, with the first layout that is found, which takes no time. */
export async function planned(name: string): Promise<Planned> {
  const bytes = name === 'odd' ? Buffer.from(ODD) : readFileSync(join(EXAMPLES, name));
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
