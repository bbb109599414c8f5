// Fills one sheet strip by strip so that a saw can part it from edge to edge.
// Idea: the newest row or column of the slicing tree that still takes something asks every remaining kind how well it goes there; what does not fit across it
//   never will, so a row or column that nothing fits is closed. The order found, laid out again by the rule "newest first", gives the same layout.
// Source: best fit as in Burke, Kendall & Whitwell 2004, "A new placement heuristic for the orthogonal stock-cutting problem", Operations Research 52;
//   on the nodes of a slicing tree and with weights drawn anew for each sheet it is ours.
// Cost: placed boxes times kinds, and every node once more to close it.
// Degenerate cases: no kind fits: nothing is placed; one kind: strips of it.
import type { Random } from '../random.ts';
import type { BoxStock, BoxTask } from '../rectangles/box-task.ts';
import { codeOf } from '../rectangles/code.ts';
import { type Filler, RemainingKinds } from '../rectangles/remaining-kinds.ts';
import { COLUMN, ROW, SlicingTree, type TreeLimits } from './slicing-tree.ts';

/** The class guards the agreement between the tree, the counts and the boxes placed. */
export class SlicingFiller implements Filler {
  readonly remaining: RemainingKinds;
  placed = new Int32Array(64);
  placedCount = 0;
  area = 0;
  rule: number;
  work = 0;
  readonly #rules: readonly [row: number, column: number];
  readonly #tree: SlicingTree;
  readonly #inner: Uint8Array;
  readonly #limits: TreeLimits;
  #forFlush = 0;
  #forFlushAcross = 0;
  #againstGap = 0;
  #bestMerit = 0;
  #bestSlot = -1;
  #bestBox = 0;

  /** `rules` lay an order out newest first with a row and with a column as the root. */
  constructor(
    task: BoxTask,
    limits: TreeLimits,
    inner: Uint8Array,
    rules: readonly [row: number, column: number],
  ) {
    this.remaining = new RemainingKinds(task);
    this.#limits = limits;
    this.#inner = inner;
    this.#rules = rules;
    this.rule = rules[0];
    this.#tree = new SlicingTree(limits);
  }

  fill(stock: BoxStock, random: Random): void {
    const direction = random() < 0.5 ? ROW : COLUMN;
    this.rule = this.#rules[direction === ROW ? 0 : 1];
    this.placedCount = 0;
    this.area = 0;
    const forSize = random();
    const noise = 0.3 * random();
    this.#forFlush = 0.5 * random();
    this.#forFlushAcross = 0.5 * random();
    this.#againstGap = random();
    this.remaining.weigh(forSize, noise, random);
    const { counts, kindCount } = this.remaining;
    let most = 0;
    for (let slot = 0; slot < kindCount; slot++) most += counts[slot]!;
    for (const panel of stock.panels[direction]) {
      const [width, height] = [panel.maxX - panel.minX, panel.maxY - panel.minY];
      if (this.#tree.begin(direction, width, height, most)) this.#fillTree(stock);
    }
  }

  #fillTree(stock: BoxStock): void {
    const tree = this.#tree;
    for (let node = tree.count - 1; node >= 0; ) {
      if (tree.joins[node] !== 0) {
        this.#choose(stock, node);
        if (this.#bestSlot >= 0) {
          this.#place(stock, node);
          node = tree.count - 1;
          continue;
        }
        tree.joins[node] = 0;
      }
      node--;
    }
  }

  /** Finds the kind and lie that suit the node best without making it wider across its direction; none where nothing fits. */
  #choose(stock: BoxStock, node: number): void {
    const tree = this.#tree;
    const { kinds, counts, merit: wanted, kindCount } = this.remaining;
    const isAlongX = tree.joins[node] === ROW;
    const isRoot = node === tree.root;
    const roomX = tree.roomX[node]! - (isAlongX ? tree.width[node]! : 0);
    const roomY = tree.roomY[node]! - (isAlongX ? 0 : tree.height[node]!);
    const width = isAlongX || isRoot ? roomX : tree.width[node]!;
    const height = isAlongX && !isRoot ? tree.height[node]! : roomY;
    const deepest = this.#limits.depth - 1 - tree.depth[node]!;
    this.#bestSlot = -1;
    this.#bestMerit = Number.NEGATIVE_INFINITY;
    this.work += kindCount;
    for (let slot = 0; slot < kindCount; slot++) {
      const kind = kinds[slot]!;
      if (counts[slot] === 0 || this.#inner[kind]! > deepest) continue;
      for (let box = 2 * kind; box <= 2 * kind + 1; box++) {
        const spareX = width - stock.boxWidth[box]!;
        const spareY = height - stock.boxHeight[box]!;
        if (spareX < 0 || spareY < 0) continue;
        const gap = isAlongX ? spareY : spareX;
        let merit = wanted[slot]!;
        if (!isRoot) {
          merit -= this.#againstGap * (gap / (isAlongX ? height : width));
          if (gap === 0) merit += this.#forFlush;
        }
        if ((isAlongX ? spareX : spareY) === 0) merit += this.#forFlushAcross;
        if (merit > this.#bestMerit) {
          this.#bestMerit = merit;
          this.#bestSlot = slot;
          this.#bestBox = box;
        }
      }
    }
  }

  #place(stock: BoxStock, node: number): void {
    const w = stock.boxWidth[this.#bestBox]!;
    const h = stock.boxHeight[this.#bestBox]!;
    const kind = this.#bestBox >> 1;
    if (this.placedCount === this.placed.length) {
      const larger = new Int32Array(2 * this.placed.length);
      larger.set(this.placed);
      this.placed = larger;
    }
    this.placed[this.placedCount++] = codeOf(kind, this.#bestBox & 1);
    const { counts } = this.remaining;
    counts[this.#bestSlot] = counts[this.#bestSlot]! - 1;
    this.area += w * h;
    this.work += 2 * this.#tree.count;
    this.#tree.insert(node, w, h, this.#inner[kind]!);
  }
}
