import { formatWeight } from '../../model/format.ts';
import type { Plan } from '../../model/plan.ts';
import {
  groupTitle,
  LIFT_CAUTION,
  liftRule,
  moneyText,
  priceNotes,
  quoteHeads,
  quoteRows,
  SHARE_RULE,
  shareHeads,
  shareName,
  totalsOf,
} from '../price.ts';
import { plain, table } from './markdown-text.ts';

/** What the job is sold for; empty where the file has no costs, as the price of the stock stands elsewhere then. */
export function priceSection(plan: Plan): string {
  const { job, costs } = plan;
  const { quote } = costs;
  if (quote.isMaterialOnly) return '';
  const rows = [
    ...quoteRows(plan).map((row) => row.map(plain)),
    ...totalsOf(plan).map(({ name, cents }) => [
      '',
      `**${name}**`,
      '',
      '',
      `**${moneyText(cents, job)}**`,
    ]),
  ];
  return [
    '## Price',
    table(quoteHeads(job), rows, 'llrrr'),
    quote.unknown.map((text) => `- Not known: ${plain(text)}`).join('\n'),
    plain(priceNotes(plan).join(' ')),
    ...shareParts(plan),
  ]
    .filter((text) => text !== '')
    .join('\n\n');
}

function shareParts({ job, costs }: Plan): readonly string[] {
  const { groups } = costs.quote;
  if (groups.length === 0) return [];
  const rows = groups.flatMap(({ group, cents, shares }) => [
    [`**${plain(groupTitle(group))}**`, '', `**${moneyText(cents, job)}**`],
    ...shares.map((share) => ['', plain(shareName(share)), moneyText(share.cents, job)]),
  ]);
  return [table(shareHeads(job), rows, 'llr'), SHARE_RULE];
}

/** What is heavy to lift; empty where there are no sheets. */
export function liftingSection(plan: Plan): string {
  const { lifts } = plan.costs.lifting;
  if (lifts.length === 0) return '';
  const rows = lifts.map(({ kind, name, weightKg, index }) => [
    kind === 'sheet' ? `Sheet of ${plain(name)}` : plain(name),
    formatWeight(weightKg, plan.job.unit),
    index.toFixed(2),
  ]);
  return [
    '## Lifting',
    table(['What', 'Weight', 'Lifting index'], rows, 'lrr'),
    `${liftRule(plan)} ${LIFT_CAUTION}`,
  ].join('\n\n');
}
