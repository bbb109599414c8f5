import type { Job } from '../../model/job.ts';
import { csvText } from '../csv.ts';
import { type Compared, comparePlans, type Figures, type NamedPlan } from './compare.ts';

/** Names and order of the columns are a contract: columns may be added at the end. */
const HEADS = [
  'plan',
  'sheets',
  'boards',
  'cost',
  'currency',
  'yield %',
  'yield on area used %',
  'yield of boards %',
  'pieces that move',
  'pieces marginal',
  'cutting seconds',
  'hand seconds',
  'pieces left over',
  'proof',
  'price',
  'machine seconds',
  'bench seconds',
  'why the price is not known',
] as const;

/** A row for each plan; what is not known, or not the plan's, is empty. */
export function compareCsv(plans: readonly NamedPlan[], { currency }: Job): string {
  const perCent = (share: number | null) => (share === null ? null : Math.round(share * 1000) / 10);
  const rows = comparePlans(plans).map(({ name, figures }) => {
    if (figures === null) return [name, ...HEADS.slice(1).map(() => null)];
    const { totalCents, priceCents, cutTimeS, handTimeS } = figures;
    const amount = (cents: number | null) =>
      cents === null ? null : cents / 10 ** currency.decimals;
    return [
      name,
      figures.sheets,
      figures.boards,
      amount(totalCents),
      currency.code,
      perCent(figures.yieldShare),
      perCent(figures.usedYieldShare),
      perCent(figures.boardYieldShare),
      figures.moving,
      figures.marginal,
      cutTimeS === null ? null : Math.round(cutTimeS),
      Math.round(handTimeS),
      figures.unplaced,
      figures.status,
      amount(priceCents),
      figures.machineS,
      figures.benchS,
      whyUnknown(figures).join('; '),
    ];
  });
  return csvText([HEADS, ...rows]);
}

function whyUnknown({ isMaterialOnly, unknown }: Figures): readonly string[] {
  return isMaterialOnly ? ['no costs', ...unknown] : unknown;
}

/** The same as JSON; `difference` is what a plan has more than the first one, null where either is not known. */
export function compareRecord(
  file: string,
  plans: readonly NamedPlan[],
  { currency }: Job,
): string {
  const compared = comparePlans(plans);
  const base = compared[0]?.figures ?? null;
  const record = {
    format: 'holdfast-compare/1',
    file,
    currency: currency.code,
    plans: compared.map((each, i) => ({
      ...planRecord(each),
      difference: i === 0 ? null : differenceOf(each.figures, base),
    })),
  };
  return `${JSON.stringify(record, null, 1)}\n`;
}

function planRecord({ name, figures }: Compared): object {
  return {
    name,
    planned: figures !== null,
    ...numbersOf(figures),
    status: figures?.status ?? null,
    stopped: figures?.stopped ?? null,
    unknown: figures === null ? [] : whyUnknown(figures),
    materials: figures?.materials ?? [],
  };
}

type Numbers = Readonly<Record<string, number | null>>;

function numbersOf(figures: Figures | null): Numbers {
  const share = (value: number | null | undefined) =>
    value == null ? null : Math.round(value * 1e6) / 1e6;
  const seconds = (value: number | null | undefined) => (value == null ? null : Math.round(value));
  return {
    sheets: figures?.sheets ?? null,
    boards: figures?.boards ?? null,
    totalMinor: figures?.totalCents ?? null,
    yield: share(figures?.yieldShare),
    yieldOnUsed: share(figures?.usedYieldShare),
    boardYield: share(figures?.boardYieldShare),
    moving: figures?.moving ?? null,
    marginal: figures?.marginal ?? null,
    cutTimeS: seconds(figures?.cutTimeS),
    handTimeS: seconds(figures?.handTimeS),
    unplaced: figures?.unplaced ?? null,
    priceMinor: figures?.priceCents ?? null,
    machineS: figures?.machineS ?? null,
    benchS: figures?.benchS ?? null,
  };
}

function differenceOf(figures: Figures | null, base: Figures | null): Numbers {
  const before = numbersOf(base);
  return Object.fromEntries(
    Object.entries(numbersOf(figures)).map(([key, value]) => {
      const old = before[key] ?? null;
      const isKnown = value !== null && old !== null;
      return [key, isKnown ? Math.round((value - old) * 1e6) / 1e6 : null];
    }),
  );
}
