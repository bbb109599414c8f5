const ASK_EVERY = 65_536;

/**
 * Counted work: strategies spend it at every step and stop when it is gone, so that a plan repeats on any machine.
 * A unit is about one rectangle test or one edge test; a clock outside may set `stopped` as an extra stop.
 * The class guards one invariant: spent work only grows, and a stop is final.
 */
export class WorkBudget {
  readonly limit: number;
  #spent = 0;
  #stopped = false;
  readonly #checkStop: () => boolean;

  constructor(limit: number, checkStop: () => boolean = () => false) {
    this.limit = limit;
    this.#checkStop = checkStop;
  }

  /** Adds `units` of work; returns whether there is any left. */
  spend(units: number): boolean {
    const before = this.#spent;
    this.#spent += units;
    // The outside is asked now and then only, because asking may cost more than the step it interrupts.
    if (
      !this.#stopped &&
      Math.floor(before / ASK_EVERY) !== Math.floor(this.#spent / ASK_EVERY) &&
      this.#checkStop()
    )
      this.#stopped = true;
    return !this.exhausted;
  }

  get exhausted(): boolean {
    return this.#stopped || this.#spent >= this.limit;
  }

  /** Whether the outside, not the counted limit, ended the work. */
  get stopped(): boolean {
    return this.#stopped;
  }

  get left(): number {
    return Math.max(0, this.limit - this.#spent);
  }
}
