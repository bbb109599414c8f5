// Lays boxes on one sheet in a given order so that a saw can part them from edge to edge.
// Idea: a sheet is kept as an order of boxes and a rule. Each box in turn goes into the slicing tree where its rule likes it best; a box that fits nowhere
//   is left out, and as soon as the boxes left out cost more than the limit the try is given up.
// Source: orders as the thing searched: Hopper & Turton 2001, EJOR 128, section 4. The rules are the usual ones for free rectangles, here for nodes.
// Where we differ: cuts stay open while boxes are added (slicing-tree.ts), so no rule has to guess which way to split what is left.
// Cost: boxes times nodes; allocation-free after the first growth.
// Degenerate cases: what no cut may cross is cut away first, so a sheet may be several panels; an empty order is a sheet with nothing on it.
import { type BoxStock, NO_BOX } from '../rectangles/box-task.ts';
import { codeOf } from '../rectangles/code.ts';
import type { Costs, Decoded } from '../rectangles/decoded.ts';
import { NONE_LEFT } from '../rectangles/rules.ts';
import { COLUMN, type Direction, ROW } from './direction.ts';
import { SlicingTree, type TreeLimits } from './slicing-tree.ts';

/** How a place is chosen; the first direction of the cuts comes on top. */
const LEAST_LOCKED = 0;
const SHORT_SIDE = 1;
const LEAST_ROOM = 2;
/** The last one: boxes level with their neighbours. */
const PLACE_RULES = 4;
/** Into the newest strip that need not grow for it, else as a new strip, else where it locks least. */
const IN_STRIPS = PLACE_RULES;

/** Place rules with a row as the root, then the same with a column. */
export const SAW_RULE_COUNT = 2 * PLACE_RULES;
/** Rules that lay out again what was made strip by strip: strips one above the other, and strips side by side. */
export const STRIPS_UPWARDS = SAW_RULE_COUNT;
export const STRIPS_SIDEWAYS = SAW_RULE_COUNT + 1;

/** What stands for all there is in place of a node. */
const BESIDE_ALL = -2;
const NOWHERE = -1;

/** The class guards the agreement between the trees of the panels and the boxes placed. */
export class SlicingDecoder {
  readonly #limits: TreeLimits;
  /** Rows and columns within the box of each kind. */
  readonly #inner: Uint8Array;
  readonly #costs: Costs;
  readonly #into: Decoded;
  readonly #failedIn: Int32Array;
  readonly #trees: SlicingTree[] = [];
  #open = 0;
  /** The leaf of each box placed, and its tree. */
  #leafOf = new Int32Array(64);
  #treeOf = new Int32Array(64);
  #run = 0;
  /** Nodes looked at so far, for counted work. */
  work = 0;
  // The best place found so far for the box in hand.
  #bestTree = 0;
  #bestNode = NOWHERE;
  #bestBox = 0;
  #bestValue = 0;
  #bestTie = 0;

  constructor(limits: TreeLimits, inner: Uint8Array, costs: Costs, into: Decoded) {
    this.#limits = limits;
    this.#inner = inner;
    this.#failedIn = new Int32Array(4 * inner.length);
    this.#costs = costs;
    this.#into = into;
  }

  /** Whether the boxes left out cost at most `limit`; `width` and `height` cut the sheet short. Places are told only where all had to find room. */
  decode(
    stock: BoxStock,
    order: Int32Array,
    length: number,
    rule: number,
    limit: number,
    width: number,
    height: number,
  ): boolean {
    const direction = rule < PLACE_RULES || rule === STRIPS_SIDEWAYS ? ROW : COLUMN;
    const placeRule = rule < SAW_RULE_COUNT ? rule % PLACE_RULES : IN_STRIPS;
    this.#begin(stock, length, direction, width, height);
    const failedIn = this.#failedIn;
    for (let i = 0; i < length; i++) {
      const code = order[i]!;
      if (failedIn[code] !== this.#run) {
        const lie = code & 3;
        const first = (code >> 2) * 2 + (lie === 1 ? 1 : 0);
        const isEither = lie !== 0 && lie !== 1 && stock.boxWidth[first + 1] !== NO_BOX;
        this.#bestNode = NOWHERE;
        this.#bestValue = Number.POSITIVE_INFINITY;
        this.#seek(stock, first, isEither ? first + 1 : first, placeRule);
        if (this.#bestNode !== NOWHERE) {
          this.#place(stock);
          continue;
        }
        // Room only shrinks, so the same code need not be tried again on this sheet.
        failedIn[code] = this.#run;
      }
      this.#into.leaveOut(code, this.#costs.ofKind[code >> 2]!);
      if (this.#into.leftCost > limit) return false;
    }
    // Nobody asks for places while boxes may be left out.
    if (limit === NONE_LEFT) this.#settle(stock, direction);
    return true;
  }

  #begin(
    stock: BoxStock,
    length: number,
    direction: Direction,
    width: number,
    height: number,
  ): void {
    this.#into.begin(length);
    this.#run++;
    if (this.#leafOf.length < length) {
      this.#leafOf = new Int32Array(2 * length);
      this.#treeOf = new Int32Array(2 * length);
    }
    this.#open = 0;
    for (const panel of stock.panels[direction]) {
      while (this.#trees.length <= this.#open) this.#trees.push(new SlicingTree(this.#limits));
      const tree = this.#trees[this.#open]!;
      const w = Math.min(panel.maxX, width) - panel.minX;
      const h = Math.min(panel.maxY, height) - panel.minY;
      const isShort = tree.begin(panel, Math.max(0, w), Math.max(0, h), length);
      // A panel that cannot be cut takes nothing.
      if (!isShort) tree.freeX[tree.root] = -1;
      this.#open++;
    }
  }

  /** Finds the best place of a box, or of two of one kind. */
  #seek(stock: BoxStock, first: number, last: number, rule: number): void {
    const { boxWidth, boxHeight } = stock;
    for (let t = 0; t < this.#open; t++) {
      const tree = this.#trees[t]!;
      const { count, freeX, freeY } = tree;
      this.work += (last - first + 1) * count;
      for (let node = 0; node < count; node++) {
        for (let box = first; box <= last; box++) {
          const w = boxWidth[box]!;
          const h = boxHeight[box]!;
          const spareX = freeX[node]! - w;
          const spareY = freeY[node]! - h;
          if (spareX >= 0 && spareY >= 0) this.#weigh(t, node, box, w, h, spareX, spareY, rule);
        }
      }
      if (this.#bestNode !== NOWHERE || !tree.canTurn()) continue;
      for (let box = first; box <= last; box++)
        this.#seekBesideAll(t, box, boxWidth[box]!, boxHeight[box]!);
    }
  }

  /** Keeps the place if the rule likes it better than the best so far. */
  #weigh(
    t: number,
    node: number,
    box: number,
    w: number,
    h: number,
    spareX: number,
    spareY: number,
    rule: number,
  ): void {
    const { joins, depth, width, height } = this.#trees[t]!;
    if (depth[node]! >= this.#limits.depth - this.#inner[box >> 1]!) return;
    const isAlongX = joins[node] === ROW;
    const nodeW = width[node]!;
    const nodeH = height[node]!;
    // Area that is lost beside the box, or beside what was there.
    const locked = isAlongX
      ? nodeH > h
        ? (nodeH - h) * w
        : (h - nodeH) * nodeW
      : nodeW > w
        ? (nodeW - w) * h
        : (w - nodeW) * nodeH;
    let value = 0;
    let tie = 0;
    switch (rule) {
      case LEAST_LOCKED:
        value = locked;
        tie = Math.min(spareX, spareY);
        break;
      case SHORT_SIDE:
        value = Math.min(spareX, spareY);
        tie = locked;
        break;
      case LEAST_ROOM:
        value = (spareX + w) * (spareY + h);
        tie = locked;
        break;
      case IN_STRIPS: {
        const isStrip = depth[node] === 1 && (isAlongX ? h <= nodeH : w <= nodeW);
        value = isStrip ? -1 - node : node === this.#trees[t]!.root ? 0 : 1 + locked;
        tie = Math.min(spareX, spareY);
        break;
      }
      default: {
        const isLevel = isAlongX ? nodeH === h : nodeW === w;
        value = -(isLevel ? 2 : 0) - (spareX === 0 ? 1 : 0) - (spareY === 0 ? 1 : 0);
        tie = locked;
      }
    }
    if (value < this.#bestValue || (value === this.#bestValue && tie < this.#bestTie)) {
      this.#bestValue = value;
      this.#bestTie = tie;
      this.#bestTree = t;
      this.#bestNode = node;
      this.#bestBox = box;
    }
  }

  /** Only where no node has room: another root cannot be undone. */
  #seekBesideAll(t: number, box: number, w: number, h: number): void {
    const tree = this.#trees[t]!;
    const { root } = tree;
    if (this.#inner[box >> 1]! >= this.#limits.depth) return;
    const isAlongX = tree.kind[root] === COLUMN;
    if (w + (isAlongX ? tree.width[root]! : 0) > tree.roomX[root]!) return;
    if (h + (isAlongX ? 0 : tree.height[root]!) > tree.roomY[root]!) return;
    this.#bestTree = t;
    this.#bestNode = BESIDE_ALL;
    this.#bestBox = box;
  }

  /** Lays the box just found down. */
  #place(stock: BoxStock): void {
    const w = stock.boxWidth[this.#bestBox]!;
    const h = stock.boxHeight[this.#bestBox]!;
    const tree = this.#trees[this.#bestTree]!;
    if (this.#bestNode === BESIDE_ALL) tree.turn();
    const node = this.#bestNode === BESIDE_ALL ? tree.root : this.#bestNode;
    this.work += tree.count;
    const k = this.#into.placedCount;
    this.#leafOf[k] = tree.insert(node, w, h, this.#inner[this.#bestBox >> 1]!);
    this.#treeOf[k] = this.#bestTree;
    this.#into.place(codeOf(this.#bestBox >> 1, this.#bestBox & 1), 0, 0, w * h);
  }

  /** Only now is it known where the cuts run. */
  #settle(stock: BoxStock, direction: Direction): void {
    const panels = stock.panels[direction];
    for (let t = 0; t < this.#open; t++) this.#trees[t]!.settle(panels[t]!.minX, panels[t]!.minY);
    const { placedCount, placedX, placedY } = this.#into;
    for (let k = 0; k < placedCount; k++) {
      const tree = this.#trees[this.#treeOf[k]!]!;
      placedX[k] = tree.x[this.#leafOf[k]!]!;
      placedY[k] = tree.y[this.#leafOf[k]!]!;
    }
  }
}
