import { LEAF, NONE, type TreeNodes } from './tree-nodes.ts';

/** Takes a node and all below it out of a tree and tells the codes of its boxes; what it lay in closes up. Sizes and room are to be renewed then. */
export function prune(tree: TreeNodes, node: number, taken: (code: number) => void): void {
  if (node === tree.root) {
    while (tree.first[node] !== NONE) cutOff(tree, tree.first[node]!, taken);
    return;
  }
  const parent = tree.parent[node]!;
  cutOff(tree, node, taken);
  closeUp(tree, parent);
}

function cutOff(tree: TreeNodes, node: number, taken: (code: number) => void): void {
  tree.detach(node);
  dissolve(tree, node, taken);
}

function dissolve(tree: TreeNodes, node: number, taken: (code: number) => void): void {
  if (tree.kind[node] === LEAF) taken(tree.code[node]!);
  for (let child = tree.first[node]!; child !== NONE; ) {
    const next = tree.next[child]!;
    dissolve(tree, child, taken);
    child = next;
  }
  tree.release(node);
}

/** A row or column with a single child is none: a leaf takes its place, and the children of another node join what that one lies in. */
function closeUp(tree: TreeNodes, node: number): void {
  const only = tree.first[node]!;
  if (node === tree.root || tree.next[only] !== NONE) return;
  const parent = tree.parent[node]!;
  tree.detach(only);
  if (tree.kind[only] === LEAF) tree.replace(node, only);
  else {
    tree.detach(node);
    for (let child = tree.first[only]!; child !== NONE; ) {
      const next = tree.next[child]!;
      tree.append(parent, child);
      child = next;
    }
    tree.release(only);
  }
  tree.release(node);
}
