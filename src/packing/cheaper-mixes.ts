// Lists the mixes of packs that cost less than a layout, as aims for the search.
// Idea: packs of one stock after another are counted from many down, and only mixes are told to which no pack can be added for less than the layout costs: all
//   others are harder to keep to. What area rules out is left out.
// Source: none needed; the branches are cut as in stock-mix.ts.
// Cost: held to MOST_LOOKED mixes. Meant for a handful of stocks.
// Degenerate cases: nothing cheaper: no mix; where there are too many to look at, some of them.
import { areaMix } from './bounds/area.ts';
import { type Demand, fractionalCost, type Offer } from './bounds/stock-mix.ts';
import { pricesOf } from './priced.ts';
import type { PackingTask } from './task.ts';

const MOST_LOOKED = 2000;
const MOST_TOLD = 12;

/** Finds sheets of each stock, in whole packs, that together cost less than a number, those with most area first. */
export type MixFinder = (below: number) => readonly (readonly number[])[];

export function mixFinder(task: PackingTask): MixFinder {
  const { offers, demands } = areaMix(task);
  const most = offers.map(({ onHand }, stock) =>
    demands.some(({ from }) => from[stock]) ? Math.min(onHand, task.bodies.length) : 0,
  );
  const amounts = demands.map(({ amount }) => amount);
  const packs = pricesOf(task).map(({ pack }) => pack);
  return (below) => {
    const search: Search = { offers, demands, most, below, looked: 0, found: [] };
    extend(search, amounts, [], 0);
    return search.found
      .map((mix) => ({ mix, room: roomOf(offers, mix) }))
      .sort((a, b) => Number(b.room - a.room))
      .slice(0, MOST_TOLD)
      .map(({ mix }) => mix.map((count, stock) => count * packs[stock]!));
  };
}

interface Search {
  readonly offers: readonly Offer[];
  readonly demands: readonly Demand[];
  /** Packs of each stock that may be taken. */
  readonly most: readonly number[];
  readonly below: number;
  looked: number;
  readonly found: (readonly number[])[];
}

/** Tries every number of packs of the next stock, given those before it and what is still open of each demand. */
function extend(
  search: Search,
  open: readonly bigint[],
  mix: readonly number[],
  cost: number,
): void {
  const { offers, demands, most, below } = search;
  const index = mix.length;
  const offer = offers[index];
  if (search.looked++ >= MOST_LOOKED) return;
  const least = demands.map((demand, k) => fractionalCost(offers, demand, open[k]!, index));
  if (cost + Math.max(0, ...least) >= below) return;
  if (offer === undefined) {
    if (isFull(search, mix, cost)) search.found.push(mix);
    return;
  }
  const payable = offer.cost === 0 ? most[index]! : Math.ceil((below - cost) / offer.cost) - 1;
  const top = Math.min(most[index]!, payable);
  const fewest = index === offers.length - 1 ? top : 0;
  for (let count = top; count >= fewest; count--) {
    const taken = offer.capacity * BigInt(count);
    const rest = open.map((amount, k) => (demands[k]!.from[index] ? amount - taken : amount));
    extend(search, rest, [...mix, count], cost + count * offer.cost);
  }
}

function isFull({ offers, most, below }: Search, mix: readonly number[], spent: number): boolean {
  return offers.every(({ cost }, k) => mix[k] === most[k] || spent + cost >= below);
}

function roomOf(offers: readonly Offer[], mix: readonly number[]): bigint {
  return offers.reduce((sum, { capacity }, k) => sum + capacity * BigInt(mix[k]!), 0n);
}
