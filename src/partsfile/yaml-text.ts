import { Composer, type CST, type Document, isScalar, Lexer, Parser } from 'yaml';
import type { Place } from '../model/place.ts';
import type { ProblemCode } from './problem.ts';
import type { Report } from './report.ts';
import type { Tree } from './tree.ts';
import { saying } from './visible.ts';
import { type PlaceAt, TreeBuilder, tooDeep } from './yaml-tree.ts';

/** Of a file that is no YAML the first few complaints say all. */
const MOST_SYNTAX_PROBLEMS = 20;

/**
 * Reads YAML into a tree with places, or returns null where the text has no sound structure.
 * Only the plain part of the language is taken: no tags, no merge keys, one document; numbers stay text for exact reading.
 */
export function readYaml(text: string, report: Report): Tree | null {
  const placeAt = placesIn(text);
  const tokens = tokenise(text, placeAt, report);
  if (tokens === null) return null;
  const documents = composeDocuments(tokens, placeAt, report);
  if (documents === null) return null;
  const [document, second] = documents;
  if (second !== undefined) {
    const place = placeAt(second.range[0]);
    report.error(
      { place, path: '' },
      'several-documents',
      'a second document begins here',
      'a parts file is one document: remove the line --- or put the second job into a file of its own',
    );
    return null;
  }
  const root = document?.contents ?? null;
  if (document === undefined || root === null || (isScalar(root) && root.source === '')) {
    report.error(
      { place: { line: 1, column: 1 }, path: '' },
      'empty-file',
      'the file says nothing',
      START_HINT,
    );
    return null;
  }
  return new TreeBuilder(placeAt, report).tree(root);
}

/** What to do about a file without content. */
export const START_HINT = 'holdfast new writes a file to start from';

/** By the line ends of the text: the library's own count misses some where the text is broken. */
function placesIn(text: string): PlaceAt {
  const starts = [0];
  for (let end = text.indexOf('\n'); 0 <= end; end = text.indexOf('\n', end + 1))
    starts.push(end + 1);
  return (offset): Place => {
    let [low, high] = [0, starts.length];
    while (1 < high - low) {
      const middle = (low + high) >> 1;
      if (starts[middle]! <= offset) low = middle;
      else high = middle;
    }
    return { line: low + 1, column: offset - starts[low]! + 1 };
  };
}

interface Tokens {
  readonly tokens: readonly CST.Token[];
  readonly unclosed: readonly SyntaxFault[];
}

/** The parser's stack grows with the nesting while composing recurses, so depth is looked at here, before it can hurt. */
function tokenise(text: string, placeAt: PlaceAt, report: Report): Tokens | null {
  const parser = new Parser();
  const watch = new BracketWatch();
  const tokens: CST.Token[] = [];
  let count = 0;
  for (const lexeme of new Lexer().lex(text)) {
    watch.see(lexeme, parser.offset);
    for (const token of parser.next(lexeme)) tokens.push(token);
    count++;
    const levels = Math.ceil(parser.stack.length / 2);
    if (levels <= report.limits.depth && count <= report.limits.words) continue;
    const spot = { place: placeAt(parser.offset), path: '' };
    report.within(spot, { ...tooDeep(levels), instead: 'look for a bracket that is never closed' });
    report.within(spot, {
      ...{ limit: 'words', code: 'file-too-large', found: count, atLeast: true },
      ...{ subject: 'up to here the file has', instead: 'split the job into several files' },
    });
    return null;
  }
  for (const token of parser.end()) tokens.push(token);
  return { tokens, unclosed: watch.unclosed() };
}

/** Markers of the lexer: a plain text follows; a line ends all open brackets by its indent. */
const PLAIN_FOLLOWS = '\u001f';
const BRACKETS_END = '\u0018';

/** Remembers where brackets and quotation marks were opened that nothing closes: the library names the place where it gave up. */
class BracketWatch {
  #open: SyntaxFault[] = [];
  readonly #unclosed: SyntaxFault[] = [];
  #plain = false;

  see(lexeme: string, offset: number): void {
    const plain = this.#plain;
    this.#plain = lexeme === PLAIN_FOLLOWS;
    if (plain) return;
    if (lexeme === '[' || lexeme === '{')
      this.#open.push({ offset, code: 'UNCLOSED', message: lexeme });
    else if (lexeme === ']' || lexeme === '}') this.#open.pop();
    else if (lexeme === BRACKETS_END) this.#giveUp();
    else if (isOpenQuote(lexeme))
      this.#unclosed.push({ offset, code: 'UNCLOSED', message: lexeme.slice(0, 1) });
  }

  unclosed(): readonly SyntaxFault[] {
    this.#giveUp();
    return this.#unclosed;
  }

  #giveUp(): void {
    this.#unclosed.push(...this.#open.slice(-1));
    this.#open = [];
  }
}

function isOpenQuote(lexeme: string): boolean {
  const mark = lexeme[0];
  if (mark !== '"' && mark !== "'") return false;
  return lexeme.length === 1 || !lexeme.endsWith(mark);
}

interface SyntaxFault {
  readonly offset: number;
  readonly code: string;
  readonly message: string;
}

/** All documents of the text, or null where one has a fault of syntax. */
function composeDocuments(
  { tokens, unclosed }: Tokens,
  placeAt: PlaceAt,
  report: Report,
): Document.Parsed[] | null {
  const faults: SyntaxFault[] = [];
  const composer = new Composer({ schema: 'failsafe', merge: false, uniqueKeys: false });
  // In place of the library's own handler, which makes an Error of each fault: a megabyte of quotation marks has a million.
  Object.assign(composer, {
    onError: (source: ErrorSource, code: string, message: string, warning?: boolean) => {
      if (warning !== true && faults.length < MOST_SYNTAX_PROBLEMS)
        faults.push({ offset: offsetOf(source), code, message });
    },
  });
  const documents = [...composer.compose(tokens)];
  // What stands where nothing may stand, such as a bracket too many at the end, the library keeps with its document.
  for (const { code, message, pos } of documents.flatMap(({ errors }) => errors))
    if (faults.length < MOST_SYNTAX_PROBLEMS) faults.push({ offset: pos[0], code, message });
  // A tag that this schema does not know is reported with the tree, where its place has a path.
  const grave = faults.filter((fault) => fault.code !== 'TAG_RESOLVE_FAILED');
  if (grave.length === 0) return documents;
  let lastLine = 0;
  for (const fault of firstFaults(grave, unclosed)) {
    const place = placeAt(fault.offset);
    const { code, message, hint } = wordFault(fault);
    // One slip makes several complaints in its line.
    if (place.line !== lastLine) report.error({ place, path: '' }, code, message, hint);
    lastLine = place.line;
  }
  return null;
}

/** An open bracket explains every complaint after it. */
function firstFaults(
  faults: readonly SyntaxFault[],
  unclosed: readonly SyntaxFault[],
): readonly SyntaxFault[] {
  const [first] = unclosed;
  const sorted = faults.toSorted((a, b) => a.offset - b.offset);
  if (first === undefined) return sorted;
  return [...sorted.filter((fault) => fault.offset < first.offset), ...unclosed];
}

type ErrorSource = number | readonly number[] | { readonly offset: number };

function offsetOf(source: ErrorSource): number {
  if (typeof source === 'number') return source;
  return 'offset' in source ? source.offset : (source[0] ?? 0);
}

/** The library's complaints in the words of people who write parts files, as far as they come up in one. */
function wordFault({ code, message }: SyntaxFault): {
  code: ProblemCode;
  message: string;
  hint: string | null;
} {
  if (code === 'TAB_AS_INDENT')
    return {
      code: 'tab-indent',
      message: 'a tab indents this line',
      hint: 'indent with spaces: most editors can be told to',
    };
  if (code === 'UNCLOSED')
    return {
      code: 'yaml-syntax',
      message: `the ${message} that begins here is never closed`,
      hint: `put the closing ${CLOSING[message] ?? message} at its end`,
    };
  const known = FAULT_WORDS[code];
  const hint = known?.hint ?? 'compare with the starter file: holdfast new writes one';
  return {
    code: 'yaml-syntax',
    message: known?.message ?? `this is not sound YAML: ${saying(message)}`,
    hint,
  };
}

const CLOSING: Readonly<Record<string, string>> = { '[': ']', '{': '}' };

const FAULT_WORDS: Readonly<Record<string, { readonly message: string; readonly hint: string }>> = {
  BLOCK_AS_IMPLICIT_KEY: {
    message: 'there is a second colon in this line, or its indent does not fit the lines above',
    hint: 'put text with a colon into quotation marks; give all keys of one thing the same indent',
  },
  MULTILINE_IMPLICIT_KEY: {
    message: 'a key must stand on one line with its colon',
    hint: 'look for a colon that is missing, or an indent that does not fit the lines above',
  },
  BAD_INDENT: {
    message: 'a bracket is not closed, or the indent of this line does not fit',
    hint: 'close every [ and {; give all keys of one thing the same indent',
  },
  MISSING_CHAR: {
    message: 'something is missing here: a colon, a comma, a closing bracket or a quotation mark',
    hint: 'look at this line and the one before it',
  },
  BAD_SCALAR_START: {
    message: 'no text may begin with this sign',
    hint: 'put the text into quotation marks',
  },
};
