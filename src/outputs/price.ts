import { counted, formatMoney, formatShare, formatWeight, moneyNumber } from '../model/format.ts';
import type { Job } from '../model/job.ts';
import type { Plan } from '../model/plan.ts';
import {
  type AmountUnit,
  type Lift,
  QUOTE_SECTIONS,
  type QuoteLine,
  type QuoteSection,
  type Share,
} from '../model/quote.ts';

export const SECTION_WORDS: Readonly<Record<QuoteSection, string>> = {
  material: 'Material',
  hardware: 'Hardware',
  machine: 'Machine',
  bench: 'Bench',
};

/** The lines of the quote by their sections, those without lines left out. */
export function sectionsOf({ costs }: Plan): readonly {
  readonly section: QuoteSection;
  readonly lines: readonly QuoteLine[];
}[] {
  return QUOTE_SECTIONS.map((section) => ({
    section,
    lines: costs.quote.lines.filter((line) => line.section === section),
  })).filter(({ lines }) => lines.length > 0);
}

/** "4 sheets", "12.34 m", "1 h 4 min 10 s"; empty for an allowance. */
export function amountText({ amount, unit }: QuoteLine): string {
  if (unit === null) return '';
  if (amount === null) return 'not known';
  switch (unit) {
    case 's':
      return durationText(amount);
    case 'sheet':
    case 'board':
      return counted(amount, unit);
    case 'piece':
      return `${amount}`;
    default:
      return `${amount} ${UNIT_WORDS[unit]}`;
  }
}

const UNIT_WORDS = { m: 'm', ft: 'ft', bf: 'bf', m3: 'm³' } as const;

/** "92.00", "65.00 per h"; empty where there is no price of one. */
export function eachText({ eachCents, unit }: QuoteLine, { currency }: Job): string {
  if (eachCents === null || unit === null) return '';
  return `${moneyNumber(eachCents, currency)}${PER_WORDS[unit]}`;
}

const PER_WORDS: Readonly<Record<AmountUnit, string>> = {
  sheet: '',
  board: '',
  piece: '',
  m: ' per m',
  ft: ' per ft',
  bf: ' per bf',
  m3: ' per m³',
  s: ' per h',
};

export function moneyText(cents: number | null, { currency }: Job): string {
  return cents === null ? 'not known' : moneyNumber(cents, currency);
}

/** "1 h 4 min 10 s", whole parts that are nothing left out. */
export function durationText(seconds: number): string {
  const parts = [
    [Math.floor(seconds / 3600), 'h'],
    [Math.floor(seconds / 60) % 60, 'min'],
    [seconds % 60, 's'],
  ] as const;
  const shown = parts.filter(([value]) => value > 0).map(([value, unit]) => `${value} ${unit}`);
  return shown.length === 0 ? '0 s' : shown.join(' ');
}

export function quoteHeads({ currency }: Job): readonly string[] {
  return ['', 'What', 'Amount', 'Each', currency.code];
}

/** Section, name, amount, price of one and cost of each line. */
export function quoteRows(plan: Plan): readonly (readonly string[])[] {
  return sectionsOf(plan).flatMap(({ section, lines }) =>
    lines.map((line) => [
      SECTION_WORDS[section],
      line.name,
      amountText(line),
      eachText(line, plan.job),
      moneyText(line.cents, plan.job),
    ]),
  );
}

export function shareHeads({ currency }: Job): readonly string[] {
  return ['Group', 'Part or hardware', currency.code];
}

/** What goes on top of the lines, down to what is asked for. */
export function totalsOf({ job, costs }: Plan): readonly {
  readonly name: string;
  readonly cents: number | null;
}[] {
  const { costCents, marginCents, priceCents, taxCents, totalCents } = costs.quote;
  const margin = job.rates?.margin ?? { share: 0, of: 'cost' };
  const taxShare = job.rates?.taxShare ?? null;
  if (margin.share === 0 && taxShare === null) return [{ name: totalName(job), cents: totalCents }];
  return [
    { name: 'Cost', cents: costCents },
    ...(margin.share === 0 ? [] : [{ name: marginText(margin), cents: marginCents }]),
    ...(taxShare === null
      ? []
      : [
          ...(margin.share === 0 ? [] : [{ name: 'Price before tax', cents: priceCents }]),
          { name: `Tax, ${exactShare(taxShare)}`, cents: taxCents },
        ]),
    { name: totalName(job), cents: totalCents },
  ];
}

/** A rate as the file gives it: "8.25 %". */
function exactShare(share: number): string {
  return `${Math.round(share * 1e8) / 1e6} %`;
}

function totalName({ rates }: Job): string {
  return rates !== null && rates.taxShare !== null ? 'Price with tax' : 'Price';
}

/** Both meanings of a margin, so that nobody takes one for the other. */
function marginText({ share, of }: { share: number; of: 'cost' | 'price' }): string {
  const onCost = of === 'cost' ? share : share / (1 - share);
  const ofPrice = of === 'price' ? share : share / (1 + share);
  const [cost, price] = of === 'cost' ? [exactShare, formatShare] : [formatShare, exactShare];
  return `Margin, ${cost(onCost)} on cost, ${price(ofPrice)} of price`;
}

/** "Bookcases: 1034.56 EUR with tax", or that nobody knows. */
export function priceHeadline({ job, costs }: Plan): string {
  const { totalCents, isMaterialOnly } = costs.quote;
  if (totalCents === null) return 'price not known';
  const kind = isMaterialOnly
    ? ', material only'
    : job.rates?.taxShare == null
      ? ', without tax'
      : ' with tax';
  return `${formatMoney(totalCents, job.currency)}${kind}`;
}

/** What a person has to know of the price: what it covers, what it does not, how long the work takes. */
export function priceNotes({ job, costs }: Plan): readonly string[] {
  const { isMaterialOnly, machineS, benchS, leftOut } = costs.quote;
  if (isMaterialOnly)
    return [
      'Material only, as the file has no costs: no labour, edge bands, hardware, margin or tax.',
    ];
  const time = (seconds: number | null) => (seconds === null ? 'not known' : durationText(seconds));
  return [
    `Time: machine ${time(machineS)}, bench ${time(benchS)}.`,
    ...(leftOut.length === 0
      ? []
      : [`Counted as nothing, as costs does not say: ${leftOut.join(', ')}.`]),
    `Never in it: ${job.machine.kind === 'router' ? 'rapid moves, ' : ''}assembly, finishing, delivery.`,
  ];
}

/** By which rule the price is shared out. */
export const SHARE_RULE =
  'Shares of the price before tax. Sheets and boards are borne by all parts of the material by area or length, lumber by surface; loading by area, cutting by length of contour and passes, holes by number, edge bands by length, tabs and clamps by the time they take; hardware by its part, its group or the job; setup and margin in proportion to all else.';

/** "Side × 4". */
export function shareName({ name, count }: Share): string {
  return count === 1 ? name : `${name} × ${count}`;
}

export function groupTitle(group: string | null): string {
  return group ?? 'no group';
}

/** What is too heavy for one person; none where nothing is. */
export function heavyLifts({ costs }: Plan): readonly Lift[] {
  return costs.lifting.lifts.filter(({ index }) => index > 1);
}

/** "Sheet of Birch plywood 18 mm, 2440 x 1220: 36.4 kg, lifting index 2.81". */
export function liftText({ unit }: Job, { kind, name, weightKg, index }: Lift): string {
  const what = kind === 'sheet' ? `sheet of ${name}` : name;
  return `${what}: ${formatWeight(weightKg, unit)}, lifting index ${index.toFixed(2)}`;
}

/** What the limit is and what it rests on; `limitKg` is that of the costs. */
export function liftRule({ job, costs }: Plan): string {
  const limit = formatWeight(costs.lifting.limitKg, job.unit);
  return `One person should lift at most ${limit} by the NIOSH lifting equation, ${LIFT_TASK[job.unit]}; the lifting index is the weight over that.`;
}

const LIFT_TASK = {
  mm: 'with the hands 40 cm from the ankles and 75 cm high, moved 25 cm up or down, not twisted, by a poor grip, now and then',
  in: 'with the hands 16 in from the ankles and 30 in high, moved 10 in up or down, not twisted, by a poor grip, now and then',
} as const;

export const LIFT_CAUTION =
  'Lift what is above index 1 with two people or a lifter. Local rules and trained people come first.';
