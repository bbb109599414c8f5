import { countOf, hasPacks, pricesOf } from '../priced.ts';
import type { Candidate, PackingTask, Search, Strategy } from '../task.ts';
import { climb, type Trial } from './climb.ts';
import { type Construction, construct, type Recipe } from './construct.ts';
import { crowdOf, sheetsOf, takeWork } from './crowd.ts';
import { spotFinder } from './find-spot.ts';
import { onCheaperPacks } from './on-cheaper-packs.ts';
import type { Measure } from './overlap.ts';
import { refit } from './refit.ts';
import { type Patience, separate } from './separate.ts';
import { type Setup, setupOf } from './setup.ts';
import { MOST_BODIES, squeeze } from './squeeze.ts';
import { compareValues, type Value, valueOfCandidate } from './value.ts';

/** Share of the work that goes into the order of the bodies, and the share of the rest that is spent on the leftover once the bound is met. */
const CLIMB_SHARE = 0.05;
const LEFTOVER_SHARE = 0.3;

/** The overlaps of a layout of boxes are tiny, so they go soon or not at all. */
const LOOSENING: Patience = { sweeps: 20, strikes: 1 };

/** Units of work that a construction costs for each body beside the searches. */
const BUILD_OVERHEAD = 50;

/**
 * Packs bodies by their true shape on sheets: any outline, cut-outs where the file allows it, keep-outs, several stocks.
 *
 * Idea: the bodies are laid one after the other, each at its leftmost free place, largest first by several measures, and the best order is improved by
 * small changes; a layout of boxes that was found before is the start where it is better. Then the emptiest sheet is shortened again and again, by
 * letting bodies overlap and separating them. One track tells overlaps by depths, the other by circles, and both go on from the better layout.
 * Every candidate is exact: forms are never smaller than their pieces with half the spacing, and whole numbers decide whether two overlap.
 * Source: see construct.ts, climb.ts, squeeze.ts.
 * Cost: counted work; the first candidate is made whatever the budget is. Meant for up to some hundred bodies.
 * Degenerate cases: without bodies no sheets; a body that fits no sheet on hand is left out.
 */
export const packOutlines: Strategy = (task, search) => {
  const { budget, random } = search;
  if (task.bodies.length === 0) return { sheets: [], unplaced: [] };
  const setup = setupOf(task, measureOf(search.track), budget);
  const total = budget.left;
  const findSpot = spotFinder(setup, budget);
  const tools = { setup, findSpot, inHurry: () => budget.exhausted };
  const build = (recipe: Recipe) => {
    budget.spend(BUILD_OVERHEAD * task.bodies.length);
    return construct(tools, recipe);
  };

  const climbed = () => {
    const first = bestOf(setup, recipesFor(task), build, search);
    search.found(first.candidate);
    return climb(setup, first, {
      build,
      random,
      better: ({ candidate }) => search.found(candidate),
      goOn: () => budget.left > total * (1 - CLIMB_SHARE),
    }).candidate;
  };
  const begun = isOurs(search.start)
    ? search.start
    : betterOf(setup, climbed(), loosened(setup, search));
  const aim = { ...search, setup, recipes: recipesFor(task), build };
  const aimed = hasPacks(pricesOf(task)) ? onCheaperPacks(begun, aim) : begun;
  const fitted = refitted(tools, aimed, search);

  let stopAt = restFor(search, valueOfCandidate(setup, fitted));
  const squeezed = squeeze(fitted, {
    setup,
    random,
    better: (candidate) => {
      search.found(candidate);
      if (stopAt === 0) stopAt = restFor(search, valueOfCandidate(setup, candidate));
    },
    goOn: (work) => budget.spend(work) && budget.left > stopAt,
  });
  return refitted(tools, squeezed, search);
};

/** Whether an earlier run of this strategy made the candidate. */
function isOurs({ sheets }: Candidate): boolean {
  return sheets.length > 0 && sheets.every(({ again, boxed }) => !again && !boxed);
}

/** By what the tracks measure overlaps: the two find different layouts, and go on from the better one in their next turn. */
function measureOf(track: number): Measure {
  return track % 2 === 0 ? 'circles' : 'depth';
}

/**
 * The layout of boxes that was found before, as a start that is never worse than boxes; null where there is none. A form may reach over its box by a few
 * base lengths (see forms.ts), so the bodies are moved apart first where that is needed.
 */
function loosened(setup: Setup, { start, random, budget }: Search): Candidate | null {
  const { sheets, unplaced } = start;
  if (sheets.length === 0 || setup.task.bodies.length > MOST_BODIES) return null;
  const boxes = sheets.map(({ stock, spots }) => ({ stock, spots }));
  const crowd = crowdOf(setup, { sheets: boxes, unplaced });
  const isFree = separate(crowd, random, LOOSENING, () => !budget.exhausted);
  budget.spend(takeWork(crowd));
  return isFree ? { sheets: sheetsOf(crowd), unplaced } : null;
}

function betterOf(setup: Setup, one: Candidate, other: Candidate | null): Candidate {
  if (other === null) return one;
  const isBetter = compareValues(valueOfCandidate(setup, other), valueOfCandidate(setup, one)) < 0;
  return isBetter ? other : one;
}

/** The best of the first candidates; all recipes are tried as far as there is work, but always one. */
function bestOf(
  setup: Setup,
  [first, ...others]: readonly [Recipe, ...Recipe[]],
  build: (recipe: Recipe) => Candidate,
  { budget }: Search,
): Trial {
  const trialOf = (recipe: Recipe): Trial => {
    const candidate = build(recipe);
    return { recipe, candidate, value: valueOfCandidate(setup, candidate) };
  };
  let best = trialOf(first);
  for (const recipe of others) {
    if (budget.exhausted) break;
    const trial = trialOf(recipe);
    if (compareValues(trial.value, best.value) < 0) best = trial;
  }
  return best;
}

/** How much work may be left at the end: none is kept back before the bound is met. */
function restFor({ atLeast, budget }: Search, { unplacedPieces, used }: Value): number {
  return unplacedPieces === 0 && used <= atLeast ? budget.left * (1 - LEFTOVER_SHARE) : 0;
}

function refitted(tools: Construction, candidate: Candidate, { found }: Search): Candidate {
  const { setup } = tools;
  if (!hasCheaper(setup.task)) return candidate;
  // The work is gone by the end, but one sheet after the other is soon laid anew.
  const fitted = refit({ ...tools, inHurry: () => false }, candidate);
  const isBetter =
    compareValues(valueOfCandidate(setup, fitted), valueOfCandidate(setup, candidate)) < 0;
  if (isBetter) found(fitted);
  return isBetter ? fitted : candidate;
}

/** Whether one stock counts for less than another. */
function hasCheaper({ stocks, objective }: PackingTask): boolean {
  return new Set(stocks.map((stock) => countOf(objective, stock))).size > 1;
}

/** Every order of the bodies with every order of the stocks. */
function recipesFor(task: PackingTask): readonly [Recipe, ...Recipe[]] {
  const held = task.bodies.map(() => -1);
  const [first, ...others] = stockOrders(task).flatMap((stocks) =>
    MEASURES.map((measure): Recipe => {
      const sizes = task.bodies.map(({ orientations: [orientation] }) =>
        orientation === undefined ? 0 : measure(orientation.width, orientation.height),
      );
      const order = task.bodies
        .map(({ index }) => index)
        .sort((a, b) => (sizes[b] as number) - (sizes[a] as number) || a - b);
      return { order, held, stocks: [stocks] };
    }),
  );
  return [first ?? { order: [], held, stocks: [] }, ...others];
}

const MEASURES: readonly ((width: number, height: number) => number)[] = [
  (width, height) => width * width + height * height,
  (width, height) => width * height,
  (width, height) => Math.max(width, height),
  (width, height) => Math.min(width, height),
  (width, height) => width + height,
];

/** Stocks as the file has them, the largest first, and the cheapest for its area first. */
function stockOrders({ stocks, objective }: PackingTask): readonly (readonly number[])[] {
  const given = [...stocks.keys()];
  if (stocks.length < 2) return [given];
  const area = (index: number) => (stocks[index]?.length ?? 0) * (stocks[index]?.width ?? 0);
  const counts = stocks.map((stock) => countOf(objective, stock));
  const price = (index: number) => (counts[index] ?? 0) / Math.max(1, area(index));
  return [
    given,
    given.toSorted((a, b) => area(b) - area(a) || a - b),
    given.toSorted((a, b) => price(a) - price(b) || a - b),
  ];
}
