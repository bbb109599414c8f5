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
import { type Block, column } from './blocks.ts';

const PURCHASE_SHARES = [6, 3, 4.5, 4.5, 4.5, 4.5, 4];
const PART_SHARES = [6, 5, 2, 5, 8];

/** What lumber to buy, and for which parts; none where the job has none. */
export function lumberBlocks(plan: Plan): readonly Block[] {
  const purchases = lumberPurchases(plan);
  if (purchases.length === 0) return [];
  return [
    { kind: 'heading', text: 'The lumber' },
    {
      kind: 'table',
      columns: PURCHASE_HEADS.map((head, i) => column(head, PURCHASE_SHARES[i]!, i > 0)),
      rows: purchases.map((purchase) => purchaseRow(plan.job, purchase)),
    },
    {
      kind: 'list',
      entries: [
        ...purchases.map(({ lumber }) => `${lumber.name}: ${wasteText(lumber)}.`),
        ...lumberRules(plan),
      ],
    },
    {
      kind: 'table',
      columns: LUMBER_PART_HEADS.map((head, i) => column(head, PART_SHARES[i]!, i === 2)),
      rows: lumberPartRows(plan.job),
    },
  ];
}
