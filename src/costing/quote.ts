// Makes the quote of a job: what it costs, what it is sold for, and who bears how much of the price.
// Idea: lines of stock, hardware and time, each rounded to the minor unit, add up to the cost; margin and tax go on top. The price before tax is shared out among
//   the groups and, within each, among its parts and hardware, in proportion to what each bears of the lines, so that everything adds up to the minor unit.
// Source: shares as in `shares.ts`.
// Where we differ: setting up and the margin are borne in proportion to all else; what no line says anything of is no part of the price.
// Cost: linear in lines times payers.
// Degenerate cases: one unknown line makes the price unknown, and so do pieces that are left over; then nothing is shared out.
import type { PlanCosts } from '../model/costs.ts';
import type { SheetHolding } from '../model/holding.ts';
import type { Job } from '../model/job.ts';
import { type Layout, unplacedCount } from '../model/layout.ts';
import type { GroupShare, Quote, QuoteLine } from '../model/quote.ts';
import type { Rates } from '../model/rates.ts';
import { shareOf, shareOfSum, sum, sumOrNull } from './money.ts';
import { type Payer, payersOf } from './payers.ts';
import { type BorneLine, bandMm, borne, stockLines } from './quote-stock.ts';
import { timeLines, type Work, workOf } from './quote-time.ts';
import { shareOut } from './shares.ts';

export function quoteJob(
  job: Job,
  layouts: readonly Layout[],
  holding: readonly SheetHolding[],
  costs: PlanCosts,
): Quote {
  const payers = payersOf(job, job.rates, holding);
  const works = workOf(job, layouts, costs, payers);
  const lines = [...stockLines(job, layouts, costs, payers), ...timeLines(job, works)];
  const leftOver = layouts.reduce((total, layout) => total + unplacedCount(layout), 0);
  const unknown = [
    ...lines.flatMap(({ name, missing }) => (missing === null ? [] : [`${name}: ${missing}`])),
    ...(leftOver === 0 ? [] : [`too little stock: pieces left over, ${leftOver}`]),
  ];
  const costCents = unknown.length > 0 ? null : sumOrNull(lines.map(({ cents }) => cents));
  const prices = pricesOf(costCents, job.rates);
  const time = (section: Work['section']) =>
    sumOrNull(
      works
        .filter((work) => work.section === section && !work.isLeftOut)
        .map(({ seconds }) => seconds),
    );
  return {
    isMaterialOnly: job.rates === null,
    lines: lines.map(withoutWeights),
    costCents,
    ...prices,
    machineS: job.rates === null ? null : time('machine'),
    benchS: job.rates === null ? null : time('bench'),
    groups: prices.priceCents === null ? [] : groupShares(prices.priceCents, lines, payers),
    unknown,
    leftOut: leftOutOf(job.rates, works, payers),
  };
}

function pricesOf(
  costCents: number | null,
  rates: Rates | null,
): Pick<Quote, 'marginCents' | 'priceCents' | 'taxCents' | 'totalCents'> {
  if (costCents === null)
    return { marginCents: null, priceCents: null, taxCents: null, totalCents: null };
  const { share, of } = rates?.margin ?? { share: 0, of: 'cost' };
  const marginCents = of === 'cost' ? shareOf(costCents, share) : shareOfSum(costCents, share);
  const priceCents = costCents + marginCents;
  const taxShare = rates?.taxShare ?? null;
  const taxCents = taxShare === null ? null : shareOf(priceCents, taxShare);
  return { marginCents, priceCents, taxCents, totalCents: priceCents + (taxCents ?? 0) };
}

function withoutWeights({ weights, ...line }: BorneLine): QuoteLine {
  return line;
}

/** Shares of a cent that are still told apart. */
const WEIGHT_STEPS = 1000;

function groupShares(
  priceCents: number,
  lines: readonly BorneLine[],
  payers: readonly Payer[],
): readonly GroupShare[] {
  if (payers.length === 0) return [];
  const weights = borne(lines, payers.length).map((cents) => Math.round(cents * WEIGHT_STEPS));
  const members = membersByGroup(payers);
  const groupCents = shareOut(
    priceCents,
    members.map(({ indices }) => sum(indices.map((i) => weights[i]!))),
  );
  return members.map(({ group, indices }, g) => {
    const cents = shareOut(
      groupCents[g]!,
      indices.map((i) => weights[i]!),
    );
    const shares = indices.map((i, k) => {
      const { kind, name, count } = payers[i]!;
      return { kind, name, count, cents: cents[k]! };
    });
    return { group, cents: groupCents[g]!, shares };
  });
}

/** In the order of the file; what belongs to no group comes last. */
function membersByGroup(
  payers: readonly Payer[],
): readonly { readonly group: string | null; readonly indices: readonly number[] }[] {
  const members = new Map<string | null, number[]>();
  for (const [i, { group }] of payers.entries()) {
    const own = members.get(group);
    if (own === undefined) members.set(group, [i]);
    else own.push(i);
  }
  const groups = [...members].map(([group, indices]) => ({ group, indices }));
  return [
    ...groups.filter(({ group }) => group !== null),
    ...groups.filter(({ group }) => group === null),
  ];
}

function leftOutOf(
  rates: Rates | null,
  works: readonly Work[],
  payers: readonly Payer[],
): readonly string[] {
  if (rates === null) return [];
  const times = rates.labour === null ? [] : works.filter(({ isLeftOut }) => isLeftOut);
  return [
    ...(rates.labour === null ? ['labour'] : []),
    ...new Set(times.map(({ short }) => short)),
    ...(rates.edgeBand === null && bandMm(payers) > 0 ? ['edge bands'] : []),
  ];
}
