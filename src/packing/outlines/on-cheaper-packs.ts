import { mixFinder } from '../cheaper-mixes.ts';
import { usedBy } from '../score.ts';
import type { Candidate, Search } from '../task.ts';
import type { Recipe } from './construct.ts';
import type { Setup } from './setup.ts';
import { squeeze } from './squeeze.ts';

/** Share of the work for all mixes, and of what is left of that for each. */
const SHARE = 0.3;
const TURN_SHARE = 0.15;

export interface PackAim extends Pick<Search, 'atLeast' | 'budget' | 'found' | 'random'> {
  readonly setup: Setup;
  readonly recipes: readonly Recipe[];
  readonly build: (recipe: Recipe) => Candidate;
}

/**
 * Lays the bodies on a mix of packs that costs less.
 *
 * Idea: nothing is saved before a whole pack is, so sheets that go one by one lead nowhere. Each mix is filled as far as the recipes come; what is left out is laid
 * over the others and separated from them. When nothing more is left out than before, mixes that cost still less have their turn.
 * Cost: at most a share of the work, beside the constructions of the last mix.
 * Degenerate cases: without a cheaper mix that area allows, the candidate stays as it is.
 */
export function onCheaperPacks(start: Candidate, aim: PackAim): Candidate {
  const { atLeast, budget, found, setup } = aim;
  const mixesBelow = mixFinder(setup.task);
  const stopAt = budget.left * (1 - SHARE);
  const usedIn = ({ sheets }: Candidate) => usedBy(setup.task, sheets);
  let best = start;
  let mixes = mixesBelow(usedIn(best));
  let failures = 0;
  while (failures < mixes.length && usedIn(best) > atLeast && budget.left > stopAt) {
    const turnEnd = budget.left - TURN_SHARE * (budget.left - stopAt) - 1;
    const next = laidOn(mixes[failures]!, best.unplaced.length, turnEnd, aim);
    if (next === null) failures++;
    else {
      best = next;
      found(best);
      mixes = mixesBelow(usedIn(best));
      failures = 0;
    }
  }
  return best;
}

/** The bodies on no more than these sheets of each stock; null where more than `mayWait` of them were still left out when the turn ended. */
function laidOn(
  most: readonly number[],
  mayWait: number,
  turnEnd: number,
  { setup, random, recipes, build, budget }: PackAim,
): Candidate | null {
  let best: Candidate | null = null;
  for (const recipe of recipes) {
    const built = build({ ...recipe, most });
    if (best === null || built.unplaced.length < best.unplaced.length) best = built;
    if (best.unplaced.length <= mayWait) return best;
    if (budget.left <= turnEnd) break;
  }
  if (best === null) return null;
  let waiting = best.unplaced.length;
  const squeezed = squeeze(best, {
    setup,
    random,
    better: ({ unplaced }) => {
      waiting = unplaced.length;
    },
    goOn: (work) => budget.spend(work) && budget.left > turnEnd && waiting > mayWait,
  });
  return waiting > mayWait ? null : squeezed;
}
