import { createHash } from 'node:crypto';
import { type Change, OPERATORS } from './operators.ts';
import { childrenOf, isNode, type Node, nameOf, parseSource } from './syntax.ts';

/** One change of one source file. */
export interface Fault extends Change {
  /** The path below the project's folder. */
  readonly file: string;
  /** Counted from one. */
  readonly line: number;
  readonly operator: string;
  /** What is changed, and the line it is on. */
  readonly was: string;
  readonly at: string;
  /** Tells apart what is the same on lines that are the same, by their order in the file. */
  readonly nth: number;
}

/**
 * What is left alone:
 * - types and imports, which no run sees;
 * - texts, for a person reads them: strings and templates with what is put into them;
 * - assertions, since they hold what is true in every healthy run, so that to drop or loosen one changes nothing;
 * - the step of a `for`, since without it the loop only never ends;
 * - in `packing/`, a number in capitals at the top of a file, unless it is of a bound: it says how long or how finely is searched, and one more
 *   is as good a search. What is exact there (rules, codes, limits of numbers) shows in the lines that use it.
 */
function isLeftAlone(node: Node, parent: Node | null, file: string): boolean {
  const { type } = node;
  if (type.startsWith('TS') && !isNode(node.expression)) return true;
  if (type === 'ImportDeclaration' || type === 'TemplateLiteral') return true;
  if (isAssertion(type === 'ExpressionStatement' ? node.expression : node)) return true;
  if (parent?.type === 'ForStatement' && parent.update === node) return true;
  return file.startsWith('src/packing/') && !file.includes('/bounds/') && isMeasure(node);
}

function isAssertion(node: unknown): boolean {
  return (
    isNode(node) && node.type === 'CallExpression' && /^assert/.test(nameOf(node.callee) ?? '')
  );
}

function isMeasure(node: Node): boolean {
  const [declared] = (node.type === 'VariableDeclaration' ? node.declarations : []) as Node[];
  return declared !== undefined && /^[A-Z][A-Z_0-9]+$/.test(nameOf(declared.id) ?? '');
}

/** All faults that can be put into a file, in the order of its text. */
export function faultsOf(file: string, text: string): Fault[] {
  const faults: Omit<Fault, 'nth'>[] = [];
  const visit = (node: Node, parent: Node | null) => {
    if (isLeftAlone(node, parent, file)) return;
    for (const { name, changes } of OPERATORS)
      for (const change of changes(node, text)) faults.push(described(change, name, file, text));
    for (const child of childrenOf(node)) visit(child, node);
  };
  visit(parseSource(text), null);
  const seen = new Map<string, number>();
  return faults
    .sort((a, b) => a.start - b.start || a.end - b.end)
    .map((fault) => {
      const nth = 1 + (seen.get(sameText(fault)) ?? 0);
      seen.set(sameText(fault), nth);
      return { ...fault, nth };
    });
}

function described(change: Change, operator: string, file: string, text: string) {
  const line = text.slice(0, change.start).split('\n').length;
  const at = text.split('\n')[line - 1]!.trim();
  return { ...change, file, line, operator, was: text.slice(change.start, change.end), at };
}

function sameText({ at, operator, was, now }: Omit<Fault, 'nth'>): string {
  return [at, operator, was, now].join('\n');
}

/** Names a fault by what is changed, so that it keeps its name where lines move. */
export function keyOf(fault: Fault): string {
  const digest = createHash('sha256').update(`${fault.file}\n${fault.nth}\n${sameText(fault)}`);
  return digest.digest('hex').slice(0, 10);
}

export function applied(fault: Fault, text: string): string {
  return text.slice(0, fault.start) + fault.now + text.slice(fault.end);
}
