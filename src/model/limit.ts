import type { Holding } from './holding.ts';
import type { HoldingLimit, LimitName } from './job.ts';

/** A limit of the parts file that the plan does not keep, with both figures for a message. */
export interface BrokenLimit {
  readonly limit: Exclude<LimitName, 'drift'> | 'stock';
  readonly allowed: number;
  readonly found: number;
  readonly rule: HoldingLimit | null;
  /** What is too heavy, or which materials are not proved; null for the others. */
  readonly what: string | null;
}

/** A limit that nothing can be held against where the plan does not know the figure. */
export type UnheldLimit = 'cost' | 'time';

/** Whether a piece breaks the limit on holding even after the advised remedy. */
export function breaksLimit(
  { verdictAfter }: Pick<Holding, 'verdictAfter'>,
  rule: HoldingLimit,
): boolean {
  return verdictAfter === 'moves' || (rule !== 'no piece moves' && verdictAfter === 'marginal');
}
