import type { Random } from '../random.ts';
import type { Candidate } from '../task.ts';
import type { Recipe } from './construct.ts';
import type { Setup } from './setup.ts';
import { compareValues, type Value, valueOfCandidate } from './value.ts';

/** A recipe with what it gave. */
export interface Trial {
  readonly recipe: Recipe;
  readonly candidate: Candidate;
  readonly value: Value;
}

/** What a climb asks of its surroundings. */
export interface Climb {
  readonly build: (recipe: Recipe) => Candidate;
  readonly random: Random;
  /** Told of every better trial. */
  readonly better: (trial: Trial) => void;
  readonly goOn: () => boolean;
}

/** How many steps back a trial is compared with. */
const MEMORY = 30;

/**
 * Improves a recipe by small random changes: two bodies swapped, one body moved in the order, one held to an orientation or let go, another stock for a sheet.
 *
 * Idea: a changed recipe is built and takes the place of the current one if it is no worse than that, or no worse than the current one
 * of `MEMORY` steps ago. So the search wanders while it does not improve, and forgets how far it may sink as it rises.
 * Source: Burke & Bykov 2017, "The late acceptance hill-climbing heuristic", European J. of Operational Research 258.
 * Cost: one construction a step.
 */
export function climb(setup: Setup, start: Trial, { build, random, better, goOn }: Climb): Trial {
  let current = start;
  let best = start;
  const memory = new Array<Value>(MEMORY).fill(start.value);
  for (let step = 0; goOn(); step++) {
    const recipe = changed(setup, current, random);
    const candidate = build(recipe);
    const value = valueOfCandidate(setup, candidate);
    const slot = step % MEMORY;
    const past = memory[slot] as Value;
    if (compareValues(value, current.value) <= 0 || compareValues(value, past) <= 0)
      current = { recipe, candidate, value };
    if (compareValues(current.value, past) < 0) memory[slot] = current.value;
    if (compareValues(current.value, best.value) < 0) {
      best = current;
      better(best);
    }
  }
  return best;
}

/** How often a change is to a stock, where there are several, and else to an orientation, a swap of two bodies, or a move of one. */
const STOCK_SHARE = 0.15;
const ORIENTATION_SHARE = 0.15;
const SWAP_SHARE = 0.4;

function changed(setup: Setup, { recipe, candidate }: Trial, random: Random): Recipe {
  if (setup.rooms.length > 1 && random() < STOCK_SHARE)
    return withOtherStock(recipe, candidate.sheets.length, random);
  const choice = random();
  if (choice < ORIENTATION_SHARE) return withOtherOrientation(setup, recipe, random);
  const order = [...recipe.order];
  const from = below(random, order.length);
  const to = below(random, order.length);
  const [first, second] = [order[from] as number, order[to] as number];
  if (choice < ORIENTATION_SHARE + SWAP_SHARE) {
    order[from] = second;
    order[to] = first;
  } else {
    order.splice(from, 1);
    order.splice(to, 0, first);
  }
  return { ...recipe, order };
}

/** Another stock is preferred for one of the sheets; the list of preferences grows to that sheet where it is shorter. */
function withOtherStock(recipe: Recipe, sheetCount: number, random: Random): Recipe {
  const sheet = below(random, sheetCount);
  const stocks = [...recipe.stocks];
  const last = stocks.at(-1) ?? [];
  while (stocks.length <= sheet) stocks.push(last);
  const preferred = [...(stocks[sheet] ?? [])];
  const [first] = preferred.splice(below(random, preferred.length), 1);
  stocks[sheet] = first === undefined ? preferred : [first, ...preferred];
  return { ...recipe, stocks };
}

/** One body is held to an orientation, or let go. */
function withOtherOrientation(setup: Setup, recipe: Recipe, random: Random): Recipe {
  const body = recipe.order[below(random, recipe.order.length)] as number;
  const held = [...recipe.held];
  held[body] = below(random, (setup.formsOfBody[body]?.length ?? 0) + 1) - 1;
  return { ...recipe, held };
}

function below(random: Random, limit: number): number {
  return Math.floor(random() * limit);
}
