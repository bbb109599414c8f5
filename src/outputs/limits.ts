import { counted, formatMoney, formatShare, formatWeight } from '../model/format.ts';
import type { BrokenLimit } from '../model/limit.ts';
import type { Plan } from '../model/plan.ts';

/** "Limits broken: cost 83.00 EUR against 50.00 EUR; 9 sheets against 8."; null where all are kept. Pieces without a place are told elsewhere. */
export function brokenSentence(plan: Plan, broken: readonly BrokenLimit[]): string | null {
  const texts = broken.flatMap((limit) => {
    const text = brokenText(plan, limit);
    return text === null ? [] : [text];
  });
  return texts.length === 0 ? null : `Limits broken: ${texts.join('; ')}.`;
}

function brokenText(
  { job: { currency, unit } }: Plan,
  { limit, allowed, found, rule, what }: BrokenLimit,
): string | null {
  switch (limit) {
    case 'stock':
      return null;
    case 'sheets':
      return `${counted(found, 'sheet')} against ${allowed}`;
    case 'yield':
      return `yield ${formatShare(found)} against ${formatShare(allowed)}`;
    case 'cost':
      return `cost ${formatMoney(found, currency)} against ${formatMoney(allowed, currency)}`;
    case 'holding':
      return `"${rule}", by ${found === 1 ? '1 piece' : `${found} pieces`} even with the remedy`;
    case 'proof':
      return `not proved: ${what}`;
    case 'time':
      return `${minutesText(found)} of work against ${minutesText(allowed)}`;
    case 'weight':
      return `${formatWeight(found, unit, 2)} to lift against ${formatWeight(allowed, unit, 2)}`;
  }
}

/** "90 min", "1.5 min"; the limit and what breaks it never read the same. */
export function minutesText(seconds: number): string {
  return `${Math.round((seconds / 60) * 100) / 100} min`;
}
