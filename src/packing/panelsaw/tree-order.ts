// Writes the trees of a sheet down as an order of boxes, and grows them again from it.
// Idea: a box joins the root of a panel, shares the place of an earlier box, or lies beside an earlier one in the row or column that this lies in. Of every node
//   the first box of each child comes in before any child is divided further, so each box finds what it is told to join as it was.
// Source: none; the usual notations of slicing trees have operators between the boxes, which an order of boxes has no room for.
// Cost: linear for writing; growing inserts box by box.
// Degenerate cases: see `topOf`.
import { across, type Direction } from './direction.ts';
import type { PanelGround } from './ground.ts';
import type { TreeFiller } from './tree-filler.ts';
import { LEAF, NONE } from './tree-nodes.ts';

/** Codes of boxes, and where each comes in: 2k beside box k, 2k + 1 sharing the place of box k, -1 - 2p into the root of panel p, -2 - 2p where its first cuts run the other way. */
export interface TreeOrder {
  readonly codes: Int32Array;
  readonly beside: Int32Array;
}

export function orderOf(grounds: readonly PanelGround[]): TreeOrder {
  const count = grounds.reduce((sum, { tree }) => sum + tree.leaves, 0);
  const order = { codes: new Int32Array(count), beside: new Int32Array(count) };
  let next = 0;
  grounds.forEach(({ tree, panel, index }) => {
    const { kind, first } = tree;
    if (tree.leaves === 0) return;
    const write = (node: number, how: number): number => {
      let leaf = node;
      while (kind[leaf] !== LEAF) leaf = first[leaf]!;
      order.codes[next] = tree.code[leaf]!;
      order.beside[next] = how;
      return next++;
    };
    /** Divides a node whose first box is in place already, as number `k`. */
    const divide = (node: number, k: number): void => {
      if (kind[node] === LEAF) return;
      const parts = childrenOf(tree, node).map((child, i) => ({
        child,
        at: i === 0 ? k : write(child, i === 1 ? 2 * k + 1 : 2 * k),
      }));
      for (const { child, at } of parts) divide(child, at);
    };
    const top = topOf(tree, panel.direction);
    const how = -1 - 2 * index - (kind[top] === panel.direction ? 0 : 1);
    const parts = childrenOf(tree, top).map((child) => ({ child, at: write(child, how) }));
    for (const { child, at } of parts) divide(child, at);
  });
  return order;
}

/** Grows the trees again, in panels that are empty. */
export function follow(
  filler: TreeFiller,
  grounds: readonly PanelGround[],
  codes: Int32Array,
  beside: Int32Array,
): void {
  filler.begin(codes.length);
  const { leafOf, groundOf } = filler;
  codes.forEach((code, i) => {
    const how = beside[i]!;
    const index = how < 0 ? (-1 - how) >> 1 : groundOf[how >> 1]!;
    const ground = grounds[index]!;
    const leaf = leafOf[how >> 1]!;
    const { tree, panel, width, height } = ground;
    if (how < 0 && how % 2 === 0 && tree.leaves === 0)
      tree.begin({ ...panel, direction: across(panel.direction) }, width, height);
    const node = how < 0 ? tree.root : how % 2 === 1 ? leaf : tree.parent[leaf]!;
    filler.insert(ground, index, node, (code >> 2) * 2 + (code & 1));
  });
}

/** The root, unless its first cuts run the other way than told and it is left with a single row or column, which then needs no such cut. */
function topOf({ root, kind, first, next }: PanelGround['tree'], told: Direction): number {
  const only = first[root]!;
  const isNoCut = kind[root] !== told && kind[only] !== LEAF && next[only] === NONE;
  return isNoCut ? only : root;
}

function childrenOf({ first, next }: PanelGround['tree'], node: number): readonly number[] {
  const children: number[] = [];
  for (let child = first[node]!; child !== NONE; child = next[child]!) children.push(child);
  return children;
}
