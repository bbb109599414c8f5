import type { Plan } from '../../model/plan.ts';
import {
  groupTitle,
  moneyText,
  priceHeadline,
  priceNotes,
  quoteHeads,
  quoteRows,
  SHARE_RULE,
  shareHeads,
  shareName,
  totalsOf,
} from '../price.ts';
import { type Block, column } from './blocks.ts';

const QUOTE_SHARES = [2, 7.5, 3, 3, 2.5];
const GROUP_SHARES = [4, 8, 2.5];

/** A page of its own with what the job is sold for; none where the file has no costs. */
export function priceBlocks(plan: Plan): readonly Block[] {
  const { job, costs } = plan;
  const { quote } = costs;
  if (quote.isMaterialOnly) return [];
  const totals = totalsOf(plan).map(({ name, cents }) => ['', name, '', '', moneyText(cents, job)]);
  return [
    { kind: 'page' },
    { kind: 'heading', text: `Price: ${priceHeadline(plan)}` },
    ...(quote.unknown.length === 0
      ? []
      : [{ kind: 'list' as const, entries: quote.unknown.map((text) => `Not known: ${text}`) }]),
    {
      kind: 'table',
      columns: quoteHeads(job).map((head, i) => column(head, QUOTE_SHARES[i]!, i > 1)),
      rows: [...quoteRows(plan), ...totals],
    },
    { kind: 'paragraph', text: priceNotes(plan).join(' ') },
    ...shareBlocks(plan),
  ];
}

function shareBlocks({ job, costs }: Plan): readonly Block[] {
  const { groups } = costs.quote;
  if (groups.length === 0) return [];
  return [
    { kind: 'heading', text: 'Who bears the price' },
    {
      kind: 'table',
      columns: shareHeads(job).map((head, i) => column(head, GROUP_SHARES[i]!, i === 2)),
      rows: groups.flatMap(({ group, cents, shares }) => [
        [groupTitle(group), '', moneyText(cents, job)],
        ...shares.map((share) => ['', shareName(share), moneyText(share.cents, job)]),
      ]),
    },
    { kind: 'paragraph', text: SHARE_RULE },
  ];
}
