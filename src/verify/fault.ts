import type { Job } from '../model/job.ts';

/** Everything that can be wrong with a layout. */
export const FAULT_CODES = [
  'unknown-material',
  'unknown-piece',
  'other-material',
  'missing',
  'twice',
  'left-out',
  'unknown-stock',
  'over-stock',
  'empty-sheet',
  'not-whole',
  'turn',
  'grain',
  'mirrored',
  'outside',
  'overlap',
  'spacing',
  'cut-out',
  'keep-out',
  'set-apart',
  'set-turn',
  'set-order',
  'set-gap',
  'stray-cut',
  'cut-elsewhere',
  'cut-too-long',
  'too-many-stages',
  'first-cut',
  'not-cut-out',
  'used',
  'bound',
  'status',
] as const;

/** And what only boards can have wrong. */
export const BOARD_FAULT_CODES = ['empty-board', 'kerf', 'defect'] as const;
export type FaultCode = (typeof FAULT_CODES)[number] | (typeof BOARD_FAULT_CODES)[number];

/** One thing wrong with a layout. `sheet` counts from 0 in the layout's own list; `piece` and `other` are piece indices of the job. */
export interface Fault {
  readonly code: FaultCode;
  readonly sheet: number | null;
  readonly piece: number | null;
  readonly other: number | null;
  readonly message: string;
}

/** A piece as a person knows it, such as "Side 2". */
export function pieceName(job: Job, index: number): string {
  const piece = job.pieces[index];
  const part = piece && job.parts[piece.part];
  return piece && part ? `${part.name} ${piece.number}` : `piece ${index}`;
}
