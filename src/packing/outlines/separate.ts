import type { Random } from '../random.ts';
import { bestPlace } from './best-place.ts';
import { type Crowd, loadPlaces, moveEntry, savePlaces } from './crowd.ts';

/** When a separation gives up. */
export interface Patience {
  /** Sweeps without a better state before the best one is taken up again. */
  readonly sweeps: number;
  /** How often that happens. */
  readonly strikes: number;
}

/** Rules of the pair weights. */
const LEAST_RISE = 1.2;
const MORE_RISE = 0.8;
const DECAY = 0.95;

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
 * We measure overlap by the depths in convex sums of depth.ts, which vanish exactly at contact.
 * Cost: about a hundred and fifty evaluations for each moved body; some hundred sweeps.
 */
export function separate(
  crowd: Crowd,
  random: Random,
  patience: Patience,
  goOn: () => boolean,
): boolean {
  crowd.weight.fill(1);
  let best = totalLoss(crowd);
  let saved = savePlaces(crowd);
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
        saved = savePlaces(crowd);
      }
      turnWeights(crowd);
    }
  }
  loadPlaces(crowd, saved);
  return best === 0;
}

/** The sum of the unweighted losses of all pairs. */
export function totalLoss({ loss }: Crowd): number {
  let sum = 0;
  for (let k = 0; k < loss.length; k++) sum += loss[k] as number;
  return sum / 2;
}

function sweep(crowd: Crowd, random: Random): void {
  const order = Array.from({ length: crowd.count }, (_, i) => i).filter((i) => overlaps(crowd, i));
  shuffle(order, random);
  for (const i of order) {
    if (!overlaps(crowd, i)) continue;
    const place = bestPlace(crowd, i, random);
    if (place !== null) moveEntry(crowd, i, place);
  }
}

function overlaps({ loss, total }: Crowd, i: number): boolean {
  for (let k = i * total; k < (i + 1) * total; k++) if ((loss[k] as number) > 0) return true;
  return false;
}

function turnWeights({ loss, weight }: Crowd): void {
  let most = 0;
  for (let k = 0; k < loss.length; k++) if ((loss[k] as number) > most) most = loss[k] as number;
  for (let k = 0; k < loss.length; k++) {
    const own = loss[k] as number;
    const turned =
      (weight[k] as number) * (own > 0 ? LEAST_RISE + (MORE_RISE * own) / most : DECAY);
    weight[k] = Math.max(1, turned);
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
