/** A fault that changes nothing that a test could see, with the reason. */
export interface Same {
  readonly seed: number;
  readonly file: string;
  /** The line, what is changed on it, and into what. */
  readonly at: string;
  readonly was: string;
  readonly now: string;
  readonly why: string;
}

export const SAME: readonly Same[] = [];
