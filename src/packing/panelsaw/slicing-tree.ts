// A tree of cuts over a sheet, of which only the order of the cuts is fixed, not where they run.
// Idea: a leaf is a box, a row has its children side by side, a column one above the other, and rows and columns take turns on the way down. Each node
//   knows the smallest box round its leaves and the largest that there is room for; a box may join any row or column, or share the place of any leaf,
//   as long as it fits. So every cut keeps moving until the sheet is full.
// Source: slicing trees are those of Wong & Liu 1986, "A new algorithm for floorplan design", 23rd Design Automation Conference; leaving the cuts open
//   while boxes are added is ours.
// Cost: the room of all nodes is renewed after each box; meant for some tens of boxes on a sheet.
// Degenerate cases: an empty sheet is a row or column without children; in a tree of the least depth boxes go into the root only.

import { across, COLUMN, type Direction, ROW } from './direction.ts';
import type { Panel } from './panels.ts';
import { GONE, LEAF, NONE, TreeNodes } from './tree-nodes.ts';

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

/** The class guards the agreement between the links, the smallest boxes and the room of all nodes. */
export class SlicingTree extends TreeNodes {
  #levels = 1;
  #mayTurn = true;
  readonly #limits: TreeLimits;

  constructor(limits: TreeLimits) {
    super();
    this.#limits = limits;
  }

  /** An empty panel; false where its first cuts would be too long. */
  begin(
    { direction, depth, mayTurn }: Pick<Panel, 'direction' | 'depth' | 'mayTurn'>,
    width: number,
    height: number,
  ): boolean {
    this.#mayTurn = mayTurn;
    this.clear();
    this.root = this.#add(direction, NONE, depth);
    this.renew(width, height);
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
    for (let node = 0; node < this.count; node++) {
      if (this.kind[node] !== GONE) this.#lower(node);
    }
    const root = this.#add(direction, NONE, 0);
    this.roomX[root] = this.roomX[old]!;
    this.roomY[root] = this.roomY[old]!;
    this.append(root, old);
    this.width[root] = this.width[old]!;
    this.height[root] = this.height[old]!;
    this.root = root;
  }

  /** Puts a box into a row or column, or beside a leaf whose place it shares; there must be room. `inner` counts the rows and columns within the box. Returns its leaf. */
  insert(node: number, width: number, height: number, code: number, inner: number): number {
    const within = this.kind[node] === LEAF ? this.#share(node) : node;
    const leaf = this.#add(LEAF, within, this.depth[within]! + 1 + inner);
    this.code[leaf] = code;
    this.inner[leaf] = inner;
    this.width[leaf] = width;
    this.height[leaf] = height;
    this.#levels = Math.max(this.#levels, this.depth[leaf]!);
    this.append(within, leaf);
    this.#spread(this.#grow(within, width, height));
    return leaf;
  }

  /** Two children of a row or column, side by side in it, become one that boxes may be put across; only where depths do not count. Returns the node that takes such a box. */
  group(a: number, b: number): number {
    const parent = this.parent[a]!;
    const kind = this.kind[parent] as Direction;
    const node = this.#add(across(kind), parent, this.depth[parent]! + 1);
    const pair = this.#add(kind, node, this.depth[node]! + 1);
    this.replace(a, node);
    this.append(node, pair);
    this.append(pair, a);
    this.detach(b);
    this.append(pair, b);
    this.#measure(node);
    const isRow = kind === ROW;
    this.roomX[node] = this.roomX[parent]! - (isRow ? this.width[parent]! - this.width[node]! : 0);
    this.roomY[node] =
      this.roomY[parent]! - (isRow ? 0 : this.height[parent]! - this.height[node]!);
    this.#cap(node);
    return node;
  }

  /** Depths, sizes and room anew, in a panel of the given size: after nodes were taken out. */
  renew(width: number, height: number): void {
    const { root } = this;
    this.#levels = this.depth[root]! + 1;
    this.roomX[root] = width;
    this.roomY[root] = height;
    this.#measure(root);
    this.#spread(root);
  }

  /** Becomes like another tree of the same limits. */
  copyFrom(other: SlicingTree): void {
    this.copyNodes(other);
    this.#levels = other.#levels;
    this.#mayTurn = other.#mayTurn;
  }

  /** Gives every node its place, from the lower-left corner of the panel. */
  settle(left: number, bottom: number): void {
    if (this.#limits.narrow > 0) this.#narrowFirst();
    const { x, y, width, height } = this;
    let node = this.root;
    x[node] = left;
    y[node] = bottom;
    for (;;) {
      const child = this.first[node]!;
      if (child !== NONE) {
        x[child] = x[node]!;
        y[child] = y[node]!;
        node = child;
        continue;
      }
      while (node !== this.root && this.next[node] === NONE) node = this.parent[node]!;
      if (node === this.root) return;
      const next = this.next[node]!;
      const isRow = this.kind[this.parent[node]!] === ROW;
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
      for (let child = this.first[parent]!; child !== NONE; child = this.next[child]!)
        children.push(child);
      if (!children.some((child, i) => i > 0 && size[child]! < narrow)) continue;
      children.sort((a, b) => Number(size[b]! < narrow) - Number(size[a]! < narrow));
      this.first[parent] = children[0]!;
      children.forEach((child, i) => {
        this.next[child] = children[i + 1] ?? NONE;
      });
      this.last[parent] = children.at(-1)!;
    }
  }

  /** A row or column takes the place of a leaf, which becomes its child. */
  #share(leaf: number): number {
    const parent = this.parent[leaf]!;
    const node = this.#add(across(this.kind[parent]!), parent, this.depth[parent]! + 1);
    this.replace(leaf, node);
    this.joins[leaf] = this.kind[parent]!;
    this.#lower(leaf);
    this.append(node, leaf);
    this.width[node] = this.width[leaf]!;
    this.height[node] = this.height[leaf]!;
    this.roomX[node] = this.roomX[leaf]!;
    this.roomY[node] = this.roomY[leaf]!;
    this.#cap(node);
    return node;
  }

  /** Depths on the way down, sizes on the way up. */
  #measure(node: number): void {
    const { kind, width, height, depth } = this;
    const isRow = kind[node] === ROW;
    let along = 0;
    let most = 0;
    for (let child = this.first[node]!; child !== NONE; child = this.next[child]!) {
      const isLeaf = kind[child] === LEAF;
      depth[child] = depth[node]! + 1 + (isLeaf ? this.inner[child]! : 0);
      this.#levels = Math.max(this.#levels, depth[child]!);
      if (isLeaf) this.joins[child] = this.#joinsLeaf(node, depth[child]!);
      else this.#measure(child);
      along += isRow ? width[child]! : height[child]!;
      most = Math.max(most, isRow ? height[child]! : width[child]!);
    }
    width[node] = isRow ? along : most;
    height[node] = isRow ? most : along;
  }

  #joinsLeaf(parent: number, depth: number): Direction | 0 {
    return depth < this.#limits.depth ? across(this.kind[parent]!) : 0;
  }

  #lower(node: number): void {
    const depth = this.depth[node]! + 1;
    this.depth[node] = depth;
    this.#levels = Math.max(this.#levels, depth);
    if (this.kind[node] === LEAF && depth >= this.#limits.depth) this.joins[node] = 0;
  }

  /** A row or column, and all that it lies in, grows by a box that joined it; returns the topmost node that grew. */
  #grow(within: number, addedWidth: number, addedHeight: number): number {
    const { kind, width, height } = this;
    let w = addedWidth;
    let h = addedHeight;
    let lastW = 0;
    let lastH = 0;
    let top = within;
    for (let node = within; node !== NONE; node = this.parent[node]!) {
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
      let child = this.first[node]!;
      if (child === NONE) {
        while (node !== top && this.next[node] === NONE) node = this.parent[node]!;
        if (node === top) return;
        child = this.next[node]!;
      }
      const parent = this.parent[child]!;
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
    const node = this.add(kind);
    this.depth[node] = depth;
    this.joins[node] = kind === LEAF ? this.#joinsLeaf(parent, depth) : kind;
    return node;
  }
}
