import { counted } from '../model/format.ts';
import type { Place } from '../model/place.ts';
import { type ResourceLimits, USUAL_LIMITS } from '../model/resource-limits.ts';
import { type Excess, limitFault, raiseHint } from './limit-fault.ts';
import type { Problem, ProblemCode, Severity } from './problem.ts';

/** Where a problem is: a field of the file, or anything else with a place and a path. */
export interface Spot {
  readonly place: Place | null;
  readonly path: string;
}

/**
 * Collects the problems of one file, and holds the limits within which it is read.
 * The class guards that the same thing is not said twice, that the list stays short, and that it comes out in the order of the file.
 */
export class Report {
  readonly limits: ResourceLimits;
  readonly #problems: Problem[] = [];
  readonly #seen = new Set<string>();
  #leftOut = 0;
  #errors = 0;

  constructor(limits: ResourceLimits = USUAL_LIMITS) {
    this.limits = limits;
  }

  error(spot: Spot, code: ProblemCode, message: string, hint: string | null = null): void {
    this.#errors++;
    this.#add({ severity: 'error', code, place: spot.place, path: spot.path, message, hint });
  }

  warning(spot: Spot, code: ProblemCode, message: string, hint: string | null = null): void {
    this.#add({ severity: 'warning', code, place: spot.place, path: spot.path, message, hint });
  }

  /** Whether something is within its limit; an error where it is not. */
  within(spot: Spot, excess: Excess): boolean {
    const fault = limitFault(excess, this.limits);
    if (fault !== null) this.error(spot, fault.code, fault.message, fault.hint);
    return fault === null;
  }

  get hasErrors(): boolean {
    return 0 < this.#errors;
  }

  /** Sorted by place; problems of the whole file come first, and a count of those left out comes last. */
  list(): readonly Problem[] {
    const sorted = this.#problems.toSorted(
      (a, b) => lineOf(a) - lineOf(b) || columnOf(a) - columnOf(b) || rank(a) - rank(b),
    );
    if (0 < this.#leftOut) sorted.push(leftOutProblem(this.#leftOut, this.limits.problems));
    return sorted;
  }

  #add(problem: Problem): void {
    const { place, code, message } = problem;
    // A drawing or an anchor that is used twice would say everything twice.
    const key = `${place?.line}:${place?.column}:${code}:${message}`;
    if (this.#seen.has(key)) return;
    if (this.#problems.length < this.limits.problems) {
      this.#seen.add(key);
      this.#problems.push(problem);
    } else this.#leftOut++;
  }
}

function lineOf(problem: Problem): number {
  return problem.place?.line ?? 0;
}

function columnOf(problem: Problem): number {
  return problem.place?.column ?? 0;
}

function rank(problem: Problem): number {
  const ranks: Record<Severity, number> = { error: 0, warning: 1 };
  return ranks[problem.severity];
}

function leftOutProblem(count: number, listed: number): Problem {
  return {
    severity: 'error',
    code: 'too-many-problems',
    place: null,
    path: '',
    message: `the file has ${counted(count, 'more problem')} than are listed here`,
    hint: `mend these first, then run the command again, or ${raiseHint('problems', listed + count)}`,
  };
}
