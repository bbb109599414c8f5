export const DRIFT_KINDS = [
  'stock',
  'cost',
  'holding',
  'part',
  'proof',
  'yield',
  'machine',
  'search',
] as const;
export type DriftKind = (typeof DRIFT_KINDS)[number];

/** One thing that is otherwise in a plan than in the record it is held against. */
export interface Drift {
  readonly kind: DriftKind;
  /** The part that it is about; null where it is about none, or about one that is gone. */
  readonly part: string | null;
  /** What is, and what was before. */
  readonly message: string;
}

/** What fails a check; the rest is told beside it. */
const FAILING: readonly DriftKind[] = ['stock', 'cost', 'holding', 'part'];

export function isFailing({ kind }: Drift): boolean {
  return FAILING.includes(kind);
}
