import type { Direction } from './direction.ts';

export const LEAF = 0;
/** What a node is that was taken out. */
export const GONE = 3;
export const NONE = -1;

const LISTS = [
  'kind',
  'joins',
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

const FIRST_SIZE = 64;

/**
 * The nodes of a tree and how they are linked. The class guards that all lists are long enough and that links agree with each other. Nodes are
 * numbered from 0 as they come; one that was taken out leaves its number to the next that comes.
 */
export class TreeNodes {
  /** All lists in one, so that a tree is copied at once. */
  #data = new Int32Array(LISTS.length * FIRST_SIZE);
  readonly #gone: number[] = [];
  /** Numbers given so far. */
  count = 0;
  root = 0;
  leaves = 0;
  kind = this.#list('kind');
  /** The direction in which a box joins the node, beside its children or, of a leaf, beside itself; 0 where it may not. */
  joins = this.#list('joins');
  /** Of a leaf the box and how it lies, and the rows and columns within it. */
  code = this.#list('code');
  inner = this.#list('inner');
  /** Rows and columns above a node; of a leaf with those inside its box. */
  depth = this.#list('depth');
  /** Of the smallest box round the leaves. */
  width = this.#list('width');
  height = this.#list('height');
  /** Of the largest box that there is room for. */
  roomX = this.#list('roomX');
  roomY = this.#list('roomY');
  /** Of the largest box that may join the node; negative where none may. */
  freeX = this.#list('freeX');
  freeY = this.#list('freeY');
  /** The lower-left corner, once the tree is settled. */
  x = this.#list('x');
  y = this.#list('y');
  /** The first and the last child, and the next one of the same parent. */
  parent = this.#list('parent');
  first = this.#list('first');
  last = this.#list('last');
  next = this.#list('next');

  clear(): void {
    this.count = 0;
    this.leaves = 0;
    this.#gone.length = 0;
  }

  /** A new node without size and links. */
  add(kind: typeof LEAF | Direction): number {
    const node = this.#gone.pop() ?? this.count++;
    if (node === this.kind.length) this.#resize(2 * node);
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
    if (this.#data.length < other.#data.length) this.#resize(other.kind.length);
    if (this.#data.length === other.#data.length) this.#data.set(other.#data);
    else for (const list of LISTS) this[list].set(other[list]);
    this.#gone.length = 0;
    for (const node of other.#gone) this.#gone.push(node);
    this.count = other.count;
    this.root = other.root;
    this.leaves = other.leaves;
  }

  #before(child: number): number {
    let before = NONE;
    for (let node = this.first[this.parent[child]!]!; node !== child; node = this.next[node]!)
      before = node;
    return before;
  }

  /** Makes all lists longer, with what is in them. */
  #resize(size: number): void {
    const before = LISTS.map((list) => this[list]);
    this.#data = new Int32Array(LISTS.length * size);
    LISTS.forEach((list, i) => {
      this[list] = this.#list(list);
      this[list].set(before[i]!);
    });
  }

  #list(name: (typeof LISTS)[number]): Int32Array {
    const size = this.#data.length / LISTS.length;
    const from = LISTS.indexOf(name) * size;
    return this.#data.subarray(from, from + size);
  }
}
