// Puts boxes into slicing trees, one after the other.
// Idea: each box in turn goes to the node of all trees where its rule likes it best; a box that fits nowhere is left out, and as soon as the boxes left out
//   cost more than the limit the try is given up.
// Source: orders as the thing searched: Hopper & Turton 2001, EJOR 128, section 4. The rules are the usual ones for free rectangles, here for nodes.
// Where we differ: cuts stay open while boxes are added (slicing-tree.ts), so no rule has to guess which way to split what is left.
// Cost: boxes times nodes; allocation-free after the first growth.
// Degenerate cases: no trees: all boxes are left out.
import { NO_BOX } from '../rectangles/box-task.ts';
import { codeOf } from '../rectangles/code.ts';
import type { Costs, Decoded } from '../rectangles/decoded.ts';
import { COLUMN, ROW } from './direction.ts';
import type { Ground } from './ground.ts';
import type { SlicingTree, TreeLimits } from './slicing-tree.ts';
import { GONE, LEAF, NONE } from './tree-nodes.ts';

/** How a place is chosen. */
const LEAST_LOCKED = 0;
const SHORT_SIDE = 1;
const LEAST_ROOM = 2;
/** The last one: boxes level with their neighbours. */
export const PLACE_RULES = 4;
/** Into the newest strip that need not grow for it, else as a new strip, else where it locks least. */
export const IN_STRIPS = PLACE_RULES;

/** Of more children of a row or column no pairs are looked at. */
const MOST_PAIRED = 10;

/** What stands for all there is in place of a node. */
const BESIDE_ALL = -2;
const NOWHERE = -1;

/** The class guards that every box told as placed has its leaf. */
export class TreeFiller {
  /** The leaf of each box placed, and the index of its ground. */
  leafOf = new Int32Array(64);
  groundOf = new Int32Array(64);
  /** Work done so far: looking at two nodes is a unit. */
  work = 0;
  readonly #limits: TreeLimits;
  /** Rows and columns within the box of each kind. */
  readonly #inner: Uint8Array;
  readonly #costs: Costs;
  readonly #into: Decoded;
  readonly #failedIn: Int32Array;
  #run = 0;
  // The best place found so far for the box in hand.
  #bestGround = 0;
  #bestNode = NOWHERE;
  #bestPartner = NONE;
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

  /** Nothing is placed; `length` boxes are to come. */
  begin(length: number): void {
    this.#into.begin(length);
    this.#run++;
    if (this.leafOf.length >= length) return;
    this.leafOf = new Int32Array(2 * length);
    this.groundOf = new Int32Array(2 * length);
  }

  /** Whether the boxes left out cost at most `limit`. A box may also be put beside two children of a row or column together, where that is wanted. */
  fill(
    grounds: readonly Ground[],
    order: Int32Array,
    length: number,
    rule: number,
    limit: number,
    mayGroup = false,
  ): boolean {
    this.begin(length);
    const failedIn = this.#failedIn;
    for (let i = 0; i < length; i++) {
      const code = order[i]!;
      if (failedIn[code] !== this.#run) {
        this.#bestNode = NOWHERE;
        this.#bestValue = Number.POSITIVE_INFINITY;
        this.#seek(grounds, code, rule, mayGroup);
        if (this.#bestNode !== NOWHERE) {
          this.#place(grounds);
          continue;
        }
        // Room only shrinks, so the same code need not be tried again on these sheets.
        failedIn[code] = this.#run;
      }
      this.#into.leaveOut(code, this.#costs.ofKind[code >> 2]!);
      if (this.#into.leftCost > limit) return false;
    }
    return true;
  }

  /** Puts a box into a node of a ground. */
  insert({ tree, stock }: Ground, index: number, node: number, box: number): void {
    const w = stock.boxWidth[box]!;
    const h = stock.boxHeight[box]!;
    const kind = box >> 1;
    const code = codeOf(kind, box & 1);
    this.work += tree.count;
    const k = this.#into.placedCount;
    this.leafOf[k] = tree.insert(node, w, h, code, this.#inner[kind]!);
    this.groundOf[k] = index;
    this.#into.place(code, 0, 0, w * h);
  }

  /** Finds the best place of a box, or of two of one kind. */
  #seek(grounds: readonly Ground[], code: number, rule: number, mayGroup: boolean): void {
    const lie = code & 3;
    const first = (code >> 2) * 2 + (lie === 1 ? 1 : 0);
    for (let g = 0; g < grounds.length; g++) {
      const { tree, stock } = grounds[g]!;
      const { boxWidth, boxHeight } = stock;
      const isEither = lie !== 0 && lie !== 1 && boxWidth[first + 1] !== NO_BOX;
      const last = isEither ? first + 1 : first;
      const { count, freeX, freeY } = tree;
      this.work += ((last - first + 1) * count) / 2;
      for (let node = 0; node < count; node++) {
        for (let box = first; box <= last; box++) {
          const w = boxWidth[box]!;
          const h = boxHeight[box]!;
          const spareX = freeX[node]! - w;
          const spareY = freeY[node]! - h;
          if (spareX >= 0 && spareY >= 0)
            this.#weigh(g, tree, node, box, w, h, spareX, spareY, rule);
        }
      }
      for (let box = first; mayGroup && box <= last; box++)
        this.#seekPairs(g, tree, box, boxWidth[box]!, boxHeight[box]!, rule);
      if (this.#bestNode !== NOWHERE || !tree.canTurn()) continue;
      for (let box = first; box <= last; box++)
        this.#seekBesideAll(g, tree, box, boxWidth[box]!, boxHeight[box]!);
    }
  }

  /** Keeps the place if the rule likes it better than the best so far. */
  #weigh(
    ground: number,
    tree: SlicingTree,
    node: number,
    box: number,
    w: number,
    h: number,
    spareX: number,
    spareY: number,
    rule: number,
  ): void {
    const { joins, depth, width, height } = tree;
    if (depth[node]! >= this.#limits.depth - this.#inner[box >> 1]!) return;
    const isAlongX = joins[node] === ROW;
    const nodeW = width[node]!;
    const nodeH = height[node]!;
    const locked = isAlongX ? lockedBeside(nodeH, nodeW, h, w) : lockedBeside(nodeW, nodeH, w, h);
    if (rule === IN_STRIPS) {
      const isStrip = depth[node] === 1 && (isAlongX ? h <= nodeH : w <= nodeW);
      const value = isStrip ? -1 - node : node === tree.root ? 0 : 1 + locked;
      this.#offer(ground, node, NONE, box, value, Math.min(spareX, spareY));
      return;
    }
    const isLevel = isAlongX ? nodeH === h : nodeW === w;
    const value = dislikeOf(rule, locked, isLevel, w, h, spareX, spareY);
    const tie = rule === LEAST_LOCKED ? Math.min(spareX, spareY) : locked;
    this.#offer(ground, node, NONE, box, value, tie);
  }

  /** The same for places across two children of a row or column. */
  #seekPairs(
    ground: number,
    tree: SlicingTree,
    box: number,
    w: number,
    h: number,
    rule: number,
  ): void {
    const { kind, width, height, roomX, roomY, first, next } = tree;
    for (let node = 0; node < tree.count; node++) {
      if (kind[node] === LEAF || kind[node] === GONE || !hasAFew(tree, node)) continue;
      // Lengths go along the row or column, depths across it.
      const isRow = kind[node] === ROW;
      const [long, deep, roomLong, roomDeep] = isRow
        ? [width, height, roomX, roomY]
        : [height, width, roomY, roomX];
      const [boxLong, boxDeep] = isRow ? [w, h] : [h, w];
      const spareLong = roomLong[node]! - long[node]! - boxLong;
      const spareDeep = roomDeep[node]! - boxDeep;
      for (let a = first[node]!; a !== NONE; a = next[a]!) {
        for (let b = next[a]!; b !== NONE; b = next[b]!) {
          this.work += 0.5;
          const pairLong = long[a]! + long[b]!;
          const pairDeep = Math.max(deep[a]!, deep[b]!);
          const along = spareLong + pairLong;
          const across = spareDeep - pairDeep;
          if (along < 0 || across < 0) continue;
          const uneven = (2 * pairDeep - deep[a]! - deep[b]!) * long[deep[a]! < deep[b]! ? a : b]!;
          const locked = uneven + lockedBeside(pairLong, pairDeep, boxLong, boxDeep);
          const isLevel = pairLong === boxLong;
          const value = dislikeOf(rule, locked, isLevel, boxLong, boxDeep, along, across);
          const tie = rule === LEAST_LOCKED ? Math.min(along, across) : locked;
          this.#offer(ground, a, b, box, value, tie);
        }
      }
    }
  }

  #offer(
    ground: number,
    node: number,
    partner: number,
    box: number,
    value: number,
    tie: number,
  ): void {
    if (value > this.#bestValue || (value === this.#bestValue && tie >= this.#bestTie)) return;
    this.#bestValue = value;
    this.#bestTie = tie;
    this.#bestGround = ground;
    this.#bestNode = node;
    this.#bestPartner = partner;
    this.#bestBox = box;
  }

  /** Only where no node has room: another root cannot be undone. */
  #seekBesideAll(ground: number, tree: SlicingTree, box: number, w: number, h: number): void {
    const { root } = tree;
    if (this.#inner[box >> 1]! >= this.#limits.depth) return;
    const isAlongX = tree.kind[root] === COLUMN;
    if (w + (isAlongX ? tree.width[root]! : 0) > tree.roomX[root]!) return;
    if (h + (isAlongX ? 0 : tree.height[root]!) > tree.roomY[root]!) return;
    this.#bestGround = ground;
    this.#bestNode = BESIDE_ALL;
    this.#bestPartner = NONE;
    this.#bestBox = box;
  }

  /** Lays the box just found down. */
  #place(grounds: readonly Ground[]): void {
    const ground = grounds[this.#bestGround]!;
    const { tree } = ground;
    if (this.#bestNode === BESIDE_ALL) tree.turn();
    const node = this.#bestNode === BESIDE_ALL ? tree.root : this.#bestNode;
    const within = this.#bestPartner === NONE ? node : tree.group(node, this.#bestPartner);
    this.insert(ground, this.#bestGround, within, this.#bestBox);
  }
}

/** Area that is lost beside a box, or beside what it is put to; lengths are along the side that they share. */
function lockedBeside(long: number, deep: number, boxLong: number, boxDeep: number): number {
  return long > boxLong ? (long - boxLong) * boxDeep : (boxLong - long) * deep;
}

/** How little a rule likes a place. */
function dislikeOf(
  rule: number,
  locked: number,
  isLevel: boolean,
  w: number,
  h: number,
  spareX: number,
  spareY: number,
): number {
  if (rule === LEAST_LOCKED) return locked;
  if (rule === SHORT_SIDE) return Math.min(spareX, spareY);
  if (rule === LEAST_ROOM) return (spareX + w) * (spareY + h);
  return -(isLevel ? 2 : 0) - (spareX === 0 ? 1 : 0) - (spareY === 0 ? 1 : 0);
}

/** Whether a row or column has more than two children, but not so many that their pairs are many. */
function hasAFew({ first, next }: SlicingTree, node: number): boolean {
  let count = 0;
  for (let child = first[node]!; child !== NONE && count <= MOST_PAIRED; child = next[child]!)
    count++;
  return count > 2 && count <= MOST_PAIRED;
}
