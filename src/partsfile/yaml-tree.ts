import { isAlias, isCollection, isMap, isScalar, type Node, type YAMLMap } from 'yaml';
import type { Place } from '../model/place.ts';
import type { Excess } from './limit-fault.ts';
import type { Report } from './report.ts';
import { type Entry, joinKey, type Scalar, type Tree } from './tree.ts';
import { quote, shortened } from './visible.ts';

/** The place of an offset in the text. */
export type PlaceAt = (offset: number) => Place;

/** Makes the tree of one document. The class guards the limits on depth and on repeated values, and says each once. */
export class TreeBuilder {
  readonly #placeAt: PlaceAt;
  readonly #report: Report;
  readonly #anchors = new Map<string, Node>();
  #insideAlias = 0;
  #repeated = 0;
  #limitReached = false;

  constructor(placeAt: PlaceAt, report: Report) {
    this.#placeAt = placeAt;
    this.#report = report;
  }

  /** The whole tree, or null where a limit was passed: the rest would be said to be missing. */
  tree(root: Node): Tree | null {
    const tree = this.#build(root, '', 0);
    return this.#limitReached ? null : tree;
  }

  #build(node: Node, path: string, depth: number): Tree {
    const place = this.#placeOf(node);
    if (0 < this.#insideAlias) this.#repeated++;
    if (this.#limitReached || !this.#within(place, depth)) return { kind: 'flawed', place };
    if (isAlias(node)) return this.#alias(node.source, place, path, depth);
    if (!isScalar(node) && !isCollection(node)) return { kind: 'flawed', place };
    if (node.anchor !== undefined && this.#insideAlias === 0) this.#anchors.set(node.anchor, node);
    if (node.tag !== undefined)
      return this.#refuseFeature(place, path, `the tag ${quote(node.tag)}`);
    if (isScalar(node)) return scalar(node, place);
    if (isMap(node)) return this.#mapping(node as YAMLMap<Node, Node | null>, path, depth);
    const items = (node.items as Node[]).map((item, i) =>
      this.#build(item, `${path}[${i}]`, depth + 1),
    );
    return { kind: 'list', items, place };
  }

  #alias(name: string, place: Place, path: string, depth: number): Tree {
    const target = this.#anchors.get(name);
    if (target === undefined) {
      const message = `*${shortened(name)} repeats an anchor &${shortened(name)} that is not above it`;
      this.#report.error(
        { place, path },
        'yaml-syntax',
        message,
        'put a text that begins with * into quotation marks',
      );
      return { kind: 'flawed', place };
    }
    this.#insideAlias++;
    const tree = this.#build(target, path, depth + 1);
    this.#insideAlias--;
    return tree;
  }

  #mapping(node: YAMLMap<Node, Node | null>, path: string, depth: number): Tree {
    const entries = new Map<string, Entry>();
    for (const { key, value } of node.items) {
      const keyPlace = this.#placeOf(key);
      if (!isScalar(key)) {
        this.#refuseFeature(keyPlace, path, 'a key that is not a plain word');
        continue;
      }
      const name = String(key.value);
      if (name === '<<') {
        this.#refuseFeature(keyPlace, path, 'the merge key <<');
        continue;
      }
      if (name === '__proto__') {
        this.#refuseFeature(keyPlace, path, 'a key of this name');
        continue;
      }
      if (entries.has(name)) {
        this.#refuseDuplicate(keyPlace, joinKey(path, name), name, entries.get(name));
        continue;
      }
      // A key without a value has no place but its own.
      const empty = value === null || (isScalar(value) && value.source === '');
      const tree: Tree = empty
        ? { kind: 'scalar', value: null, text: '', place: keyPlace }
        : this.#build(value, joinKey(path, name), depth + 1);
      entries.set(name, { keyPlace, value: tree });
    }
    return { kind: 'mapping', entries, place: this.#placeOf(node) };
  }

  #placeOf(node: Node): Place {
    return this.#placeAt(node.range?.[0] ?? 0);
  }

  #refuseDuplicate(place: Place, path: string, name: string, first: Entry | undefined): void {
    this.#report.error(
      { place, path },
      'duplicate-key',
      `the key ${quote(name)} is here twice; the first is in line ${first?.keyPlace.line}`,
      'keep one of the two',
    );
  }

  #refuseFeature(place: Place, path: string, what: string): Tree {
    this.#report.error(
      { place, path },
      'yaml-feature',
      `${what} is not used in parts files`,
      'write keys and values plainly',
    );
    return { kind: 'flawed', place };
  }

  /** Nested anchors would otherwise multiply without end. */
  #within(place: Place, depth: number): boolean {
    const spot = { place, path: '' };
    const isWithin =
      this.#report.within(spot, {
        ...{ limit: 'aliases', code: 'too-many-aliases', found: this.#repeated, atLeast: true },
        subject: 'anchors (*name) put in',
        instead: 'write the values out, use count',
      }) &&
      this.#report.within(spot, {
        ...tooDeep(depth),
        instead: 'take a list apart; an anchor (&name) that contains itself does this too',
      });
    this.#limitReached = !isWithin;
    return isWithin;
  }
}

/** Lists inside lists, as the nesting of the file or as that of an anchor. */
export function tooDeep(depth: number): Omit<Excess, 'instead'> {
  return {
    ...{ limit: 'depth', code: 'too-deep', found: depth, atLeast: true },
    subject: 'lists inside lists go down',
  };
}

/** Decimal numbers and the words for yes and no have a value; everything else, also `0x10`, `1e9` and `.nan`, stays a text. */
function scalar(
  node: { readonly value: unknown; readonly type?: unknown; readonly source?: unknown },
  place: Place,
): Scalar {
  const text = String(node.value);
  if (node.type !== 'PLAIN') return { kind: 'scalar', value: text, text, place };
  return { kind: 'scalar', value: plainValue(text), text, place };
}

function plainValue(text: string): Scalar['value'] {
  if (text === '' || text === '~' || /^null$/i.test(text)) return null;
  if (/^(true|yes)$/i.test(text)) return true;
  if (/^(false|no)$/i.test(text)) return false;
  const number = /^[-+]?(\d+(\.\d*)?|\.\d+)$/.test(text) ? Number(text) : Number.NaN;
  return Number.isFinite(number) ? number : text;
}
