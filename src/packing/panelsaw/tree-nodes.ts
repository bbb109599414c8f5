import type { Direction } from './direction.ts';

export const LEAF = 0;
/** What a node is that was taken out. */
export const GONE = 3;
export const NONE = -1;

const LISTS = [
  'code',
  'inner',
  'depth',
  'width',
  'height',
  'roomX',
  'roomY',
  'freeX',
  'freeY',
  'x',
  'y',
  'parent',
  'first',
  'last',
  'next',
] as const;

/**
 * The nodes of a tree and how they are linked. The class guards that all lists are long enough and that links agree with each other. Nodes are
 * numbered from 0 as they come; one that was taken out leaves its number to the next that comes.
 */
export class TreeNodes {
  /** Numbers given so far. */
  count = 0;
  root = 0;
  leaves = 0;
  kind = new Uint8Array(64);
  /** The direction in which a box joins the node, beside its children or, of a leaf, beside itself; 0 where it may not. */
  joins = new Uint8Array(64);
  /** Of a leaf the box and how it lies, and the rows and columns within it. */
  code = new Int32Array(64);
  inner = new Int32Array(64);
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
  /** The first and the last child, and the next one of the same parent. */
  parent = new Int32Array(64);
  first = new Int32Array(64);
  last = new Int32Array(64);
  next = new Int32Array(64);
  readonly #gone: number[] = [];

  clear(): void {
    this.count = 0;
    this.leaves = 0;
    this.#gone.length = 0;
  }

  /** A new node without size and links. */
  add(kind: typeof LEAF | Direction): number {
    const node = this.#gone.pop() ?? this.count++;
    if (node === this.kind.length) this.#enlarge(2 * node);
    if (kind === LEAF) this.leaves++;
    this.kind[node] = kind;
    this.width[node] = 0;
    this.height[node] = 0;
    this.parent[node] = NONE;
    this.first[node] = NONE;
    this.last[node] = NONE;
    this.next[node] = NONE;
    return node;
  }

  /** A node that nothing is linked to any more. */
  release(node: number): void {
    if (this.kind[node] === LEAF) this.leaves--;
    this.kind[node] = GONE;
    this.joins[node] = 0;
    this.freeX[node] = -1;
    this.first[node] = NONE;
    this.#gone.push(node);
  }

  append(parent: number, child: number): void {
    this.parent[child] = parent;
    this.next[child] = NONE;
    const last = this.last[parent]!;
    if (last === NONE) this.first[parent] = child;
    else this.next[last] = child;
    this.last[parent] = child;
  }

  detach(child: number): void {
    const parent = this.parent[child]!;
    const before = this.#before(child);
    if (before === NONE) this.first[parent] = this.next[child]!;
    else this.next[before] = this.next[child]!;
    if (this.last[parent] === child) this.last[parent] = before;
    this.parent[child] = NONE;
    this.next[child] = NONE;
  }

  /** Puts a node where another one was. */
  replace(old: number, node: number): void {
    const parent = this.parent[old]!;
    const before = this.#before(old);
    if (before === NONE) this.first[parent] = node;
    else this.next[before] = node;
    if (this.last[parent] === old) this.last[parent] = node;
    this.parent[node] = parent;
    this.next[node] = this.next[old]!;
    this.parent[old] = NONE;
    this.next[old] = NONE;
  }

  protected copyNodes(other: TreeNodes): void {
    const { count } = other;
    if (this.kind.length < count) this.#enlarge(other.kind.length);
    for (const list of LISTS) this[list].set(other[list].subarray(0, count));
    this.kind.set(other.kind.subarray(0, count));
    this.joins.set(other.joins.subarray(0, count));
    this.#gone.length = 0;
    for (const node of other.#gone) this.#gone.push(node);
    this.count = count;
    this.root = other.root;
    this.leaves = other.leaves;
  }

  #before(child: number): number {
    let before = NONE;
    for (let node = this.first[this.parent[child]!]!; node !== child; node = this.next[node]!)
      before = node;
    return before;
  }

  #enlarge(size: number): void {
    for (const list of LISTS) this[list] = copied(this[list], new Int32Array(size));
    this.kind = copied(this.kind, new Uint8Array(size));
    this.joins = copied(this.joins, new Uint8Array(size));
  }
}

function copied<List extends Int32Array | Uint8Array>(from: List, into: List): List {
  into.set(from);
  return into;
}
