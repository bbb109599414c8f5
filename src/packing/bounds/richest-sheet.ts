// Looks for contents of one sheet that are worth more than a given amount, or shows that there are none.
// Idea: kinds are taken in the order of worth for area; a branch ends where even fractions of what could still be added, by area or by one of the other weights, do not reach the amount.
//   Contents that reach it are tested for whether they fit, and if they do the amount rises. Where contents do not fit, the contents before the last piece are tested too, so that
//   a branch that is hopeless ends as a whole.
// Source: Gilmore & Gomory 1961, Operations Research 9 (pricing); Pisinger & Sigurd 2007, "Using decomposition techniques and constraint programming for solving the two-dimensional
//   bin-packing problem", INFORMS J. on Computing 19 (a knapsack whose contents are tested for fit).
// Where we differ: several weights bound a branch, not the area alone; and the amount is not one sheet but what the claim at hand needs.
// Cost: exponential, ended by the budget; meant for sheets of up to about ten large pieces.
// Degenerate cases: kinds worth nothing are left out; no kinds: none.

import type { WorkBudget } from '../work.ts';
import { type SheetRelaxation, WHOLE } from './sheet-relaxation.ts';

/** Branches looked at after contents were found, for better ones. */
const FURTHER = 3000;

/** Kinds of such contents, null where there are none, 'stopped' where the work ran out before either was known. Worths are whole numbers. */
export function richerSheet(
  relaxation: SheetRelaxation,
  worths: Float64Array,
  most: number,
  budget: WorkBudget,
): readonly number[] | null | 'stopped' {
  const kinds = [...worths.keys()].filter((kind) => worths[kind]! > 0);
  const orders = relaxation.weights.map((weights) => {
    // What weighs nothing comes first of all, or a reach that ends before it would be too low.
    const rate = (kind: number) =>
      weights[kind] === 0 ? Number.MAX_VALUE : worths[kind]! / weights[kind]!;
    return Int32Array.from([...kinds].sort((a, b) => rate(b) - rate(a) || a - b));
  });
  const search: Search = {
    relaxation,
    worths,
    orders,
    budget,
    rooms: relaxation.weights.map(() => WHOLE),
    used: new Int32Array(worths.length),
    marks: new Int32Array(worths.length),
    mark: 0,
    chosen: [],
    lists: [],
    best: most,
    bestKinds: null,
    left: Number.POSITIVE_INFINITY,
  };
  const done = extend(search, orders[0]!, kinds.length, 0);
  return search.bestKinds ?? (done ? null : 'stopped');
}

interface Search {
  readonly relaxation: SheetRelaxation;
  readonly worths: Float64Array;
  /** Kinds by falling worth for each of the weights. */
  readonly orders: readonly Int32Array[];
  readonly budget: WorkBudget;
  /** What is left of each weight. */
  readonly rooms: number[];
  readonly used: Int32Array;
  /** Kinds that may still be added carry the newest mark. */
  readonly marks: Int32Array;
  mark: number;
  readonly chosen: number[];
  readonly lists: Int32Array[];
  best: number;
  bestKinds: readonly number[] | null;
  left: number;
}

/** Tries to add each of the first `length` kinds of the list; false where the search was stopped. */
function extend(search: Search, list: Int32Array, length: number, worth: number): boolean {
  const { relaxation, worths, rooms, used, chosen, budget } = search;
  const { weights } = relaxation;
  let sound = chosen.length < 3;
  for (let at = 0; at < length; at++) {
    if (reachByArea(search, list, at, length, worth) < search.best + 0.99) return true;
    if (search.left-- <= 0 || !budget.spend(length * 4)) return false;
    const kind = list[at]!;
    for (let c = 0; c < weights.length; c++) rooms[c]! -= weights[c]![kind]!;
    used[kind]!++;
    chosen.push(kind);
    const fits = keepIfBest(search, worth + worths[kind]!);
    const done = !fits || descend(search, list, at, length, worth + worths[kind]!);
    chosen.pop();
    used[kind]!--;
    for (let c = 0; c < weights.length; c++) rooms[c]! += weights[c]![kind]!;
    if (!done) return false;
    if (fits || sound) continue;
    if (!relaxation.mayFit(chosen, budget)) return true;
    sound = true;
  }
  return true;
}

/** Whether the chosen kinds may fit, as far as that must be known by now. */
function keepIfBest(search: Search, worth: number): boolean {
  if (worth <= search.best) return true;
  if (!search.relaxation.mayFit(search.chosen, search.budget)) return false;
  if (search.bestKinds === null) search.left = FURTHER;
  search.best = worth;
  search.bestKinds = [...search.chosen];
  return true;
}

/** Goes on with the kinds from `at` on that still go with the last one chosen. */
function descend(
  search: Search,
  list: Int32Array,
  at: number,
  length: number,
  worth: number,
): boolean {
  const { relaxation, rooms, used, chosen, marks, lists, worths } = search;
  const { counts, conflicts, weights } = relaxation;
  const depth = chosen.length;
  lists[depth] ??= new Int32Array(worths.length);
  const next = lists[depth]!;
  const last = chosen[depth - 1]!;
  search.mark++;
  let open = 0;
  for (let b = at; b < length; b++) {
    const kind = list[b]!;
    if (used[kind]! >= counts[kind]! || conflicts[last * worths.length + kind]) continue;
    let goes = true;
    for (let c = 0; c < weights.length && goes; c++) goes = weights[c]![kind]! <= rooms[c]!;
    if (!goes) continue;
    next[open++] = kind;
    marks[kind] = search.mark;
  }
  if (open === 0) return true;
  for (let c = 1; c < weights.length; c++)
    if (reachBy(search, c, open, worth) < search.best + 0.99) return true;
  return extend(search, next, open, worth);
}

/** Worth with fractions of the kinds from `at` on, by area. The list keeps the order of worth for area. */
function reachByArea(
  { relaxation, worths, rooms, used }: Search,
  list: Int32Array,
  at: number,
  length: number,
  worth: number,
): number {
  const { counts } = relaxation;
  const weights = relaxation.weights[0]!;
  let left = rooms[0]!;
  let reach = worth;
  for (let b = at; b < length; b++) {
    const kind = list[b]!;
    const copies = counts[kind]! - used[kind]!;
    const all = copies * weights[kind]!;
    if (all > left) return reach + (worths[kind]! * left) / weights[kind]!;
    left -= all;
    reach += copies * worths[kind]!;
  }
  return reach;
}

/** The same by another of the weights, over the `open` marked kinds. */
function reachBy(search: Search, c: number, open: number, worth: number): number {
  const { relaxation, worths, rooms, used, marks, mark } = search;
  const { counts } = relaxation;
  const weights = relaxation.weights[c]!;
  const order = search.orders[c]!;
  let left = rooms[c]!;
  let reach = worth;
  let seen = 0;
  for (let b = 0; b < order.length && seen < open; b++) {
    const kind = order[b]!;
    if (marks[kind] !== mark) continue;
    seen++;
    const copies = counts[kind]! - used[kind]!;
    const all = copies * weights[kind]!;
    if (all > left) return reach + (worths[kind]! * left) / weights[kind]!;
    left -= all;
    reach += copies * worths[kind]!;
  }
  return reach;
}
