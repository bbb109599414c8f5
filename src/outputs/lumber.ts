import type { LumberCosts } from '../model/costs.ts';
import { formatLength, formatMoney, formatShare, formatSize } from '../model/format.ts';
import type { Job } from '../model/job.ts';
import type { Lumber } from '../model/lumber.ts';
import type { Plan } from '../model/plan.ts';

/** One lumber of the job with what to buy of it. */
export interface LumberPurchase {
  readonly lumber: Lumber;
  readonly costs: LumberCosts;
}

/** In the order of the file; lumber that no part is made from is left out. */
export function lumberPurchases({ job, costs }: Plan): readonly LumberPurchase[] {
  return job.lumber
    .map((lumber, i) => ({ lumber, costs: costs.lumber[i]! }))
    .filter(({ lumber }) => lumber.parts.length > 0);
}

/** How many pieces are made from lumber. */
export function lumberPieces({ lumber }: Job): number {
  return lumber.flatMap(({ parts }) => parts).reduce((sum, { count }) => sum + count, 0);
}

/** "12.35 board feet in the parts, 30.0 % of that added for waste …: buy 17 board feet, 161.50 EUR". */
export function purchaseSentence(job: Job, { lumber, costs }: LumberPurchase): string {
  const price = costs.priceCents === null ? '' : `, ${formatMoney(costs.priceCents, job.currency)}`;
  const own = costs.onHand === 0 ? '' : `, ${amount(lumber, costs.onHand)} on hand`;
  const buy = costs.buy === 0 ? 'nothing to buy' : `buy ${bought(lumber, costs.buy)}${price}`;
  return `${amount(lumber, costs.net)} in the parts, from ${formatLength(lumber.rough, job.unit)} rough; ${wasteText(lumber)}${own}: ${buy}`;
}

/** Both meanings of the allowance, so that nobody takes one for the other. */
export function wasteText({ waste: { share, of } }: Lumber): string {
  if (share === 0) return 'no allowance for waste';
  const lost = of === 'gross' ? share : share / (1 + share);
  const added = of === 'net' ? share : share / (1 - share);
  return `${formatShare(added)} added for waste, which is ${formatShare(lost)} of what is bought`;
}

export const PURCHASE_HEADS = [
  'Lumber',
  'Rough',
  'In the parts',
  'Waste',
  'On hand',
  'Buy',
  'Price',
];

export function purchaseRow(job: Job, { lumber, costs }: LumberPurchase): readonly string[] {
  return [
    lumber.name,
    formatLength(lumber.rough, job.unit),
    amount(lumber, costs.net),
    amount(lumber, costs.waste),
    costs.onHand === 0 ? '–' : amount(lumber, costs.onHand),
    bought(lumber, costs.buy),
    costs.priceCents === null ? '–' : formatMoney(costs.priceCents, job.currency),
  ];
}

export const LUMBER_PART_HEADS = ['Part', 'Lumber', 'Count', 'Along × across the grain', 'Note'];

export function lumberPartRows(job: Job): readonly (readonly string[])[] {
  return job.lumber.flatMap(({ name, parts }) =>
    parts.map((part) => [
      part.name,
      name,
      `${part.count}`,
      formatSize(part.length, part.width, job.unit),
      part.note ?? '',
    ]),
  );
}

/** By which rules the amounts are reckoned, a sentence each. */
export function lumberRules(plan: Plan): readonly string[] {
  const feet = lumberPurchases(plan).filter(({ lumber }) => lumber.measure === 'bf');
  const follows = (rule: Lumber['tally']) => feet.some(({ lumber }) => lumber.tally === rule);
  return [
    ...(feet.length > 0
      ? [
          'A board foot is 144 cubic inches of rough lumber; under an inch of thickness counts as an inch.',
        ]
      : []),
    ...(follows('hardwood')
      ? [
          'Hardwood is bought in whole board feet. Boards on hand are measured by their surface, length in whole feet; exact halves go up and down by turns, the first up.',
        ]
      : []),
    ...(follows('softwood')
      ? [
          'Softwood is bought to a hundredth of a board foot; boards on hand count by the sizes in the file, which are the nominal ones.',
        ]
      : []),
  ];
}

function amount({ measure }: Lumber, value: number): string {
  return measure === 'bf' ? `${value.toFixed(2)} board feet` : `${value.toFixed(4)} m³`;
}

function bought({ measure, tally }: Lumber, value: number): string {
  if (measure === 'm3') return `${value.toFixed(3)} m³`;
  if (tally === 'softwood') return `${value.toFixed(2)} board feet`;
  return `${value} board ${value === 1 ? 'foot' : 'feet'}`;
}
