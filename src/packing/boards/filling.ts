/** A kind of thing to fill with: its size, and how many there are at most. */
export interface Supply {
  readonly size: number;
  readonly count: number;
}

/** So many of one kind. */
export interface Take {
  readonly kind: number;
  readonly times: number;
}

/** The best that was found for a room, and a value that nothing exceeds; they are the same but for a search that had to stop. */
export interface Filling {
  readonly value: number;
  readonly atMost: number;
  readonly takes: readonly Take[];
}

/** For each room the filling of the greatest value; `values` are whole and not negative, and `counts` limits each kind. */
export type Fill = (
  values: ArrayLike<number>,
  counts: ArrayLike<number>,
  rooms: readonly number[],
) => readonly Filling[];

export interface Filler {
  /** Mostly the best already, at little work. */
  readonly quick: Fill;
  /** The best, as far as that is possible. */
  readonly exact: Fill;
}
