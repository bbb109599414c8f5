import type { Plan } from '../../model/plan.ts';
import type { Share } from '../../model/quote.ts';

/** Money is in whole minor units of the currency, times are whole seconds. */
export function quoteRecord({ job, costs }: Plan): object {
  const { quote } = costs;
  return {
    currency: { code: job.currency.code, decimals: job.currency.decimals },
    materialOnly: quote.isMaterialOnly,
    lines: quote.lines.map(({ section, name, amount, unit, eachCents, cents, missing }) => ({
      section,
      name,
      amount,
      unit,
      eachMinor: eachCents,
      costMinor: cents,
      missing,
    })),
    costMinor: quote.costCents,
    marginMinor: quote.marginCents,
    beforeTaxMinor: quote.priceCents,
    taxMinor: quote.taxCents,
    totalMinor: quote.totalCents,
    machineSeconds: quote.machineS,
    benchSeconds: quote.benchS,
    groups: quote.groups.map(({ group, cents, shares }) => ({
      group,
      shareMinor: cents,
      parts: sharesOf('part', shares),
      hardware: sharesOf('hardware', shares),
    })),
    unknown: quote.unknown,
    leftOut: quote.leftOut,
  };
}

function sharesOf(kind: Share['kind'], shares: readonly Share[]): readonly object[] {
  return shares
    .filter((share) => share.kind === kind)
    .map(({ name, count, cents }) => ({ name, count, shareMinor: cents }));
}

export function liftingRecord({ costs: { lifting } }: Plan): object {
  return {
    limitKg: lifting.limitKg,
    lifts: lifting.lifts.map(({ kind, name, weightKg, index }) => ({
      kind,
      name,
      weightKg: Math.round(weightKg * 100) / 100,
      index,
    })),
  };
}
