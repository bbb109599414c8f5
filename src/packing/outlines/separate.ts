import type { Random } from '../random.ts';
import { bestPlace } from './best-place.ts';
import { type Crowd, loadPlaces, moveEntry, savePlaces } from './crowd.ts';
import { resetWeights, totalLoss, turnWeights } from './weights.ts';

/** When a separation gives up. */
export interface Patience {
  /** Sweeps without a better state before the best one is taken up again. */
  readonly sweeps: number;
  /** How often that happens. */
  readonly strikes: number;
}

/** A state counts as clearly better below this share of the best loss. */
const CLEARLY = 0.98;

/**
 * Moves overlapping bodies until none overlaps; true where that succeeds, else the crowd is left in its best state.
 *
 * Idea: body by body is moved to its best place by the weighted loss, in random order, over and over. After each sweep the weights of pairs
 * that still overlap are multiplied by a factor that grows with their loss, all others fade, so that stubborn pairs become so dear that
 * the search gives way elsewhere. Without progress it returns to the best state but keeps the weights.
 * Source: guided local search after Umetani et al. 2009 (see slide-on-lines.ts), with the multiplied weights of Gardeyn, Vanden Berghe & Wauters
 * 2025, "An open-source heuristic to reboot 2D nesting research".
 * Whether two bodies overlap is decided by convex sums, exactly, so that they may touch; see overlap.ts for how much they do.
 * Cost: about a hundred evaluations for each moved body; some hundred sweeps.
 */
export function separate(
  crowd: Crowd,
  random: Random,
  patience: Patience,
  goOn: () => boolean,
): boolean {
  resetWeights(crowd);
  let best = totalLoss(crowd);
  const saved = savePlaces(crowd);
  for (let strike = 0; strike < patience.strikes && best > 0; strike++) {
    if (strike > 0) loadPlaces(crowd, saved);
    for (let idle = 0; idle < patience.sweeps && best > 0; idle++) {
      if (!goOn()) {
        loadPlaces(crowd, saved);
        return false;
      }
      sweep(crowd, random);
      const loss = totalLoss(crowd);
      if (loss < best) {
        if (loss < CLEARLY * best) idle = -1;
        best = loss;
        savePlaces(crowd, saved);
      }
      turnWeights(crowd);
    }
  }
  loadPlaces(crowd, saved);
  return best === 0;
}

function sweep(crowd: Crowd, random: Random): void {
  const order: number[] = [];
  for (let i = 0; i < crowd.count; i++) if (crowd.clashes[i] !== 0) order.push(i);
  shuffle(order, random);
  for (const i of order) {
    if (crowd.clashes[i] === 0) continue;
    const place = bestPlace(crowd, i, random);
    if (place !== null) moveEntry(crowd, i, place);
  }
}

function shuffle(list: number[], random: Random): void {
  for (let i = list.length - 1; i > 0; i--) {
    const j = Math.floor(random() * (i + 1));
    const kept = list[i] as number;
    list[i] = list[j] as number;
    list[j] = kept;
  }
}
