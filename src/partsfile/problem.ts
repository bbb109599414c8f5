import type { Place } from '../model/place.ts';
import { visible } from './visible.ts';

/** Every kind of trouble that a parts file, or a drawing it names, can have. A test holds one fixture for each. */
export const PROBLEM_CODES = [
  // The text itself.
  'empty-file',
  'file-too-large',
  'not-text',
  'tab-indent',
  'yaml-syntax',
  'duplicate-key',
  'several-documents',
  'too-deep',
  'too-many-aliases',
  'yaml-feature',
  'too-many-problems',
  // The keys and the kind of their values.
  'unknown-key',
  'missing-key',
  'misplaced-key',
  'wrong-type',
  'unknown-word',
  // Single values.
  'bad-length',
  'bad-size',
  'bad-quantity',
  'bad-price',
  'bad-currency',
  'bad-name',
  'decimal-comma',
  'out-of-range',
  'bad-layer',
  'bad-label-grid',
  // Machine and table.
  'spacing-too-small',
  'bad-pump-curve',
  'no-kerf',
  'thinner-than-kerf',
  'sawn-as-rectangle',
  'stack-too-low',
  // Materials and sheets.
  'no-sheets',
  'no-boards',
  'fits-no-board',
  'trim-too-wide',
  'trim-uneven',
  'keep-out-outside',
  'defect-outside',
  'grain-unclear',
  'assumed-family',
  // Parts.
  'duplicate-name',
  'unknown-material',
  'no-outline',
  'two-outlines',
  'edges-too-wide',
  'set-direction',
  'too-many-pieces',
  'too-complex',
  'fits-no-sheet',
  // Outlines, cut-outs and holes.
  'bad-path',
  'arc-radius',
  'open-outline',
  'branched-outline',
  'self-crossing',
  'no-area',
  'outline-too-large',
  'cut-out-outside',
  'hole-outside',
  'hole-too-deep',
  'points-origin',
  'overlap',
  // Drawings.
  'drawing-missing',
  'drawing-unreadable',
  'drawing-not-allowed',
  'drawing-too-large',
  'drawing-broken',
  'drawing-unsafe',
  'drawing-feature',
  'drawing-empty',
  'drawing-id',
  'several-outlines',
  'drawing-pixels',
  'no-drawing-unit',
  'drawing-unit',
  'drawing-ignored',
] as const;

/** Beside these, the trouble that only a file of readings can have, and that of a rack. */
export type ProblemCode =
  | (typeof PROBLEM_CODES)[number]
  | 'impossible-reading'
  | 'bad-date'
  | 'mixed-currency'
  | 'rack-missing'
  | 'rack-not-allowed';

export type Severity = 'error' | 'warning';

/** One thing wrong with the parts file, or worth knowing about how it was read. */
export interface Problem {
  readonly severity: Severity;
  readonly code: ProblemCode;
  /** Null only for the count of problems that are not listed. */
  readonly place: Place | null;
  /** Where in the file's structure, such as `parts[2].size`; lists count from 0. */
  readonly path: string;
  /** What is wrong, with the value in it. */
  readonly message: string;
  /** What would be right; null where the message says it already. */
  readonly hint: string | null;
}

/** What of a problem a person is told. */
export type ToldProblem = Pick<Problem, 'severity' | 'place' | 'message' | 'hint'> & {
  readonly code: string;
};

/** `file:line:column: error code: message`, and the hint on an indented line of its own. */
export function formatProblem(file: string, problem: ToldProblem): string {
  const { severity, code, place, message, hint } = problem;
  const where = place === null ? '' : `:${place.line}:${place.column}`;
  const head = `${visible(file)}${where}: ${severity} ${code}: ${visible(message)}`;
  return hint === null ? head : `${head}\n    ${visible(hint)}`;
}
