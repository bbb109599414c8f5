import type { Draw } from './draw.ts';
import { ODD_LETTERS, ODD_NUMBERS, oddWord } from './odd-words.ts';

/** Changes a text in a few places; `words` are those of its kind of file. */
export function mutated(text: string, draw: Draw, words: readonly string[]): string {
  let changed = text;
  for (let edits = draw.weighed(EDITS); 0 < edits; edits--)
    changed = draw.weighed(WAYS)(changed, draw, words);
  return changed;
}

const EDITS = [
  [6, 1],
  [3, 2],
  [2, 4],
  [1, 12],
] as const;

type Way = (text: string, draw: Draw, words: readonly string[]) => string;

const WAYS: readonly (readonly [number, Way])[] = [
  [3, otherLetter],
  [3, (text, draw) => cutOut(text, spanOf(text, draw, 8), '')],
  [4, (text, draw, words) => replaceToken(text, draw, () => draw.pick(words))],
  [4, (text, draw) => replaceToken(text, draw, () => oddWord(draw))],
  [5, otherNumber],
  [
    3,
    (text, draw) =>
      withTokens(text, draw, (tokens) => tokens.toSpliced(draw.below(tokens.length), 1)),
  ],
  [3, doubledToken],
  [2, exchangedTokens],
  [3, (text, draw) => withLines(text, (lines) => lines.toSpliced(draw.below(lines.length), 1))],
  [3, doubledLine],
  [2, exchangedLines],
  [2, (text, draw) => insert(text, draw, draw.pick(ODD_LETTERS))],
  [2, (text, draw) => insert(text, draw, oddWord(draw))],
  [1, (text, draw) => text.slice(0, draw.below(text.length + 1))],
  [1, (text, draw) => text.slice(draw.below(text.length + 1))],
  [1, repeatedSpan],
  [1, (text, draw) => text.replace(/\r?\n/g, draw.pick(['\r\n', '\r', '\n\n', '\u2028']))],
];

interface Span {
  readonly from: number;
  readonly to: number;
}

function spanOf(text: string, draw: Draw, most: number): Span {
  const from = draw.below(text.length + 1);
  return { from, to: Math.min(text.length, from + draw.between(1, most)) };
}

function cutOut(text: string, { from, to }: Span, by: string): string {
  return text.slice(0, from) + by + text.slice(to);
}

function insert(text: string, draw: Draw, word: string): string {
  const from = draw.below(text.length + 1);
  return cutOut(text, { from, to: from }, word);
}

/** One bit, as a bad cable would have it, or any letter. */
function otherLetter(text: string, draw: Draw): string {
  const from = draw.below(text.length + 1);
  const code = text.charCodeAt(from) || 0;
  const other = draw.chance(0.5) ? code ^ (1 << draw.below(8)) : draw.below(0x250);
  return cutOut(text, { from, to: from + 1 }, String.fromCharCode(other));
}

function otherNumber(text: string, draw: Draw): string {
  const numbers = [...text.matchAll(/-?\d+(?:\.\d+)?/g)];
  if (numbers.length === 0) return text;
  const { 0: number, index } = draw.pick(numbers);
  const other = draw.weighed([
    [2, () => draw.pick(ODD_NUMBERS)],
    [1, () => String(Number(number) * draw.pick([-1, 0.1, 10, 1000, 1e-6]))],
    [1, () => String(Number(number) + draw.pick([-1, 1, 0.001, 0.000125]))],
    [1, () => String(draw.below(2000))],
  ])();
  return cutOut(text, { from: index, to: index + number.length }, other);
}

/** Words, and each sign and blank between them. */
function withTokens(
  text: string,
  draw: Draw,
  change: (tokens: readonly string[]) => readonly string[],
): string {
  // Of a long text a stretch will do.
  const from = text.length < 4000 ? 0 : draw.below(text.length - 2000);
  const to = Math.min(text.length, from + 4000);
  const tokens = text.slice(from, to).match(/[\p{L}\p{N}_.-]+|\s+|[^\p{L}\p{N}\s]/gu) ?? [];
  return tokens.length === 0 ? text : cutOut(text, { from, to }, change(tokens).join(''));
}

function replaceToken(text: string, draw: Draw, word: () => string): string {
  return withTokens(text, draw, (tokens) => tokens.with(draw.below(tokens.length), word()));
}

function doubledToken(text: string, draw: Draw): string {
  return withTokens(text, draw, (tokens) =>
    tokens.toSpliced(draw.below(tokens.length), 0, draw.pick(tokens)),
  );
}

function exchangedTokens(text: string, draw: Draw): string {
  return withTokens(text, draw, (tokens) => exchanged(tokens, draw));
}

function withLines(text: string, change: (lines: readonly string[]) => readonly string[]): string {
  return change(text.split('\n')).join('\n');
}

function doubledLine(text: string, draw: Draw): string {
  return withLines(text, (lines) => lines.toSpliced(draw.below(lines.length), 0, draw.pick(lines)));
}

function exchangedLines(text: string, draw: Draw): string {
  return withLines(text, (lines) => exchanged(lines, draw));
}

function exchanged(list: readonly string[], draw: Draw): readonly string[] {
  const [a, b] = [draw.below(list.length), draw.below(list.length)];
  return list.with(a, list[b]!).with(b, list[a]!);
}

function repeatedSpan(text: string, draw: Draw): string {
  const { from, to } = spanOf(text, draw, 40);
  return insert(text, draw, text.slice(from, to).repeat(draw.between(2, 30)));
}
