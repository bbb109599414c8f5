import type { Holding } from './holding.ts';
import type { HoldingLimit } from './job.ts';

/** A limit of the parts file that the plan does not keep, with both figures for a message. */
export interface BrokenLimit {
  readonly limit: 'sheets' | 'yield' | 'cost' | 'holding' | 'stock';
  readonly allowed: number;
  readonly found: number;
  readonly rule: HoldingLimit | null;
}

/** Whether a piece breaks the limit on holding even after the advised remedy. */
export function breaksLimit(
  { verdictAfter }: Pick<Holding, 'verdictAfter'>,
  rule: HoldingLimit,
): boolean {
  return verdictAfter === 'moves' || (rule !== 'no piece moves' && verdictAfter === 'marginal');
}
