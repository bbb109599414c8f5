import { formatMoney } from '../../model/format.ts';
import type { Plan } from '../../model/plan.ts';
import {
  LUMBER_PART_HEADS,
  lumberPartRows,
  lumberPurchases,
  lumberRules,
  PURCHASE_HEADS,
  purchaseRow,
  wasteText,
} from '../lumber.ts';
import { boughtNoun } from '../wording.ts';
import { plain, table } from './markdown-text.ts';

/** What lumber to buy; empty where the job has none. */
export function lumberSection(plan: Plan): string {
  const { job, costs } = plan;
  const purchases = lumberPurchases(plan);
  if (purchases.length === 0) return '';
  const total =
    costs.totalCents === null ? 'not known' : formatMoney(costs.totalCents, job.currency);
  return [
    '## Lumber',
    table(
      PURCHASE_HEADS,
      purchases.map((purchase) => purchaseRow(job, purchase).map(plain)),
      'lrrrrrr',
    ),
    [
      ...purchases.map(({ lumber }) => `- ${plain(lumber.name)}: ${wasteText(lumber)}.`),
      ...lumberRules(plan).map((rule) => `- ${rule}`),
    ].join('\n'),
    `Price of the ${boughtNoun(plan)}: ${total}.`,
  ].join('\n\n');
}

/** The parts that are made from lumber; empty where there are none. */
export function lumberPartSection({ job }: Plan): string {
  const rows = lumberPartRows(job).map((row) => row.map(plain));
  return rows.length === 0
    ? ''
    : `## Parts from lumber\n\n${table(LUMBER_PART_HEADS, rows, 'llrll')}`;
}
