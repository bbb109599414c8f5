import { isNode, type Node, nameOf } from './syntax.ts';

/** What takes the place of a stretch of the text. */
export interface Change {
  readonly start: number;
  readonly end: number;
  readonly now: string;
}

export interface Operator {
  readonly name: string;
  /** The changes that can be made at this node. */
  readonly changes: (node: Node, text: string) => readonly Change[];
}

const LOOSENED = { '<': '<=', '<=': '<', '>': '>=', '>=': '>' };
const REVERSED = { '<': '>=', '<=': '>', '>': '<=', '>=': '<', '===': '!==', '!==': '===' };
const SUMS = { '+': '-', '-': '+' };
const PRODUCTS = { '*': '/', '/': '*' };
const JUNCTIONS = { '&&': '||', '||': '&&' };
const STEPS = { '+=': '-=', '-=': '+=' };
const NAMES = {
  min: 'max',
  max: 'min',
  floor: 'ceil',
  ceil: 'floor',
  some: 'every',
  every: 'some',
};
const CHOOSERS = ['filter', 'sort', 'toSorted', 'reverse', 'toReversed'];

/** Every way in which a fault is put in. */
export const OPERATORS: readonly Operator[] = [
  { name: 'comparison made strict or loose', changes: exchanged('BinaryExpression', LOOSENED) },
  { name: 'comparison reversed', changes: exchanged('BinaryExpression', REVERSED) },
  { name: 'plus for minus', changes: exchanged('BinaryExpression', SUMS) },
  { name: 'times for divided', changes: exchanged('BinaryExpression', PRODUCTS) },
  { name: 'and for or', changes: exchanged('LogicalExpression', JUNCTIONS) },
  { name: 'assignment turned', changes: exchanged('AssignmentExpression', STEPS) },
  { name: 'constant off by one', changes: offByOne },
  { name: 'truth flipped', changes: flipped },
  { name: 'condition negated', changes: negated },
  { name: 'sign dropped', changes: signDropped },
  { name: 'name exchanged', changes: renamed },
  { name: 'arguments exchanged', changes: swapped },
  { name: 'index shifted', changes: shifted },
  { name: 'choice or order dropped', changes: chooserDropped },
  { name: 'call dropped', changes: callDropped },
  { name: 'way out dropped', changes: wayOutDropped },
];

/** Another operator between the two sides. */
function exchanged(type: string, others: Readonly<Record<string, string>>): Operator['changes'] {
  return (node, text) => {
    const now = node.type === type ? others[String(node.operator)] : undefined;
    const { left, right } = node;
    if (now === undefined || !isNode(left) || !isNode(right)) return [];
    const start = text.indexOf(String(node.operator), left.end);
    return [{ start, end: start + String(node.operator).length, now }];
  };
}

function offByOne(node: Node): readonly Change[] {
  if (node.type !== 'Literal') return [];
  if (typeof node.bigint === 'string') return [replaced(node, `${BigInt(node.bigint) + 1n}n`)];
  if (typeof node.value !== 'number') return [];
  return [replaced(node, `${node.value + 1}`)];
}

function flipped(node: Node): readonly Change[] {
  if (node.type !== 'Literal' || typeof node.value !== 'boolean') return [];
  return [replaced(node, `${!node.value}`)];
}

function negated(node: Node, text: string): readonly Change[] {
  const { test } = node;
  if (!['IfStatement', 'ConditionalExpression'].includes(node.type) || !isNode(test)) return [];
  return [replaced(test, `!(${textOf(test, text)})`)];
}

function signDropped(node: Node, text: string): readonly Change[] {
  const { argument } = node;
  if (node.type !== 'UnaryExpression' || !isNode(argument)) return [];
  return ['-', '!'].includes(String(node.operator)) ? [replaced(node, textOf(argument, text))] : [];
}

function renamed(node: Node): readonly Change[] {
  const { callee } = node;
  if (node.type !== 'CallExpression' || !isNode(callee) || !isNode(callee.property)) return [];
  const now = NAMES[(nameOf(callee) ?? '') as keyof typeof NAMES];
  return now === undefined ? [] : [replaced(callee.property, now)];
}

function swapped(node: Node, text: string): readonly Change[] {
  if (node.type !== 'CallExpression' || !Array.isArray(node.arguments)) return [];
  const [first, second] = node.arguments as readonly Node[];
  if (first === undefined || second === undefined) return [];
  const plain = [first, second].every(({ type }) => type !== 'SpreadElement');
  // The least, the greatest and a product do not depend on the order.
  if (!plain || ['min', 'max', 'imul'].includes(nameOf(node.callee) ?? '')) return [];
  const [a, b] = [textOf(first, text), textOf(second, text)];
  if (a === b) return [];
  const between = text.slice(first.end, second.start);
  return [{ start: first.start, end: second.end, now: `${b}${between}${a}` }];
}

function shifted(node: Node, text: string): readonly Change[] {
  const { property } = node;
  if (node.type !== 'MemberExpression' || node.computed !== true || !isNode(property)) return [];
  // A constant index is a constant.
  return property.type === 'Literal' ? [] : [replaced(property, `${textOf(property, text)} + 1`)];
}

function chooserDropped(node: Node, text: string): readonly Change[] {
  const { callee } = node;
  if (node.type !== 'CallExpression' || !isNode(callee) || !isNode(callee.object)) return [];
  if (!CHOOSERS.includes(nameOf(callee) ?? '')) return [];
  return [replaced(node, textOf(callee.object, text))];
}

function callDropped(node: Node): readonly Change[] {
  const { expression } = node;
  if (node.type !== 'ExpressionStatement' || !isNode(expression)) return [];
  return expression.type === 'CallExpression' ? [replaced(node, ';')] : [];
}

/** A condition under which a function or a round ends early, with its end. */
function wayOutDropped(node: Node): readonly Change[] {
  const { consequent, alternate } = node;
  if (node.type !== 'IfStatement' || isNode(alternate) || !isNode(consequent)) return [];
  const inside = consequent.type === 'BlockStatement' ? consequent.body : [consequent];
  const [only, second] = inside as readonly Node[];
  const ways = ['ReturnStatement', 'ContinueStatement', 'BreakStatement'];
  if (only === undefined || second !== undefined || !ways.includes(only.type)) return [];
  return [replaced(node, ';')];
}

function replaced({ start, end }: Node, now: string): Change {
  return { start, end, now };
}

function textOf({ start, end }: Node, text: string): string {
  return text.slice(start, end);
}
