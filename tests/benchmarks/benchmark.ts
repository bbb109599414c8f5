import type { Request } from './request.ts';
import type { Table } from './table.ts';

/** One run to make: an instance in a variant, with an amount of effort. */
export interface Task {
  readonly instance: string;
  readonly variant: string;
  readonly seed: number;
  /** An effort of the plan or, for outlines alone, an amount of work. */
  readonly effort: string;
}

/** What came of a task; `proved` says that no more effort could better it. */
export interface Measured<F = object> {
  readonly proved: boolean;
  readonly faults: number;
  readonly figures: F;
}

/** A measured task as it is kept; rows of different commits never mix. */
export interface Row<F = object> extends Task, Measured<F> {
  readonly commit: string;
}

/** All there is to tell of a run. */
export interface Report<F = object> {
  readonly request: Request;
  /** In the order of the tasks. */
  readonly rows: readonly Row<F>[];
  /** Rows of the same commit at a lower effort for drawn instances, where all of them have one; else empty. */
  readonly before: readonly Row<F>[];
  /** Of how many instances the tasks were drawn, over all variants; null where nothing was drawn. */
  readonly drawnFrom: number | null;
}

export interface Benchmark<F = object> {
  readonly variants: readonly string[];
  /** The variants of each instance, where not all have the same. */
  readonly variantsOf?: (file: string | null, root: string) => (name: string) => readonly string[];
  /** Whether each task has a process of its own, one at a time, so that its memory can be told. */
  readonly ownProcess: boolean;
  /** Names in their order; `_` parts a name into the groups that can be asked for. The file and the count are what the user gave. */
  instances(file: string | null, root: string, count: number | null): readonly string[];
  /** Reads the file once; the function that comes back runs one task. */
  measure(file: string | null, root: string): (task: Task) => Measured<F> | Promise<Measured<F>>;
  tables(report: Report<F>): readonly Table[];
}
