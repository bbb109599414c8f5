import type { Draw } from './draw.ts';
import { mutated } from './mutate.ts';
import { LANGUAGE_NAMES, ODD_LETTERS, oddWord } from './odd-words.ts';

/** Any value of JSON. */
type Json = null | boolean | number | string | Json[] | { [key: string]: Json };

/** A record with a few of its values changed, as its text. */
export function changedRecord(text: string, draw: Draw): string {
  if (draw.chance(0.15)) return mutated(text, draw, WORDS);
  const root = JSON.parse(text) as Json;
  for (let edits = draw.pick([0, 1, 1, 1, 2, 3, 8]); 0 < edits; edits--) changeOne(root, draw);
  const written = JSON.stringify(root, null, draw.pick([0, 1]));
  // A key that JSON.parse makes an own one, which no assignment does.
  return draw.chance(0.05) ? written.replace('{', '{"__proto__":{"format":1},') : written;
}

const WORDS = [
  'null',
  '1e999',
  '-0',
  '"',
  '{',
  '}',
  '[',
  ']',
  ',',
  ':',
  'true',
  '\\u0000',
  '"__proto__":1,',
];

/** Goes down at random and changes what it comes to. */
function changeOne(root: Json, draw: Draw): void {
  let at = root;
  for (;;) {
    if (at === null || typeof at !== 'object') return;
    const keys = Object.keys(at);
    if (keys.length === 0) return;
    const key = draw.pick(keys);
    const own = at as { [key: string]: Json };
    const next = own[key]!;
    const isDeep = next !== null && typeof next === 'object' && Object.keys(next).length > 0;
    if (isDeep && !draw.chance(0.12)) {
      at = next;
      continue;
    }
    if (Array.isArray(at)) changeItem(at, Number(key), draw);
    else if (draw.chance(0.15)) delete own[key];
    else if (draw.chance(0.05)) own[draw.pick([...LANGUAGE_NAMES.slice(1), 'x'])] = oddJson(draw);
    else own[key] = changedValue(next, draw);
    return;
  }
}

function changeItem(list: Json[], i: number, draw: Draw): void {
  draw.weighed<() => unknown>([
    [3, () => list.splice(i, 1, changedValue(list[i]!, draw))],
    [2, () => list.splice(i, 1)],
    [2, () => list.splice(i, 0, structuredClone(list[i]!))],
    [1, () => list.splice(0, list.length)],
    [1, () => list.reverse()],
    [1, () => list.push(...Array.from({ length: 200 }, () => structuredClone(list[i]!)))],
  ])();
}

function changedValue(value: Json, draw: Draw): Json {
  if (draw.chance(0.3)) return oddJson(draw);
  if (typeof value === 'number') return changedNumber(value, draw);
  if (typeof value === 'string')
    return draw.pick([`${value}x`, '', value.toUpperCase(), draw.pick(ODD_LETTERS), oddWord(draw)]);
  return typeof value === 'boolean' ? !value : oddJson(draw);
}

function changedNumber(value: number, draw: Draw): number {
  return draw.pick([
    -value,
    value + 1,
    value - 1,
    value + 0.001,
    value * 2,
    value + 1e-7,
    0,
    0.1,
    1e6,
    1e6 + 1,
    1e308,
    2 ** 53,
    -1,
    90,
    45,
  ]);
}

function oddJson(draw: Draw): Json {
  return draw.weighed<() => Json>([
    [2, () => null],
    [2, () => draw.pick([0, -1, 1e308, 0.5, 2 ** 53, 1e21])],
    [2, () => draw.pick(['', 'x', '1', 'NaN', ...LANGUAGE_NAMES, ...ODD_LETTERS])],
    [1, () => oddWord(draw)],
    [1, () => []],
    [1, () => ({})],
    [1, () => [[]]],
    [1, () => draw.chance(0.5)],
    [1, () => Array.from({ length: draw.between(1, 300) }, () => 1)],
  ])();
}
