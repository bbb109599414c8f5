import type { Direction } from '../panelsaw/direction.ts';
import { type Random, seededRandom } from '../random.ts';
import type { Search } from '../task.ts';
import type { WorkBudget } from '../work.ts';
import { type BoxStock, type BoxTask, NO_BOX } from './box-task.ts';
import { CornerFiller } from './corner-filler.ts';
import type { OrderDecoder } from './order-decoder.ts';
import type { Arrangement } from './sheet.ts';

/** What is not the same for every kind of cut. */
export interface CutKind {
  /** Rules are numbered from 0. */
  readonly ruleCount: number;
  readonly toolsFor: (task: BoxTask) => Tools;
  /** Whether sheets may also be filled corner by corner, which no saw could part again. */
  readonly fillsCorners: boolean;
  /** The rules that lay out again what was made of strips one above the other, or side by side; only on a plain sheet. */
  readonly stripRules: Readonly<Record<Direction, number>>;
  /** Whether a list of sheets is soon tried again from another start: where sheets are orders, which get stuck, that does more than going on. */
  readonly startsAnew: boolean;
  /** A rule for a sheet of the stock, drawn by chance: that rules differ matters more than which is best. */
  readonly drawRule: (random: Random, stock: BoxStock, track: number) => number;
  /** The rule that is meant by a number on a sheet of the stock. */
  readonly ruleOn: (stock: BoxStock, rule: number) => number;
}

/** How sheets are laid out, and how all boxes are brought onto a fixed list of them. */
export interface Tools {
  readonly decoder: OrderDecoder;
  readonly fit: Fit;
}

/**
 * Brings the pool of `arrangement` onto its sheets, in place and as far as `work` units go; returns whether nothing is left.
 * `onProgress` is called whenever the pool is cheaper than ever before in this run; the arrangement is then up to date.
 */
export type Fit = (
  engine: Engine,
  arrangement: Arrangement,
  work: number,
  onProgress?: (arrangement: Arrangement) => void,
) => boolean;

/** What every step of the box engine works with. */
export interface Engine extends Tools {
  readonly task: BoxTask;
  readonly stocks: readonly BoxStock[];
  readonly cuts: CutKind;
  /** Null where no sheet may be filled corner by corner. */
  readonly filler: CornerFiller | null;
  readonly sortKeys: readonly Float64Array[];
  readonly sorter: NoisySorter;
  /** One for every kind, to sort by the keys alone. */
  readonly unweighted: Float64Array;
  readonly random: Random;
  readonly budget: WorkBudget;
  readonly track: number;
  /** Charges the work done since the last call; false where the budget is gone. */
  readonly settle: () => boolean;
}

export function newEngine(task: BoxTask, cuts: CutKind, { random, budget, track }: Search): Engine {
  const { decoder, fit } = cuts.toolsFor(task);
  const filler = cuts.fillsCorners ? new CornerFiller(task) : null;
  let charged = 0;
  const settle = () => {
    const done = decoder.work() + (filler?.work ?? 0);
    const units = done - charged;
    charged = done;
    return budget.spend(units + 1);
  };
  return {
    task,
    stocks: task.stocks,
    decoder,
    fit,
    cuts,
    filler,
    sortKeys: sortKeysOf(task),
    sorter: new NoisySorter(random),
    unweighted: new Float64Array(task.kindCount).fill(1),
    random,
    budget,
    track,
    settle,
  };
}

/** The same engine with chances of its own: what is tried with it leaves the course of the search as it is, but for the work. */
export function asideOf(engine: Engine): Engine {
  const random = seededRandom(engine.track);
  return { ...engine, random, sorter: new NoisySorter(random) };
}

const MEASURES: readonly ((width: number, height: number) => number)[] = [
  (width, height) => width * height,
  (width, height) => Math.max(width, height),
  (width) => width,
  (_, height) => height,
  (width, height) => width + height,
  (width, height) => Math.min(width, height),
];

/** Measures to sort kinds by, each scaled to 1 for the largest kind. */
export function sortKeysOf({ stocks, kindCount }: BoxTask): Float64Array[] {
  return MEASURES.map((measure) => {
    const keys = Float64Array.from({ length: kindCount }, (_, kind) => {
      const home = stocks.find(({ boxWidth }) => boxWidth[2 * kind] !== NO_BOX);
      return home ? measure(home.boxWidth[2 * kind]!, home.boxHeight[2 * kind]!) : 0;
    });
    const largest = keys.reduce((most, key) => Math.max(most, key), 1);
    return keys.map((key) => key / largest);
  });
}

export function pickRule({ cuts, random, track }: Engine, stock: BoxStock): number {
  return cuts.drawRule(random, stock, track);
}

/** A whole number from 0 to `below` - 1. */
export function pick(random: Random, below: number): number {
  return Math.floor(random() * below);
}

/** Sorts the first `count` codes, largest first, by a key of their kinds times its weight, blurred by chance. */
export class NoisySorter {
  #values = new Float64Array(64);
  readonly #random: Random;

  constructor(random: Random) {
    this.#random = random;
  }

  sort(codes: Int32Array, count: number, key: Float64Array, weight: Float64Array, noise: number) {
    if (this.#values.length < count) this.#values = new Float64Array(2 * count);
    const values = this.#values;
    for (let i = 0; i < count; i++) {
      const code = codes[i]!;
      const value = key[code >> 2]! * weight[code >> 2]! * (1 + noise * (this.#random() - 0.5));
      // By insertion: the lists are short and often nearly sorted.
      let k = i;
      for (; k > 0 && values[k - 1]! < value; k--) {
        values[k] = values[k - 1]!;
        codes[k] = codes[k - 1]!;
      }
      values[k] = value;
      codes[k] = code;
    }
  }
}
