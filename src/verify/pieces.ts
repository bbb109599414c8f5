import type { Job } from '../model/job.ts';
import type { Layout } from '../model/layout.ts';
import { type Fault, pieceName } from './fault.ts';

/** Every piece of the material is placed once or listed as unplaced once, and no other piece is there. */
export function checkPieces(job: Job, layout: Layout): Fault[] {
  const faults: Fault[] = [];
  const seen = new Set<number>();
  for (const { piece, sheet } of mentions(layout)) {
    const name = pieceName(job, piece);
    const material = materialOf(job, piece);
    if (material === null)
      faults.push(fault('unknown-piece', piece, sheet, `the job has no ${name}`));
    else if (material !== layout.material)
      faults.push(fault('other-material', piece, sheet, `${name} is of another material`));
    else if (seen.has(piece))
      faults.push(fault('twice', piece, sheet, `${name} is in the layout twice`));
    seen.add(piece);
  }
  for (const { index } of job.pieces) {
    if (materialOf(job, index) === layout.material && !seen.has(index))
      faults.push(fault('missing', index, null, `${pieceName(job, index)} is not in the layout`));
  }
  return faults;
}

interface Mention {
  readonly piece: number;
  readonly sheet: number | null;
}

function mentions(layout: Layout): Mention[] {
  const placed = layout.sheets.flatMap(({ placements }, sheet) =>
    placements.map(({ piece }) => ({ piece, sheet })),
  );
  return [...placed, ...layout.unplaced.map(({ piece }) => ({ piece, sheet: null }))];
}

function materialOf(job: Job, index: number): number | null {
  const piece = job.pieces[index];
  return (piece && job.parts[piece.part]?.material) ?? null;
}

function fault(code: Fault['code'], piece: number, sheet: number | null, message: string): Fault {
  return { code, sheet, piece, other: null, message };
}
