import type { Draw } from './draw.ts';

/** What a YAML text is made of; a text stands as it is, quoted or not. */
export type Node = string | readonly Node[] | NodeMap;
export interface NodeMap {
  readonly [key: string]: Node;
}

/** The text of a mapping, in lines or in brackets as it is drawn. */
export function yamlText(root: NodeMap, draw: Draw): string {
  const lines = Object.entries(root).flatMap(([key, node]) => entryLines(key, node, '', draw));
  return `${lines.join('\n')}\n`;
}

function entryLines(key: string, node: Node, indent: string, draw: Draw): string[] {
  if (typeof node === 'string' || isEmpty(node) || draw.chance(0.4))
    return [`${indent}${key}: ${flowText(node)}`];
  const below = `${indent}  `;
  if (isList(node))
    return [`${indent}${key}:`, ...node.flatMap((item) => itemLines(item, below, draw))];
  const entries = Object.entries(node);
  return [
    `${indent}${key}:`,
    ...entries.flatMap(([name, each]) => entryLines(name, each, below, draw)),
  ];
}

function itemLines(item: Node, indent: string, draw: Draw): string[] {
  if (typeof item === 'string' || isList(item) || isEmpty(item) || draw.chance(0.5))
    return [`${indent}- ${flowText(item)}`];
  const lines = Object.entries(item).flatMap(([key, node]) =>
    entryLines(key, node, `${indent}  `, draw),
  );
  return lines.map((line, i) => (i === 0 ? `${indent}- ${line.trimStart()}` : line));
}

function flowText(node: Node): string {
  if (typeof node === 'string') return node;
  if (isList(node)) return `[${node.map(flowText).join(', ')}]`;
  const entries = Object.entries(node).map(([key, each]) => `${key}: ${flowText(each)}`);
  return `{ ${entries.join(', ')} }`;
}

function isList(node: Node): node is readonly Node[] {
  return Array.isArray(node);
}

function isEmpty(node: Node): boolean {
  return Object.keys(node).length === 0;
}
