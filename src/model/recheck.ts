/** One thing of a plan's record that is not true. */
export interface RecordFault {
  /** A word for programs: what the layout can have wrong, or what the record says of it. */
  readonly code: string;
  /** Where in the record, such as `materials[0].sheets[1].placements[3].x`. */
  readonly path: string;
  /** For a person. */
  readonly message: string;
}

/** What came of checking a plan's record against its parts file. */
export interface Recheck {
  /** None where the record is true in all that was checked. */
  readonly faults: readonly RecordFault[];
  readonly counts: {
    readonly sheets: number;
    readonly pieces: number;
    readonly boards: number;
    readonly lengths: number;
  };
  /** Whether yields, costs and hold-down were reckoned anew; not from a layout that is wrong. */
  readonly isReckoned: boolean;
  /** The materials of which the bound follows from the area or the length of their pieces alone. */
  readonly provedAgain: readonly string[];
  /** Sentences on what the check leaves open. */
  readonly notChecked: readonly string[];
}
