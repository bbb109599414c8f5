import type { ProblemCode } from './problem.ts';
import type { Report, Spot } from './report.ts';

/** A problem without a place: what reads drawings knows what is wrong, its caller knows where the drawing is named. */
export interface Fault {
  readonly code: ProblemCode;
  readonly message: string;
  readonly hint: string | null;
}

export function reportFault(report: Report, spot: Spot, { code, message, hint }: Fault): void {
  report.error(spot, code, message, hint);
}

export function reportWarning(report: Report, spot: Spot, { code, message, hint }: Fault): void {
  report.warning(spot, code, message, hint);
}
