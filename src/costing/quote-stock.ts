// Prices what is bought for a job: sheets, boards, lumber, edge bands, hardware.
// Idea: one line for each kind, amount times price. What a line costs is borne by those who take of it, in proportion to what they take.
// Source: none needed.
// Where we differ: sheets of a material are borne by all its parts by area, whichever sheet a piece lies on, so that no part pays for an emptier last sheet.
// Cost: linear in lines and payers.
// Degenerate cases: stock without a price is a line whose cost is not known.

import type { PackSurplus, PlanCosts } from '../model/costs.ts';
import { stockTitle } from '../model/format.ts';
import type { Job } from '../model/job.ts';
import type { Layout } from '../model/layout.ts';
import type { QuoteLine } from '../model/quote.ts';
import type { Hardware, Rates } from '../model/rates.ts';
import { toMm } from '../model/units.ts';
import { shareOf, sum, sumOrNull, timesOver } from './money.ts';
import type { Payer } from './payers.ts';

/** A line, and in which proportion the payers bear it; null for in proportion to all else that they bear. */
export interface BorneLine extends QuoteLine {
  readonly weights: readonly number[] | null;
}

const NO_PRICE = 'the file has no price for it';

export function stockLines(
  job: Job,
  layouts: readonly Layout[],
  costs: PlanCosts,
  payers: readonly Payer[],
): readonly BorneLine[] {
  const { rates } = job;
  const laid = layouts.flatMap((layout) => laidLines(job, layout, costs.surplus, payers));
  return [
    ...laid,
    ...(rates !== null && rates.wasteShare > 0 ? [allowance(rates.wasteShare, laid, payers)] : []),
    ...lumberLines(job, costs, payers),
    ...(rates === null ? [] : [...bandLines(rates, payers), ...hardwareLines(rates, payers)]),
  ];
}

/** The sheets and boards of one material, a line for each size and price; what packs bring beyond need is paid for with the rest. */
function laidLines(
  job: Job,
  layout: Layout,
  surplus: readonly PackSurplus[],
  payers: readonly Payer[],
): readonly BorneLine[] {
  const { name, sheets, boards } = job.materials[layout.material]!;
  const own = surplus.filter(({ material }) => material === layout.material);
  const kinds = [
    { stock: 'sheets', unit: 'sheet', sizes: sheets, taken: layout.sheets, more: own },
    { stock: 'boards', unit: 'board', sizes: boards, taken: layout.boards, more: [] },
  ] as const;
  return kinds.flatMap(({ stock, unit, sizes, taken, more }) =>
    sizes.flatMap((size): readonly BorneLine[] => {
      const alike = sizes.filter((each) => isSameLine(each, size));
      if (alike[0] !== size) return [];
      const isMeant = (index: number) => alike.some((each) => each.index === index);
      const needed = taken.filter((each) => isMeant(each.stock)).length;
      if (needed === 0) return [];
      const spare = sum(more.filter((each) => isMeant(each.stock)).map(({ count }) => count));
      const amount = needed + spare;
      const each = size.priceCents;
      return [
        {
          section: 'material',
          name: `${name}, ${stockTitle(size.name, job.unit)}${spare === 0 ? '' : ` (${spare} not cut: sold in packs)`}`,
          amount,
          unit,
          eachCents: each,
          cents: each === null ? null : amount * each,
          missing: each === null ? NO_PRICE : null,
          weights: takers(payers, stock, layout.material),
        },
      ];
    }),
  );
}

type Size = Pick<Job['materials'][number]['sheets'][number], 'name' | 'priceCents'>;

/** Two entries of a file that nobody who reads the line could tell apart. */
function isSameLine(a: Size, b: Size): boolean {
  return a.name === b.name && a.priceCents === b.priceCents;
}

function takers(
  payers: readonly Payer[],
  stock: 'sheets' | 'boards' | 'lumber',
  index: number,
): readonly number[] {
  return payers.map(({ from, material }) =>
    from?.stock === stock && from.index === index ? material : 0,
  );
}

/** For sheets and boards that are spoiled; lumber and edge bands have allowances of their own. */
function allowance(share: number, laid: readonly BorneLine[], payers: readonly Payer[]): BorneLine {
  const base = sumOrNull(laid.map(({ cents }) => cents));
  return {
    section: 'material',
    name: `Waste allowance, ${percent(share)} on sheets and boards`,
    amount: null,
    unit: null,
    eachCents: null,
    cents: base === null ? null : shareOf(base, share),
    missing: base === null ? 'a sheet or board has no price' : null,
    weights: borne(laid, payers.length),
  };
}

/** What each of so many payers bears of the lines, unrounded; lines that are borne like all else are left out. */
export function borne(lines: readonly BorneLine[], payerCount: number): readonly number[] {
  const shares = new Array<number>(payerCount).fill(0);
  for (const { cents, weights } of lines) {
    const whole = sum(weights ?? []);
    if (cents === null || weights === null || whole === 0) continue;
    for (const [i, weight] of weights.entries()) shares[i]! += (cents * weight) / whole;
  }
  return shares;
}

function lumberLines(
  { lumber }: Job,
  costs: PlanCosts,
  payers: readonly Payer[],
): readonly BorneLine[] {
  return costs.lumber.flatMap(({ lumber: index, buy, priceCents }): readonly BorneLine[] => {
    if (buy === 0) return [];
    const { name, measure, priceCents: each } = lumber[index]!;
    return [
      {
        section: 'material',
        name,
        amount: buy,
        unit: measure,
        eachCents: each,
        cents: priceCents,
        missing: priceCents === null ? NO_PRICE : null,
        weights: takers(payers, 'lumber', index),
      },
    ];
  });
}

function bandLines({ edgeBand }: Rates, payers: readonly Payer[]): readonly BorneLine[] {
  const taken = bandMm(payers);
  if (edgeBand === null || taken === 0) return [];
  const { measure, priceCents, wasteShare } = edgeBand;
  const boughtUm = Math.round(taken * 1000) + shareOf(Math.round(taken * 1000), wasteShare);
  const waste = wasteShare === 0 ? '' : `, ${percent(wasteShare)} added for waste`;
  return [
    {
      section: 'material',
      name: `Edge band${waste}`,
      amount: round(boughtUm / UM_PER[measure], 2),
      unit: measure,
      eachCents: priceCents,
      cents: priceCents === null ? null : timesOver(priceCents, boughtUm, UM_PER[measure]),
      missing: priceCents === null ? 'edge-band has no price' : null,
      weights: payers.map(({ band }) => band),
    },
  ];
}

/** Of all parts, finished. */
export function bandMm(payers: readonly Payer[]): number {
  return toMm(sum(payers.map(({ band }) => band)));
}

/** Micrometres in what bands are sold by. */
const UM_PER = { m: 1_000_000, ft: 304_800 } as const;

/** A line for all that is bought under one name at one price, borne by whoever it is for. */
function hardwareLines({ hardware }: Rates, payers: readonly Payer[]): readonly BorneLine[] {
  const bearers = hardwareBearers(hardware, payers);
  const kinds = new Map<string, number[]>();
  for (const [i, { name, priceCents }] of hardware.entries()) {
    const key = JSON.stringify([name, priceCents]);
    kinds.set(key, [...(kinds.get(key) ?? []), i]);
  }
  return [...kinds.values()].map((items): BorneLine => {
    const { name, priceCents } = hardware[items[0]!]!;
    const count = sum(items.map((i) => hardware[i]!.count));
    const weights = new Array<number>(payers.length).fill(0);
    for (const i of items) weights[bearers[i]!]! += hardware[i]!.count;
    return {
      section: 'hardware',
      name,
      amount: count,
      unit: 'piece',
      eachCents: priceCents,
      cents: priceCents === null ? null : count * priceCents,
      missing: priceCents === null ? NO_PRICE : null,
      weights,
    };
  });
}

/** The payer of each: the part that has it, else one of its own, in the same order. */
function hardwareBearers(
  hardware: readonly Hardware[],
  payers: readonly Payer[],
): readonly number[] {
  const parts = new Map(payers.map(({ kind, name }, i) => [kind === 'part' ? name : null, i]));
  let own = payers.findIndex(({ kind }) => kind === 'hardware');
  return hardware.map(({ part }) => (part === null ? own++ : parts.get(part)!));
}

function percent(share: number): string {
  return `${round(share * 100, 4)} %`;
}

function round(value: number, decimals: number): number {
  return Math.round(value * 10 ** decimals) / 10 ** decimals;
}
