import type { Random } from '../random.ts';
import type { BoxTask } from './box-task.ts';

/** Fills one sheet box by box from kinds with counts; its results stand until the next call. */
export interface Filler {
  readonly remaining: RemainingKinds;
  readonly placed: Int32Array;
  readonly placedCount: number;
  readonly area: number;
  /** The rule that lays the order out again. */
  readonly rule: number;
  readonly work: number;
  /** Places of the remaining kinds what goes well on one sheet, and takes it off their counts. */
  readonly fill: (stock: BoxTask['stocks'][number], random: Random) => void;
}

/** Kinds still to place and how many of each. The class guards that every kind is listed once. */
export class RemainingKinds {
  /** How large each kind counts when kinds compete for a place. */
  readonly size: Float64Array;
  readonly kinds: Int32Array;
  readonly counts: Int32Array;
  /** By the place in the list: how much each kind is wanted on the sheet in hand, whatever the place. */
  readonly merit: Float64Array;
  kindCount = 0;
  readonly #slotOf: Int32Array;

  constructor(task: BoxTask) {
    this.size = Float64Array.from(task.area);
    this.kinds = new Int32Array(task.kindCount);
    this.counts = new Int32Array(task.kindCount);
    this.merit = new Float64Array(task.kindCount);
    this.#slotOf = new Int32Array(task.kindCount).fill(-1);
  }

  /** Forgets all kinds. */
  clear(): void {
    for (let i = 0; i < this.kindCount; i++) this.#slotOf[this.kinds[i]!] = -1;
    this.kindCount = 0;
  }

  add(kind: number, count: number): void {
    const slot = this.#slotOf[kind]!;
    if (slot >= 0) {
      this.counts[slot] = this.counts[slot]! + count;
      return;
    }
    this.#slotOf[kind] = this.kindCount;
    this.kinds[this.kindCount] = kind;
    this.counts[this.kindCount++] = count;
  }

  /** Draws how much each kind is wanted: by its size, and by chance. */
  weigh(forSize: number, noise: number, random: Random): void {
    let largest = 0;
    for (let slot = 0; slot < this.kindCount; slot++)
      largest = Math.max(largest, this.size[this.kinds[slot]!]!);
    for (let slot = 0; slot < this.kindCount; slot++) {
      const share = this.size[this.kinds[slot]!]! / largest;
      this.merit[slot] = forSize * share + noise * random();
    }
  }
}
