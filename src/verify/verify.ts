import type { Job } from '../model/job.ts';
import type { Layout } from '../model/layout.ts';
import { checkBoards } from './boards.ts';
import { checkBoardPieces } from './boards-pieces.ts';
import { checkClaims } from './claims.ts';
import { checkEdges } from './edges.ts';
import type { Fault } from './fault.ts';
import { checkKeepOuts } from './keep-outs.ts';
import { layPieces } from './laid-piece.ts';
import { checkOrientations } from './orientations.ts';
import { checkPieces } from './pieces.ts';
import { checkSequence } from './sequence.ts';
import { checkSets } from './sets.ts';
import { checkSpacing } from './spacing.ts';
import { checkStock } from './stock.ts';
import { checkUnplaced } from './unplaced.ts';

export type { Fault, FaultCode } from './fault.ts';

/** Valid where there is no fault at all. */
export interface Verdict {
  readonly valid: boolean;
  readonly faults: readonly Fault[];
}

/**
 * Checks the layout of one material against the job, from scratch: only the placements are read, and what the layout
 * claims about itself is reckoned again. Pairs of pieces are compared one by one, so cost grows with the square of the
 * pieces of a sheet; meant for up to 10,000 pieces in all.
 */
export function verifyLayout(job: Job, layout: Layout): Verdict {
  const faults = job.materials[layout.material]
    ? checkAll(job, layout)
    : [unknownMaterial(layout.material)];
  return { valid: faults.length === 0, faults };
}

function checkAll(job: Job, layout: Layout): Fault[] {
  const sheets = layPieces(job, layout);
  return [
    ...checkPieces(job, layout),
    ...checkUnplaced(job, layout),
    ...checkStock(job, layout),
    ...checkOrientations(job, layout),
    ...checkEdges(job, sheets),
    ...checkSpacing(job, sheets),
    ...checkKeepOuts(job, sheets),
    ...checkSets(job, layout, sheets),
    ...checkSequence(job, layout, sheets),
    ...checkBoards(job, layout),
    ...checkBoardPieces(job, layout),
    ...checkClaims(job, layout),
  ];
}

function unknownMaterial(material: number): Fault {
  const message = `the job has no material ${material}`;
  return { code: 'unknown-material', sheet: null, piece: null, other: null, message };
}
