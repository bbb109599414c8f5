import type { Draw } from './draw.ts';

/** What came of one input. */
export interface Outcome {
  /** Whether something came of it, with warnings or without. */
  readonly isRead: boolean;
  /** Of what was told. */
  readonly codes: readonly string[];
  /** What a reader may not do. */
  readonly faults: readonly string[];
  /** A deeper look at what was read, which takes no part in the time; null for most. */
  readonly later: (() => Promise<readonly string[]>) | null;
}

/** One input of a reader. */
export interface FuzzCase {
  /** For a person who looks at a fault. */
  readonly shown: string;
  readonly read: () => Outcome;
}

/** Makes the inputs of one kind. */
export type Reader = (draw: Draw) => FuzzCase;
