// A tree of cuts over a sheet, of which only the order of the cuts is fixed, not where they run.
// Idea: a leaf is a box, a row has its children side by side, a column one above the other, and rows and columns take turns on the way down. Each node
//   knows the smallest box round its leaves and the largest that there is room for; a box may join any row or column, or share the place of any leaf,
//   as long as it fits. So every cut keeps moving until the sheet is full.
// Source: slicing trees are those of Wong & Liu 1986, "A new algorithm for floorplan design", 23rd Design Automation Conference; leaving the cuts open
//   while boxes are added is ours.
// Cost: the room of all nodes is renewed after each box; meant for some tens of boxes on a sheet.
// Degenerate cases: an empty sheet is a row or column without children; in a tree of the least depth boxes go into the root only.

import { COLUMN, type Direction, ROW } from './direction.ts';
import type { Panel } from './panels.ts';

const LEAF = 0;
const NONE = -1;

/** How the cuts of a machine are limited. */
export interface TreeLimits {
  /** How many rows and columns may be one within the other. */
  readonly depth: number;
  /** Longest cuts along x and along y. */
  readonly alongX: number;
  readonly alongY: number;
  /** Whether the first cuts run as they are told to; else a tree may get another root. */
  readonly isRootFixed: boolean;
  /** What is narrower comes first in its row or column: where it is measured from the far edge, wider strips before it would take the rest off its size. */
  readonly narrow: number;
}

/** Longer than any sheet, deeper than any tree. */
export const NO_LIMIT = 2 ** 30;

/** Any cut may be made. */
export const NO_TREE_LIMITS: TreeLimits = {
  depth: NO_LIMIT,
  alongX: NO_LIMIT,
  alongY: NO_LIMIT,
  isRootFixed: false,
  narrow: 0,
};

/** The class guards the agreement between the links, the smallest boxes and the room of all nodes. Nodes are numbered from 0 as they come. */
export class SlicingTree {
  count = 0;
  root = 0;
  kind = new Uint8Array(64);
  /** The direction in which a box joins the node, beside its children or, of a leaf, beside itself; 0 where it may not. */
  joins = new Uint8Array(64);
  /** Rows and columns above a node; of a leaf with those inside its box. */
  depth = new Int32Array(64);
  /** Of the smallest box round the leaves. */
  width = new Int32Array(64);
  height = new Int32Array(64);
  /** Of the largest box that there is room for. */
  roomX = new Int32Array(64);
  roomY = new Int32Array(64);
  /** Of the largest box that may join the node; negative where none may. */
  freeX = new Int32Array(64);
  freeY = new Int32Array(64);
  /** The lower-left corner, once the tree is settled. */
  x = new Int32Array(64);
  y = new Int32Array(64);
  #parent = new Int32Array(64);
  #first = new Int32Array(64);
  #last = new Int32Array(64);
  #next = new Int32Array(64);
  #levels = 1;
  #mayTurn = true;
  readonly #limits: TreeLimits;

  constructor(limits: TreeLimits) {
    this.#limits = limits;
  }

  /** An empty panel that is to take `most` boxes at most; false where its first cuts would be too long. */
  begin(
    { direction, depth, mayTurn }: Pick<Panel, 'direction' | 'depth' | 'mayTurn'>,
    width: number,
    height: number,
    most: number,
  ): boolean {
    this.#mayTurn = mayTurn;
    if (this.kind.length < 3 * most + 3) this.#enlarge(6 * most + 6);
    this.count = 0;
    this.#levels = depth + 1;
    this.root = this.#add(direction, NONE, depth);
    this.roomX[0] = width;
    this.roomY[0] = height;
    this.#free(0);
    return this.#isShort(direction);
  }

  /** Whether a box may be put beside all there is, across the direction of the root. */
  canTurn(): boolean {
    const { isRootFixed, depth } = this.#limits;
    return (
      this.#mayTurn &&
      !isRootFixed &&
      this.#levels < depth &&
      this.#isShort(across(this.kind[this.root]!))
    );
  }

  /** A new root of the other direction with all there is as its child. */
  turn(): void {
    const old = this.root;
    const direction = across(this.kind[old]!);
    for (let node = 0; node < this.count; node++) this.#lower(node);
    const root = this.#add(direction, NONE, 0);
    this.roomX[root] = this.roomX[old]!;
    this.roomY[root] = this.roomY[old]!;
    this.#append(root, old);
    this.width[root] = this.width[old]!;
    this.height[root] = this.height[old]!;
    this.root = root;
  }

  /** Puts a box into a row or column, or beside a leaf whose place it shares; there must be room. `inner` counts the rows and columns within the box. Returns its leaf. */
  insert(node: number, width: number, height: number, inner: number): number {
    const within = this.kind[node] === LEAF ? this.#share(node) : node;
    const leaf = this.#add(LEAF, within, this.depth[within]! + 1 + inner);
    this.width[leaf] = width;
    this.height[leaf] = height;
    this.#levels = Math.max(this.#levels, this.depth[leaf]!);
    this.#append(within, leaf);
    this.#spread(this.#grow(within, width, height));
    return leaf;
  }

  /** Gives every node its place, from the lower-left corner of the panel. */
  settle(left: number, bottom: number): void {
    if (this.#limits.narrow > 0) this.#narrowFirst();
    const { x, y, width, height } = this;
    let node = this.root;
    x[node] = left;
    y[node] = bottom;
    for (;;) {
      const child = this.#first[node]!;
      if (child !== NONE) {
        x[child] = x[node]!;
        y[child] = y[node]!;
        node = child;
        continue;
      }
      while (node !== this.root && this.#next[node] === NONE) node = this.#parent[node]!;
      if (node === this.root) return;
      const next = this.#next[node]!;
      const isRow = this.kind[this.#parent[node]!] === ROW;
      x[next] = isRow ? x[node]! + width[node]! : x[node]!;
      y[next] = isRow ? y[node]! : y[node]! + height[node]!;
      node = next;
    }
  }

  #isShort(direction: Direction): boolean {
    const { alongX, alongY } = this.#limits;
    return direction === ROW ? this.roomY[this.root]! <= alongY : this.roomX[this.root]! <= alongX;
  }

  #narrowFirst(): void {
    const { narrow } = this.#limits;
    for (let parent = 0; parent < this.count; parent++) {
      const size = this.kind[parent] === ROW ? this.width : this.height;
      const children: number[] = [];
      for (let child = this.#first[parent]!; child !== NONE; child = this.#next[child]!)
        children.push(child);
      if (!children.some((child, i) => i > 0 && size[child]! < narrow)) continue;
      children.sort((a, b) => Number(size[b]! < narrow) - Number(size[a]! < narrow));
      this.#first[parent] = children[0]!;
      children.forEach((child, i) => {
        this.#next[child] = children[i + 1] ?? NONE;
      });
      this.#last[parent] = children.at(-1)!;
    }
  }

  /** A row or column takes the place of a leaf, which becomes its child. */
  #share(leaf: number): number {
    const parent = this.#parent[leaf]!;
    const node = this.#add(across(this.kind[parent]!), parent, this.depth[parent]! + 1);
    if (this.#first[parent] === leaf) this.#first[parent] = node;
    else {
      let before = this.#first[parent]!;
      while (this.#next[before] !== leaf) before = this.#next[before]!;
      this.#next[before] = node;
    }
    if (this.#last[parent] === leaf) this.#last[parent] = node;
    this.#next[node] = this.#next[leaf]!;
    this.#next[leaf] = NONE;
    this.joins[leaf] = this.kind[parent]!;
    this.#lower(leaf);
    this.#append(node, leaf);
    this.width[node] = this.width[leaf]!;
    this.height[node] = this.height[leaf]!;
    this.roomX[node] = this.roomX[leaf]!;
    this.roomY[node] = this.roomY[leaf]!;
    this.#cap(node);
    return node;
  }

  #lower(node: number): void {
    const depth = this.depth[node]! + 1;
    this.depth[node] = depth;
    this.#levels = Math.max(this.#levels, depth);
    if (this.kind[node] === LEAF && depth >= this.#limits.depth) this.joins[node] = 0;
  }

  #append(parent: number, child: number): void {
    this.#parent[child] = parent;
    const last = this.#last[parent]!;
    if (last === NONE) this.#first[parent] = child;
    else this.#next[last] = child;
    this.#last[parent] = child;
  }

  /** A row or column, and all that it lies in, grows by a box that joined it; returns the topmost node that grew. */
  #grow(within: number, addedWidth: number, addedHeight: number): number {
    const { kind, width, height } = this;
    let w = addedWidth;
    let h = addedHeight;
    let lastW = 0;
    let lastH = 0;
    let top = within;
    for (let node = within; node !== NONE; node = this.#parent[node]!) {
      const oldW = width[node]!;
      const oldH = height[node]!;
      if (kind[node] === ROW) {
        w = oldW + w - lastW;
        h = Math.max(oldH, h);
      } else {
        w = Math.max(oldW, w);
        h = oldH + h - lastH;
      }
      if (w === oldW && h === oldH) break;
      top = node;
      width[node] = w;
      height[node] = h;
      lastW = oldW;
      lastH = oldH;
    }
    return top;
  }

  /** The room anew below a node: what is spare along a row or column is spare for each of its children. Above and beside it nothing changed. */
  #spread(top: number): void {
    const { kind, width, height, roomX, roomY } = this;
    this.#free(top);
    let node = top;
    for (;;) {
      let child = this.#first[node]!;
      if (child === NONE) {
        while (node !== top && this.#next[node] === NONE) node = this.#parent[node]!;
        if (node === top) return;
        child = this.#next[node]!;
      }
      const parent = this.#parent[child]!;
      if (kind[parent] === ROW) {
        roomX[child] = width[child]! + roomX[parent]! - width[parent]!;
        roomY[child] = roomY[parent]!;
      } else {
        roomX[child] = roomX[parent]!;
        roomY[child] = height[child]! + roomY[parent]! - height[parent]!;
      }
      if (kind[child] !== LEAF) this.#cap(child);
      this.#free(child);
      node = child;
    }
  }

  /** A column is cut along x, over its whole width, and a row along y. */
  #cap(node: number): void {
    const { alongX, alongY } = this.#limits;
    if (this.kind[node] === COLUMN) this.roomX[node] = Math.min(this.roomX[node]!, alongX);
    else this.roomY[node] = Math.min(this.roomY[node]!, alongY);
  }

  /** What may join a node, now that its room is known. */
  #free(node: number): void {
    const joins = this.joins[node]!;
    this.freeX[node] =
      joins === 0 ? -1 : this.roomX[node]! - (joins === ROW ? this.width[node]! : 0);
    this.freeY[node] =
      joins === 0 ? -1 : this.roomY[node]! - (joins === ROW ? 0 : this.height[node]!);
  }

  #add(kind: typeof LEAF | Direction, parent: number, depth: number): number {
    const node = this.count++;
    this.kind[node] = kind;
    this.depth[node] = depth;
    const isOpenLeaf = parent !== NONE && depth < this.#limits.depth;
    this.joins[node] = kind !== LEAF ? kind : isOpenLeaf ? across(this.kind[parent]!) : 0;
    this.width[node] = 0;
    this.height[node] = 0;
    this.#parent[node] = parent;
    this.#first[node] = NONE;
    this.#last[node] = NONE;
    this.#next[node] = NONE;
    return node;
  }

  #enlarge(size: number): void {
    this.kind = new Uint8Array(size);
    this.joins = new Uint8Array(size);
    const lists = [
      'depth',
      'width',
      'height',
      'roomX',
      'roomY',
      'freeX',
      'freeY',
      'x',
      'y',
    ] as const;
    for (const list of lists) this[list] = new Int32Array(size);
    this.#parent = new Int32Array(size);
    this.#first = new Int32Array(size);
    this.#last = new Int32Array(size);
    this.#next = new Int32Array(size);
  }
}

function across(direction: number): Direction {
  return direction === ROW ? COLUMN : ROW;
}
