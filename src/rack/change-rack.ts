import {
  type Document,
  isMap,
  isSeq,
  parseDocument,
  Scalar,
  visit,
  type YAMLMap,
  YAMLSeq,
} from 'yaml';
import { assert } from '../geometry/assert.ts';
import type { FileUnit } from '../model/job.ts';
import { type Deed, RACK_FORMAT, type Rack } from '../model/rack.ts';
import type { ResourceLimits } from '../model/resource-limits.ts';
import type { Problem } from '../partsfile/problem.ts';
import { labelNumber, readRack } from './read-rack.ts';

/** An offcut as it is written down: texts in the form of the file, keys that say nothing left out. */
export interface Line {
  readonly id: string;
  readonly material: string;
  readonly thickness: string;
  readonly size: string;
  readonly grain: 'first' | 'second' | 'none';
  readonly price: string | null;
  readonly from: Deed;
  readonly note: string | null;
}

/** A rack's text, and the limits that it was read with where they are not the usual ones. */
export interface KeptText {
  readonly text: string;
  readonly limits?: ResourceLimits;
}

/** The new text, or why there is none. */
export type Changed = { readonly text: string } | { readonly why: string };

/** A rack without offcuts, as text. */
export function emptyRack(unit: FileUnit): string {
  return `# The offcuts of the shop. holdfast offcuts --help says how it is kept; you may write in it as well.
format: ${RACK_FORMAT}
unit: ${unit}
offcuts: []
`;
}

/** The text with further offcuts at its end, the number of the next label counted on; `currency` is named where a price comes in. */
export function withOffcuts(
  kept: KeptText,
  rack: Rack,
  lines: readonly Line[],
  currency: string | null,
): Changed {
  const next = Math.max(rack.nextNumber, ...lines.map(({ id }) => labelNumber(id) + 1));
  return edited(kept, (document) => {
    const list = offcutList(document);
    for (const line of lines) list.add(nodeOf(document, line));
    if (currency !== null) document.set('currency', new Scalar(currency));
    document.set('next-number', new Scalar(String(next)));
  });
}

/** What is wrong with an offcut that a person describes, before it goes into any file. */
export function problemsOfLine(
  line: Line,
  { unit, currency }: { readonly unit: FileUnit; readonly currency: string | null },
): readonly Problem[] {
  const text = rewritten(emptyRack(unit), (document) => {
    offcutList(document).add(nodeOf(document, line));
    if (currency !== null) document.set('currency', nameNode(currency));
  });
  return readRack(text).problems.map((problem) => ({ ...problem, place: null }));
}

/** The text with the offcuts of these ids marked as used. */
export function withUsed(kept: KeptText, ids: readonly string[], by: Deed): Changed {
  return eachOf(kept, ids, (document, entry) => {
    entry.set('state', new Scalar('used'));
    const deed = deedNode(document, { job: by.job, plan: by.plan, date: by.date });
    if (deed === null) entry.delete('used-by');
    else entry.set('used-by', deed);
  });
}

/** The text with the offcuts of these ids on the rack again. */
export function withTakenBack(kept: KeptText, ids: readonly string[]): Changed {
  return eachOf(kept, ids, (_, entry) => {
    entry.delete('state');
    entry.delete('used-by');
  });
}

function eachOf(
  kept: KeptText,
  ids: readonly string[],
  change: (document: Document, entry: YAMLMap) => void,
): Changed {
  return edited(kept, (document) => {
    for (const entry of offcutList(document).items) {
      assert(isMap(entry), 'an offcut that was read is a group of keys');
      if (ids.includes(String(entry.get('id')))) change(document, entry);
    }
  });
}

/** Whoever calls has read the text; it can be read again, or nothing comes of it. */
function edited({ text, limits }: KeptText, change: (document: Document) => void): Changed {
  if (hasAliases(text))
    return { why: 'the rack has values that stand for others (& and *): write them out first' };
  const written = rewritten(text, change);
  const { rack, problems } = readRack(written, limits);
  return rack === null
    ? { why: `the rack cannot hold that: ${problems[0]?.message}` }
    : { text: written };
}

/** A value that is changed in one place would change in others. */
function hasAliases(text: string): boolean {
  let found = false;
  visit(parseDocument(text, { schema: 'failsafe', uniqueKeys: false }), {
    Alias: () => {
      found = true;
      return visit.BREAK;
    },
  });
  return found;
}

/** Comments stay where they are, and so does the kind of line ends; blanks and indents may change, and signs that end a line elsewhere become such. */
function rewritten(text: string, change: (document: Document) => void): string {
  const mark = text.startsWith('\ufeff') ? '\ufeff' : '';
  const plain = text
    .slice(mark.length)
    .replaceAll('\r\n', '\n')
    .replace(/[\r\u2028\u2029]/g, ' ');
  const document = parseDocument(plain, { schema: 'failsafe', uniqueKeys: false });
  change(document);
  const written = `${mark}${document.toString({ lineWidth: 0 })}`;
  return text.includes('\r\n') ? written.replaceAll('\n', '\r\n') : written;
}

function offcutList(document: Document): YAMLSeq {
  const found = document.get('offcuts');
  if (isSeq(found)) {
    if (found.items.length === 0) found.flow = false;
    return found;
  }
  const list = new YAMLSeq();
  document.set('offcuts', list);
  return list;
}

function nodeOf(document: Document, line: Line): YAMLMap {
  const { from } = line;
  const entry = document.createNode({}) as YAMLMap;
  const add = (key: string, value: string | null, isName = false) => {
    if (value !== null) entry.set(key, isName ? nameNode(value) : new Scalar(value));
  };
  add('id', line.id);
  add('material', line.material, true);
  add('thickness', line.thickness);
  add('size', line.size);
  add('grain', line.grain);
  const origin = deedNode(document, { job: from.job, sheet: from.sheet, plan: from.plan });
  if (origin !== null) entry.set('from', origin);
  add('date', from.date);
  add('price', line.price);
  add('note', line.note, true);
  return entry;
}

/** In one line; null where nobody said anything. */
function deedNode(
  document: Document,
  deed: Readonly<Record<string, string | number | null>>,
): YAMLMap | null {
  const said = Object.entries(deed).filter(([, value]) => value !== null);
  if (said.length === 0) return null;
  const node = document.createNode({}) as YAMLMap;
  node.flow = true;
  for (const [key, value] of said)
    node.set(key, key === 'job' ? nameNode(String(value)) : new Scalar(String(value)));
  return node;
}

/** In quotation marks, unless nobody could take it for anything but a text. */
function nameNode(value: string): Scalar {
  const node = new Scalar(value);
  const isPlain =
    /^\p{L}[\p{L}\p{N} _-]*$/u.test(value) && !/^(y|n|yes|no|true|false|on|off|null)$/i.test(value);
  if (!isPlain) node.type = Scalar.QUOTE_DOUBLE;
  return node;
}
