import {
  BYTES_PER_MB,
  type LimitName,
  RESOURCE_LIMITS,
  type ResourceLimits,
} from '../model/resource-limits.ts';
import type { Problem, ProblemCode } from './problem.ts';

/** What is over a limit. */
export interface Excess {
  readonly limit: LimitName;
  readonly found: number;
  /** Whether nobody counted on: there may be more than `found`. */
  readonly atLeast?: boolean;
  readonly code: ProblemCode;
  /** The words before the figure, such as "the outline has". */
  readonly subject: string;
  /** What to do other than raising the limit. */
  readonly instead: string;
}

/** What is said of something over a limit: the figure found, the one allowed, and how to raise it. Null where it is within. */
export function limitFault(
  excess: Excess,
  limits: ResourceLimits,
): Pick<Problem, 'code' | 'message' | 'hint'> | null {
  const { limit, found, code, subject, instead, atLeast = false } = excess;
  const allowed = limits[limit];
  if (found <= allowed) return null;
  const figure = `${atLeast ? 'at least ' : ''}${found} ${RESOURCE_LIMITS[limit].unit}`;
  return {
    code,
    message: `${subject} ${figure}; the most is ${allowed}`,
    hint: [instead, raiseHint(limit, atLeast ? 2 * found : found)].filter(Boolean).join(', or '),
  };
}

/** How to have the limit at `wanted` or a little more; that it cannot be raised so far, where it cannot. */
export function raiseHint(limit: LimitName, wanted: number): string {
  const { usual, most, end } = RESOURCE_LIMITS[limit];
  if (wanted <= most) return `raise the limit: --limit ${limit}=${Math.min(most, rounded(wanted))}`;
  const ends = most === usual ? 'it cannot be raised' : `it can be raised to ${most} only`;
  return `mind that ${ends}: ${end}`;
}

/** Bytes as the limits count them, to a tenth upwards, so that what is over a limit also reads so. */
export function megabytes(bytes: number): number {
  return Math.ceil((10 * bytes) / BYTES_PER_MB) / 10;
}

/** Upwards to two digits, as people write limits. */
function rounded(value: number): number {
  const whole = Math.ceil(value);
  const step = 10 ** Math.max(0, String(whole).length - 2);
  return Math.ceil(whole / step) * step;
}
