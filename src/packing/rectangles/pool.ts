import type { Random } from '../random.ts';
import { kindOf } from './code.ts';
import { type Engine, pick } from './engine.ts';

/** Boxes without a sheet. The class guards the agreement between the codes and what they cost together. */
export class Pool {
  codes: Int32Array;
  count: number;
  cost = 0;
  readonly #costOf: Float64Array;
  readonly #base: Float64Array;
  readonly #weight: Float64Array;

  /** `scale` turns areas into costs; the engine's decoder and filler work with the same costs from now on. */
  constructor(engine: Engine, codes: readonly number[], scale: number) {
    this.codes = Int32Array.from(
      { length: Math.max(64, 2 * codes.length) },
      (_, i) => codes[i] ?? 0,
    );
    this.count = codes.length;
    const { costs } = engine.decoder;
    costs.leastPerArea = scale;
    this.#costOf = costs.ofKind;
    this.#base = engine.task.area.map((area) => area * scale);
    this.#weight = new Float64Array(engine.task.kindCount).fill(1);
    this.#costOf.set(this.#base);
    this.#addUp();
  }

  /** How much dearer than by its area each kind has become. */
  get weight(): Float64Array {
    return this.#weight;
  }

  list(): number[] {
    return [...this.codes.subarray(0, this.count)];
  }

  /** Moves up to `most` boxes, drawn at random, to the end of the list; returns how many. */
  draw(random: Random, most: number): number {
    const drawn = Math.min(most, this.count);
    for (let k = 0; k < drawn; k++) this.swap(pick(random, this.count - k), this.count - 1 - k);
    return drawn;
  }

  swap(i: number, k: number): void {
    const code = this.codes[i]!;
    this.codes[i] = this.codes[k]!;
    this.codes[k] = code;
  }

  /** What the last `count` boxes cost. */
  costOfLast(count: number): number {
    let cost = 0;
    for (let i = this.count - count; i < this.count; i++)
      cost += this.#costOf[kindOf(this.codes[i]!)]!;
    return cost;
  }

  /** Gives the last `drawn` boxes away and takes others in. */
  replaceLast(drawn: number, codes: Int32Array, count: number): void {
    this.cost -= this.costOfLast(drawn);
    this.count -= drawn;
    if (this.codes.length < this.count + count) {
      const larger = new Int32Array(2 * (this.count + count));
      larger.set(this.codes.subarray(0, this.count));
      this.codes = larger;
    }
    for (let i = 0; i < count; i++) this.codes[this.count + i] = codes[i]!;
    this.count += count;
    this.cost += this.costOfLast(count);
  }

  /** What waits grows dearer by a factor; a kind grows once, however many of it wait. */
  growDearer(factor: number): void {
    for (const kind of new Set(this.list().map(kindOf))) {
      this.#weight[kind] = this.#weight[kind]! * factor;
      this.#costOf[kind] = this.#base[kind]! * this.#weight[kind]!;
    }
    this.#addUp();
  }

  /** Anew from time to time, because sums of differences drift. */
  #addUp(): void {
    this.cost = this.costOfLast(this.count);
  }
}
