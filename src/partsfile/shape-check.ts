import type { z } from 'zod';
import { never } from '../geometry/assert.ts';
import {
  KEY_SYNONYMS,
  MISSING_HINTS,
  SECTION_NAMES,
  WORD_HINTS,
  WORD_SYNONYMS,
} from './key-words.ts';
import { nearest, suggest } from './nearest.ts';
import type { Report, Spot } from './report.ts';
import { FILE_SCHEMA, partsFileSchema } from './schema.ts';
import { keysOfSection, type SchemaOf, sectionsWithKey } from './schema-keys.ts';
import { joinKey, type Mapping, type Tree } from './tree.ts';
import { quote, shortened } from './visible.ts';

type Issue = z.core.$ZodIssue;
type Way = readonly PropertyKey[];

/** A kind of file: its schema, and the same as JSON Schema. */
export interface Form {
  readonly schema: z.ZodType;
  readonly schemaOf: SchemaOf;
}

const PARTS_FILE: Form = { schema: FILE_SCHEMA, schemaOf: partsFileSchema };

/**
 * Checks the form of the whole file against the schema and reports every fault where it stands. Afterwards each value in the
 * tree is either of the form that the schema asks for or marked as flawed, and unknown keys are gone: readers of the sections
 * find what they expect, and say nothing a second time.
 */
export function checkShape(tree: Tree, report: Report, form: Form = PARTS_FILE): Tree {
  const top: Mapping = {
    kind: 'mapping',
    entries: new Map([['', { keyPlace: tree.place, value: tree }]]),
    place: tree.place,
  };
  const issues = form.schema.safeParse(plainValue(tree)).error?.issues ?? [];
  // Unknown keys first: a mistyped key is not missing as well.
  const unknownFirst = issues.toSorted((a, b) => rank(a) - rank(b));
  for (const issue of unknownFirst)
    reportIssue(issue, [], { top, report, schemaOf: form.schemaOf });
  return top.entries.get('')?.value ?? tree;
}

function rank(issue: Issue): number {
  return issue.code === 'unrecognized_keys' ? 0 : 1;
}

/** What the schema is shown: objects without a prototype, so that no key of the file means anything to the language. */
function plainValue(tree: Tree): unknown {
  if (tree.kind === 'scalar') return tree.value;
  if (tree.kind === 'list') return tree.items.map(plainValue);
  // The schema will miss it, and the issue ends at a node that is marked already.
  if (tree.kind === 'flawed') return undefined;
  const object: Record<string, unknown> = Object.create(null);
  for (const [key, entry] of tree.entries) object[key] = plainValue(entry.value);
  return object;
}

interface Check {
  /** Holds the tree under an empty key, so that the root can be marked like any other value. */
  readonly top: Mapping;
  readonly report: Report;
  readonly schemaOf: SchemaOf;
}

function reportIssue(issue: Issue, base: Way, check: Check): void {
  const way = [...base, ...issue.path];
  switch (issue.code) {
    case 'invalid_union': {
      const fitting = bestBranch(issue.errors);
      if (fitting === null) reportMisfit(way, issue.message, check);
      else for (const inner of fitting) reportIssue(inner, way, check);
      break;
    }
    case 'unrecognized_keys':
      for (const key of issue.keys) reportUnknownKey(way, key, check);
      break;
    case 'invalid_value':
      reportUnknownWord(way, issue.values.map(String), check);
      break;
    case 'too_small':
      if (issue.origin !== 'array') reportRange(way, `the least is ${issue.minimum}`, check);
      else if (issue.minimum === 1) reportEmptyList(way, check);
      else reportMisfit(way, issue.message, check);
      break;
    case 'too_big':
      if (issue.origin === 'array')
        reportMisfit(way, `${issue.message}; decimals take a point, not a comma`, check);
      else reportRange(way, `the most is ${issue.maximum}`, check);
      break;
    default:
      reportMisfit(way, issue.message, check);
  }
}

/** The branch of a union whose kind of value was written, with the fewest faults inside; null where none is of the kind. */
function bestBranch(branches: readonly (readonly Issue[])[]): readonly Issue[] | null {
  const ofTheKind = branches.filter((issues) => !issues.some(isMisfit));
  return ofTheKind.toSorted((a, b) => a.length - b.length)[0] ?? null;
}

function isMisfit(issue: Issue): boolean {
  if (issue.path.length !== 0) return false;
  if (issue.code === 'invalid_union') return bestBranch(issue.errors) === null;
  return issue.code === 'invalid_type' || issue.code === 'invalid_value';
}

function reportMisfit(way: Way, right: string, check: Check): void {
  const found = locate(way, check.top);
  if (found === null || found.value?.kind === 'flawed') return;
  const { spot, value, subject } = found;
  if (value === undefined) {
    const hint = MISSING_HINTS[subject] ?? `write ${subject}: ${right}`;
    check.report.error(spot, 'missing-key', `${subject} is missing here`, hint);
  } else if (value.kind === 'scalar' && value.value === null) {
    const hint = `write ${right}, or leave the key out where it is not needed`;
    check.report.error(spot, 'wrong-type', `${subject} has no value`, hint);
  } else {
    const quoted = value.kind === 'scalar' && /^\d+$/.test(String(value.value));
    const hint =
      quoted && right === 'a whole number' ? 'take away the quotation marks' : `write ${right}`;
    check.report.error(spot, 'wrong-type', `${subject} is ${described(value)}`, hint);
  }
  found.mark();
}

function reportUnknownWord(way: Way, words: readonly string[], check: Check): void {
  const found = locate(way, check.top);
  if (found === null || found.value?.kind === 'flawed') return;
  const { spot, value, subject } = found;
  if (value === undefined) {
    reportMisfit(way, words.join(' or '), check);
    return;
  }
  const word = value.kind === 'scalar' ? value.text : '';
  const synonym = WORD_SYNONYMS[word.toLowerCase()];
  const hint =
    synonym !== undefined && words.includes(synonym)
      ? `did you mean ${synonym}?`
      : (WORD_HINTS[subject] ?? suggest(word, words));
  check.report.error(spot, 'unknown-word', `${subject} cannot be ${described(value)}`, hint);
  found.mark();
}

function reportEmptyList(way: Way, check: Check): void {
  const found = locate(way, check.top);
  if (found?.value === undefined) return;
  const hint = MISSING_HINTS[found.subject] ?? 'put at least one thing into it';
  check.report.error(found.spot, 'wrong-type', `${found.subject} is an empty list`, hint);
  found.mark();
}

function reportRange(way: Way, limit: string, check: Check): void {
  const found = locate(way, check.top);
  if (found?.value === undefined) return;
  const { spot, value, subject } = found;
  check.report.error(spot, 'out-of-range', `${subject} is ${described(value)}; ${limit}`);
  found.mark();
}

function reportUnknownKey(way: Way, key: string, check: Check): void {
  const found = locate(way, check.top);
  if (found?.value?.kind !== 'mapping') return;
  if (reportSplitNumber(found.value, key, found.spot.path, check)) return;
  const { entries } = found.value;
  const keyPlace = entries.get(key)?.keyPlace ?? found.value.place;
  const spot = { place: keyPlace, path: joinKey(found.spot.path, key) };
  entries.delete(key);
  const where = section(way);
  const message = `${SECTION_NAMES[where] ?? where} has no key ${quote(key)}`;
  const meant = meantKey(where, key, check);
  const hint = meant === null ? otherwiseHint(where, key, check) : `did you mean ${meant}?`;
  check.report.error(spot, 'unknown-key', message, hint);
  if (meant !== null && !entries.has(meant))
    entries.set(meant, { keyPlace, value: { kind: 'flawed', place: keyPlace } });
}

/** In brackets a decimal comma ends the value: `{ size: 600,5 x 300 }` is a size of 600 and an empty key `5 x 300`. */
function reportSplitNumber(
  mapping: Mapping,
  key: string,
  path: string,
  { report }: Check,
): boolean {
  const { entries } = mapping;
  const keys = [...entries.keys()];
  const before = keys[keys.indexOf(key) - 1];
  const empty = entries.get(key)?.value;
  const number = before === undefined ? undefined : entries.get(before);
  if (before === undefined || number?.value.kind !== 'scalar') return false;
  const { text, place } = number.value;
  if (!/^\d/.test(key) || !/\d$/.test(text) || empty?.kind !== 'scalar' || empty.text !== '')
    return false;
  const hint = `write ${shortened(`${text}.${key}`)}: decimals take a point`;
  const message = `${quote(`${text},${key}`)} has a comma in its number`;
  report.error({ place, path: joinKey(path, before) }, 'decimal-comma', message, hint);
  entries.delete(key);
  entries.set(before, { ...number, value: { kind: 'flawed', place } });
  return true;
}

function meantKey(where: string, key: string, { schemaOf }: Check): string | null {
  const known = keysOfSection(where, schemaOf);
  const synonym = KEY_SYNONYMS[key.toLowerCase()];
  return synonym !== undefined && known.includes(synonym) ? synonym : nearest(key, known);
}

function otherwiseHint(where: string, key: string, { schemaOf }: Check): string {
  const elsewhere = sectionsWithKey(key, schemaOf).map((path) => SECTION_NAMES[path] ?? path);
  return 0 < elsewhere.length
    ? `${key} belongs to ${elsewhere.join(' or ')}`
    : `possible: ${keysOfSection(where, schemaOf).join(', ')}`;
}

interface Located {
  readonly spot: Spot;
  /** Undefined where the way ends at a key that is not there; the spot is then that of the mapping. */
  readonly value: Tree | undefined;
  /** The last key of the way, with the list indices after it. */
  readonly subject: string;
  readonly mark: () => void;
}

function locate(way: Way, top: Mapping): Located | null {
  let holder: Tree = top;
  let key: PropertyKey = '';
  let path = '';
  let subject = 'the file';
  for (const step of way) {
    const next: Tree | undefined = valueAt(holder, key);
    if (next === undefined) return null;
    holder = next;
    key = step;
    path = typeof step === 'number' ? `${path}[${step}]` : joinKey(path, String(step));
    subject = typeof step === 'number' ? `${subject}[${step}]` : shortened(String(step));
  }
  const value = valueAt(holder, key);
  const spot = { place: (value ?? holder).place, path };
  return { spot, value, subject, mark: () => markFlawed(holder, key, spot) };
}

function valueAt(holder: Tree, key: PropertyKey): Tree | undefined {
  if (holder.kind === 'mapping') return holder.entries.get(String(key))?.value;
  return holder.kind === 'list' ? holder.items[Number(key)] : undefined;
}

function markFlawed(holder: Tree, key: PropertyKey, { place }: Spot): void {
  const flawed: Tree = { kind: 'flawed', place: place ?? holder.place };
  if (holder.kind === 'list') holder.items[Number(key)] = flawed;
  if (holder.kind !== 'mapping') return;
  const keyPlace = holder.entries.get(String(key))?.keyPlace ?? flawed.place;
  holder.entries.set(String(key), { keyPlace, value: flawed });
}

/** The way with `*` for list indices and for the keys that the user chooses. */
function section(way: Way): string {
  const steps = way.map((step, i) =>
    typeof step === 'number' || (i === 1 && way[0] === 'materials') ? '*' : String(step),
  );
  return steps.join('.');
}

function described(tree: Tree): string {
  switch (tree.kind) {
    case 'flawed':
      return 'not readable';
    case 'list':
      return tree.items.length === 0 ? 'an empty list' : `a list of ${tree.items.length}`;
    case 'mapping':
      return 'a group of keys';
    case 'scalar':
      if (tree.value === null) return 'empty';
      return typeof tree.value === 'string' ? `the text ${quote(tree.text)}` : shortened(tree.text);
    default:
      return never(tree);
  }
}
