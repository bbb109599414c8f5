import { parseAst } from 'vitest/node';

/** A node of the syntax tree, as the parser of the test runner gives it: with places in the text. */
export interface Node {
  readonly type: string;
  readonly start: number;
  readonly end: number;
  readonly [key: string]: unknown;
}

export function parseSource(text: string): Node {
  return parseAst(text, { lang: 'ts', sourceType: 'module' }) as unknown as Node;
}

/** The nodes right below one, in the order of the text. */
export function childrenOf(node: Node): Node[] {
  return Object.values(node).flatMap((value) =>
    (Array.isArray(value) ? value : [value]).filter(isNode),
  );
}

export function isNode(value: unknown): value is Node {
  return typeof value === 'object' && value !== null && 'type' in value && 'start' in value;
}

/** The name of a plain name, or of the last link of a chain of them. */
export function nameOf(node: unknown): string | null {
  if (!isNode(node)) return null;
  if (node.type === 'Identifier') return String(node.name);
  if (node.type === 'MemberExpression' && node.computed !== true) return nameOf(node.property);
  return null;
}
