import type { HoldingLimit } from './job.ts';

/** A limit of the parts file that the plan does not keep, with both figures for a message. */
export interface BrokenLimit {
  readonly limit: 'sheets' | 'yield' | 'cost' | 'holding' | 'stock';
  readonly allowed: number;
  readonly found: number;
  readonly rule: HoldingLimit | null;
}
