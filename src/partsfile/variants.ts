// Makes a whole file of each variant of a parts file: the file itself with the changes of the variant merged over it.
// Idea: mappings are merged key by key, lists and single values replace what was there, and a key that is left empty takes it out. Parts stand in a list,
//   so a variant names them: `parts: { Side: { grain: any } }`, or `all` for those from sheets. What only the other kind of machine has goes with the kind.
// Source: RFC 7396, JSON Merge Patch, section 2, for the three rules.
// Where we differ: parts by name.
// Cost: the file once more for each variant.
// Degenerate cases: a variant without changes is the file; one with a problem in its own lines is left out.

import { suggest } from './nearest.ts';
import { ROUTER_KEYS, SAW_KEYS } from './panel-saw.ts';
import type { Report } from './report.ts';
import {
  child,
  type Entry,
  type Field,
  isFlawed,
  itemsOf,
  keySpot,
  keysOf,
  type List,
  type Mapping,
  type Tree,
  textOf,
} from './tree.ts';
import { acceptName, plainName } from './values.ts';
import { quote } from './visible.ts';

/** A variant as the file that it stands for. */
export interface VariantTree {
  readonly name: string;
  readonly tree: Tree;
}

/** Of what is not there. */
const NOWHERE = { place: null, path: '' };

/** Other lengths or another currency would leave nothing to compare. */
const FIXED_KEYS = ['job', 'unit', 'currency', 'variants'];

/** What the file without changes is called beside its variants. */
export const AS_IT_IS = 'as it is';

/** Stands for every part that is cut from sheets, unless one has this name. */
const ALL_PARTS = 'all';

/** The file without its variants, to be kept while its form is checked; null where it has none. */
export function fileWithoutVariants(tree: Tree): Mapping | null {
  if (tree.kind !== 'mapping' || !tree.entries.has('variants')) return null;
  const entries = new Map([...tree.entries].filter(([key]) => key !== 'variants'));
  return copyOf({ ...tree, entries }) as Mapping;
}

/** `field` is the list of variants after its form was checked, `file` what `fileWithoutVariants` gave. */
export function variantTrees(field: Field | null, file: Mapping, report: Report): VariantTree[] {
  const items = field === null ? [] : itemsOf(field);
  const names = new Map<string, Field>();
  const most = report.limits.variants;
  report.within(items[most] ?? NOWHERE, {
    ...{ limit: 'variants', code: 'out-of-range', found: items.length },
    ...{ subject: 'the file has', instead: 'take some out' },
  });
  return items.slice(0, most).flatMap((item) => {
    const name = variantName(item, names, report);
    if (name === null || !isAllowed(item, report)) return [];
    const changes = changesOf(item, file, report);
    return changes === null ? [] : [{ name, tree: merged(withoutOtherKind(file, item), changes) }];
  });
}

function variantName(item: Field, names: Map<string, Field>, report: Report): string | null {
  const field = child(item, 'name');
  if (field === null || isFlawed(field)) return null;
  const name = acceptName(textOf(field), field, report);
  if (name === null) return null;
  if (name.toLowerCase() === AS_IT_IS) {
    const message = `${quote(name)} is the name of the file without changes`;
    report.error(field, 'duplicate-name', message, 'give the variant another name');
    return null;
  }
  const first = names.get(name);
  if (first === undefined) {
    names.set(name, field);
    return name;
  }
  const message = `there is a variant named ${quote(name)} already, in line ${first.place.line}`;
  report.error(field, 'duplicate-name', message, 'give each variant a name of its own');
  return null;
}

function isAllowed(item: Field, report: Report): boolean {
  const fixed = keysOf(item).filter((key) => FIXED_KEYS.includes(key));
  for (const key of fixed) {
    const message = `a variant cannot change ${key}`;
    const hint = `take it out; what differs in ${key} is another job, in a file of its own`;
    report.error(keySpot(item, key), 'misplaced-key', message, hint);
  }
  return fixed.length === 0;
}

/** The changes in the form of the file, parts as a list; null after a problem. */
function changesOf(item: Field, file: Mapping, report: Report): Mapping | null {
  if (item.tree.kind !== 'mapping') return null;
  const entries = new Map([...item.tree.entries].filter(([key]) => key !== 'name'));
  const changes: Mapping = { ...item.tree, entries };
  const list = file.entries.get('parts')?.value;
  const parts = child(item, 'parts');
  if (parts?.tree.kind !== 'mapping' || list?.kind !== 'list') return changes;
  const changed = changedParts(list, parts, file, report);
  if (changed === null) return null;
  entries.set('parts', { ...entries.get('parts')!, value: changed });
  return changes;
}

function changedParts(list: List, changes: Field, file: Mapping, report: Report): List | null {
  const names = list.items.map(nameOf);
  const hasAll = names.includes(ALL_PARTS);
  const strange = keysOf(changes).filter(
    (key) => !names.includes(plainName(key)) && (key !== ALL_PARTS || hasAll),
  );
  for (const key of strange) {
    const known = [...names.filter((name) => name !== null), ...(hasAll ? [] : [ALL_PARTS])];
    const message = `there is no part named ${quote(key)}`;
    report.error(keySpot(changes, key), 'unknown-key', message, suggest(key, known.slice(0, 20)));
  }
  if (strange.length > 0) return null;
  const named = new Map(keysOf(changes).map((key) => [plainName(key), child(changes, key)!.tree]));
  const items = list.items.map((part, i) => {
    const all = hasAll || !isFromSheets(part, file) ? undefined : named.get(ALL_PARTS);
    const own = named.get(names[i] ?? '');
    return [all, own].reduce<Tree>(
      (tree, change) => (change === undefined ? tree : merged(tree, change)),
      part,
    );
  });
  return { ...list, items };
}

/** Lengths of boards and parts of lumber have hardly a key in common with it. */
function isFromSheets(part: Tree, file: Mapping): boolean {
  const material = valueAt(part, 'material');
  const key = material?.kind === 'scalar' ? material.text : '';
  const stock = valueAt(valueAt(file, 'materials'), key);
  return valueAt(part, 'length') === undefined && valueAt(stock, 'lumber') === undefined;
}

function valueAt(tree: Tree | undefined, key: string): Tree | undefined {
  return tree?.kind === 'mapping' ? tree.entries.get(key)?.value : undefined;
}

function nameOf(part: Tree): string | null {
  const name = valueAt(part, 'name');
  return name?.kind === 'scalar' ? plainName(name.text) : null;
}

/** Where a variant is of another kind of machine: the file without what only the old kind has, and without the vacuum at a saw. */
function withoutOtherKind(file: Mapping, item: Field): Mapping {
  const machine = file.entries.get('machine')?.value;
  const kindOf = (tree: Tree | undefined) => {
    const kind = valueAt(tree, 'kind');
    return kind?.kind === 'scalar' ? kind.text : null;
  };
  const [old, wanted] = [kindOf(machine) ?? 'router', kindOf(child(item, 'machine')?.tree)];
  if (wanted === null || wanted === old) return file;
  const limits = file.entries.get('limits')?.value;
  const isSaw = wanted === 'panel-saw';
  return replaced(file, {
    ...(machine === undefined ? {} : { machine: without(machine, isSaw ? ROUTER_KEYS : SAW_KEYS) }),
    ...(isSaw ? { table: null } : {}),
    ...(isSaw && limits !== undefined ? { limits: without(limits, ['holding']) } : {}),
  });
}

/** Null takes the key out. */
function replaced(mapping: Mapping, values: Readonly<Record<string, Tree | null>>): Mapping {
  const entries = [...mapping.entries].flatMap(([key, entry]): [string, Entry][] => {
    const value = Object.hasOwn(values, key) ? values[key] : undefined;
    if (value === null) return [];
    return [[key, value === undefined ? entry : { ...entry, value }]];
  });
  return { ...mapping, entries: new Map(entries) };
}

function without(tree: Tree, keys: readonly string[]): Tree {
  if (tree.kind !== 'mapping') return tree;
  return { ...tree, entries: new Map([...tree.entries].filter(([key]) => !keys.includes(key))) };
}

/** A tree of its own, in which the places are those of the lines that it comes from. */
function merged(tree: Tree, change: Tree): Tree {
  if (change.kind !== 'mapping') return copyOf(change);
  const entries = new Map<string, Entry>(
    tree.kind === 'mapping' ? (copyOf(tree) as Mapping).entries : [],
  );
  for (const [key, { keyPlace, value }] of change.entries) {
    const old = entries.get(key)?.value;
    if (value.kind === 'scalar' && value.value === null) entries.delete(key);
    else
      entries.set(key, { keyPlace, value: old === undefined ? copyOf(value) : merged(old, value) });
  }
  return { kind: 'mapping', entries, place: change.place };
}

/** Checking the form marks what it finds in the tree itself. */
function copyOf(tree: Tree): Tree {
  if (tree.kind === 'list') return { ...tree, items: tree.items.map(copyOf) };
  if (tree.kind !== 'mapping') return tree;
  const entries = [...tree.entries].map(
    ([key, entry]) => [key, { ...entry, value: copyOf(entry.value) }] as const,
  );
  return { ...tree, entries: new Map(entries) };
}
