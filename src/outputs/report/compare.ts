import type { Plan, StopCause } from '../../model/plan.ts';
import type { Yield } from '../../model/yield.ts';

/** A plan with what it is called; the first of a comparison is the file as it is. */
export interface NamedPlan {
  readonly name: string;
  /** Null where some piece fits no stock at all, or the search was stopped before. */
  readonly plan: Plan | null;
}

/** Of all materials together, the worst; too little stock is worse than a bound that is not reached. */
export type ComparedStatus = 'proved' | 'limit' | 'impossible';

/** One plan in figures that can be set beside those of another. */
export interface Figures {
  readonly sheets: number;
  readonly boards: number;
  /** By the keys of the materials that anything is cut from, in the order of the file. */
  readonly materials: readonly MaterialFigures[];
  /** In minor units; null where something that is bought has no price. */
  readonly totalCents: number | null;
  /** With margin and tax, in minor units; null where the file has no costs, or they do not say enough. */
  readonly priceCents: number | null;
  /** The file has no costs: nothing but the stock is priced. */
  readonly isMaterialOnly: boolean;
  /** Why the price is not known. */
  readonly unknown: readonly string[];
  /** Of all work that the quote has, whole seconds; null where the file has no costs, or a time is not known. */
  readonly machineS: number | null;
  readonly benchS: number | null;
  /** Of sheets, on purchase and on area used; null without sheets. */
  readonly yieldShare: number | null;
  readonly usedYieldShare: number | null;
  /** Of boards, on purchase; null without boards. */
  readonly boardYieldShare: number | null;
  /** Pieces that move, or are marginal, with the remedy; null where nothing is held by vacuum. */
  readonly moving: number | null;
  readonly marginal: number | null;
  /** Null where no feed is known. */
  readonly cutTimeS: number | null;
  readonly handTimeS: number;
  readonly unplaced: number;
  readonly status: ComparedStatus;
  /** What ended the search before its work was done; null where nothing did. */
  readonly stopped: StopCause | null;
}

export interface MaterialFigures {
  readonly material: string;
  readonly name: string;
  readonly sheets: number;
  readonly boards: number;
  readonly status: ComparedStatus;
}

export interface Compared {
  readonly name: string;
  readonly figures: Figures | null;
}

/** The figures of each plan, in the order given. */
export function comparePlans(plans: readonly NamedPlan[]): readonly Compared[] {
  return plans.map(({ name, plan }) => ({ name, figures: plan === null ? null : figuresOf(plan) }));
}

function figuresOf(plan: Plan): Figures {
  const { job, layouts, costs, holding } = plan;
  const used = layouts.filter(
    ({ sheets, boards, unplaced, unplacedLengths }) =>
      sheets.length + boards.length + unplaced.length + unplacedLengths.length > 0,
  );
  const { sheets, boards } = costs.yields.job;
  const atRisk = (verdict: 'moves' | 'marginal') =>
    holding
      .flatMap(({ loose }) => loose)
      .filter(({ kind, verdictAfter }) => kind === 'piece' && verdictAfter === verdict).length;
  const isHeld = job.machine.kind === 'router' && job.pieces.length > 0;
  return {
    sheets: total(used.map((layout) => layout.sheets.length)),
    boards: total(used.map((layout) => layout.boards.length)),
    materials: used.map((layout) => ({
      material: job.materials[layout.material]!.id,
      name: job.materials[layout.material]!.name,
      sheets: layout.sheets.length,
      boards: layout.boards.length,
      status: layout.status,
    })),
    totalCents: costs.totalCents,
    priceCents: costs.quote.isMaterialOnly ? null : costs.quote.totalCents,
    isMaterialOnly: costs.quote.isMaterialOnly,
    unknown: costs.quote.unknown,
    machineS: costs.quote.machineS,
    benchS: costs.quote.benchS,
    yieldShare: onPurchase(sheets),
    usedYieldShare: sheets === null ? null : sheets.onUsed,
    boardYieldShare: onPurchase(boards),
    moving: isHeld ? atRisk('moves') : null,
    marginal: isHeld ? atRisk('marginal') : null,
    cutTimeS: job.pieces.length === 0 ? null : costs.cutTimeS,
    handTimeS: costs.handTimeS,
    unplaced: total(
      used.flatMap(({ unplaced, unplacedLengths }) => [
        unplaced.length,
        ...unplacedLengths.map(({ count }) => count),
      ]),
    ),
    status: worst(used.map(({ status }) => status)),
    stopped: plan.stopped,
  };
}

function onPurchase(own: Yield | null): number | null {
  return own === null ? null : own.onPurchase;
}

function worst(statuses: readonly ComparedStatus[]): ComparedStatus {
  if (statuses.includes('impossible')) return 'impossible';
  return statuses.includes('limit') ? 'limit' : 'proved';
}

function total(numbers: readonly number[]): number {
  return numbers.reduce((sum, number) => sum + number, 0);
}
