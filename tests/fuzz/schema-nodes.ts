import type { Draw } from './draw.ts';
import { LANGUAGE_NAMES, oddWord } from './odd-words.ts';
import type { Node, NodeMap } from './yaml-text.ts';

/** What of JSON Schema the forms of the files use. */
export interface Schema {
  readonly type?: string | readonly string[];
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly anyOf?: readonly Schema[];
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly required?: readonly string[];
  readonly additionalProperties?: Schema | boolean;
  readonly items?: Schema | readonly Schema[];
  readonly minimum?: number;
  readonly maximum?: number;
}

/** How the values of a file are drawn. */
export interface Taste {
  /** Of the keys that may be left out. */
  readonly keys: number;
  /** Of the values that are odd. */
  readonly odd: number;
  /** The value of a key, or null for any of its form. */
  readonly value: (key: string, draw: Draw) => Node | null;
}

/** A tree of the form, so that every key of it comes up, also those that are yet to come. */
export function schemaNode(schema: Schema, key: string, draw: Draw, taste: Taste): Node {
  if (draw.chance(taste.odd)) return oddNode(draw);
  const usual = taste.value(key, draw);
  if (usual !== null && isOfForm(usual, schema)) return usual;
  if (schema.anyOf !== undefined) return schemaNode(draw.pick(schema.anyOf), key, draw, taste);
  if (schema.const !== undefined) return String(schema.const);
  if (schema.enum !== undefined) return String(draw.pick(schema.enum));
  if (schema.properties !== undefined || schema.additionalProperties instanceof Object)
    return mappingNode(schema, draw, taste);
  if (schema.items !== undefined) return listNode(schema.items, key, draw, taste);
  const type = typeof schema.type === 'string' ? schema.type : draw.pick(schema.type ?? ['string']);
  if (type === 'boolean') return draw.pick(['yes', 'no', 'true', 'false']);
  if (type === 'integer') return String(wholeOf(schema, draw));
  return type === 'number'
    ? String(draw.between(1, 600))
    : draw.pick(['A', 'Side', '12', '3.5', 'x']);
}

/** Keys of one name may be lists here and single values there. */
function isOfForm(node: Node, schema: Schema): boolean {
  if (schema.anyOf !== undefined) return schema.anyOf.some((each) => isOfForm(node, each));
  if (typeof node === 'string')
    return schema.items === undefined && schema.properties === undefined;
  return Array.isArray(node) ? schema.items !== undefined : schema.properties !== undefined;
}

/** A text that quotes itself, so that one odd value does not spoil the whole file. */
function oddNode(draw: Draw): Node {
  return draw.weighed<() => Node>([
    [4, () => oddWord(draw)],
    [3, () => JSON.stringify(oddWord(draw))],
    [1, () => []],
    [1, () => ({})],
    [1, () => ({ [draw.pick(LANGUAGE_NAMES)]: oddWord(draw) })],
    [1, () => draw.list(1, 3, () => oddNode(draw))],
    [1, () => '"'.concat(oddWord(draw).replace(/["\\]/g, ''), '"')],
  ])();
}

function wholeOf({ minimum = 0, maximum = 10 }: Schema, draw: Draw): number {
  if (draw.chance(0.02)) return draw.pick([minimum - 1, minimum, maximum, maximum + 1]);
  return draw.between(Math.max(0, minimum), Math.min(maximum, Math.max(0, minimum) + 4));
}

function mappingNode(schema: Schema, draw: Draw, taste: Taste): NodeMap {
  const { properties = {}, required = [], additionalProperties } = schema;
  const known = Object.entries(properties).flatMap(([key, each]): [string, Node][] => {
    const wanted = required.includes(key) ? !draw.chance(taste.odd / 2) : draw.chance(taste.keys);
    return wanted ? [[key, schemaNode(each, key, draw, taste)]] : [];
  });
  const others =
    additionalProperties instanceof Object
      ? draw.list(1, 2, (i): [string, Node] => [
          draw.chance(taste.odd) ? draw.pick(LANGUAGE_NAMES) : `m${i}`,
          schemaNode(additionalProperties, '*', draw, taste),
        ])
      : [];
  const strange: [string, Node][] = draw.chance(taste.odd)
    ? [[draw.pick([...LANGUAGE_NAMES, 'lenght', 'x', '"a\\nb"', '""']), oddNode(draw)]]
    : [];
  return Object.fromEntries([...known, ...others, ...strange]);
}

function listNode(items: Schema | readonly Schema[], key: string, draw: Draw, taste: Taste): Node {
  if (Array.isArray(items))
    return (items as readonly Schema[]).map((each) => schemaNode(each, `${key}[]`, draw, taste));
  return draw.list(1, 3, () => schemaNode(items as Schema, `${key}[]`, draw, taste));
}
