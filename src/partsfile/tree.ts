import type { Place } from '../model/place.ts';
import type { Spot } from './report.ts';
import { visible } from './visible.ts';

/** The parts file as a tree of plain values, each with its place. `flawed` marks a value that a problem was reported for. */
export type Tree = Scalar | List | Mapping | Flawed;

export interface Scalar {
  readonly kind: 'scalar';
  readonly value: string | number | boolean | null;
  /** As written, without quotation marks: numbers are read from here, because a fraction has no exact double. */
  readonly text: string;
  readonly place: Place;
}

export interface List {
  readonly kind: 'list';
  readonly items: Tree[];
  readonly place: Place;
}

export interface Mapping {
  readonly kind: 'mapping';
  readonly entries: Map<string, Entry>;
  readonly place: Place;
}

export interface Entry {
  readonly keyPlace: Place;
  readonly value: Tree;
}

export interface Flawed {
  readonly kind: 'flawed';
  readonly place: Place;
}

/** A value of the file together with the way to it; what the readers are given. */
export interface Field extends Spot {
  readonly tree: Tree;
  readonly place: Place;
}

export function rootField(tree: Tree): Field {
  return { tree, path: '', place: tree.place };
}

/** The value under `key`, or null where there is none: no such key, no mapping, or no field at all. */
export function child(field: Field | null, key: string): Field | null {
  if (field?.tree.kind !== 'mapping') return null;
  const entry = field.tree.entries.get(key);
  if (entry === undefined) return null;
  return { tree: entry.value, path: joinKey(field.path, key), place: entry.value.place };
}

/** Where the key itself stands, for a problem that is about having it. */
export function keySpot(field: Field, key: string): Spot {
  const entry = field.tree.kind === 'mapping' ? field.tree.entries.get(key) : undefined;
  return { place: entry?.keyPlace ?? field.place, path: joinKey(field.path, key) };
}

export function keysOf(field: Field): string[] {
  return field.tree.kind === 'mapping' ? [...field.tree.entries.keys()] : [];
}

export function itemsOf(field: Field): Field[] {
  if (field.tree.kind !== 'list') return [];
  return field.tree.items.map((tree, i) => ({
    tree,
    path: `${field.path}[${i}]`,
    place: tree.place,
  }));
}

export function isFlawed(field: Field): boolean {
  return field.tree.kind === 'flawed';
}

/** The text of a scalar as written; of anything else an empty text, which only a field already reported can have. */
export function textOf(field: Field): string {
  return field.tree.kind === 'scalar' ? field.tree.text : '';
}

/** Longer keys are no keys; a path is to be read by people. */
const LONGEST_KEY = 60;

/** `path` and then `key`, shortened where it is very long, in quotation marks where it is not a plain word. */
export function joinKey(path: string, key: string): string {
  const short = key.length <= LONGEST_KEY ? key : `${key.slice(0, LONGEST_KEY)}…`;
  if (!/^[\p{L}\p{N}_-]+$/u.test(short)) return `${path}[${visible(JSON.stringify(short))}]`;
  return path === '' ? short : `${path}.${short}`;
}

/** What a message calls the field: its last key, with the list indices after it. */
export function subjectOf(spot: Spot): string {
  return /[^.[\]]+(\[\d+\])*$/.exec(spot.path)?.[0] ?? spot.path;
}
