import type { PartGrain, Side } from '../../model/part.ts';
import { RESOURCE_LIMITS } from '../../model/resource-limits.ts';
import { quote } from '../visible.ts';
import { folded } from './column-words.ts';
import { type Habit, plainNumber } from './list-numbers.ts';

type Read<Value> = { readonly value: Value } | { readonly why: string };

const words = (text: string): ReadonlySet<string> => new Set(text.split(/,\s*/));

const YES = words('x, xx, yes, y, ja, j, oui, o, si, s, sim, tak, t, true, wahr, vrai');
const NO =
  words(`no, n, nein, non, not, nee, nie, nao, none, keine, kein, ohne, sans, aucun, aucune, sin, ninguno, nessuno, senza, geen, bez, brak,
  sem, false, falsch, faux, 0`);
const ALONG =
  words(`along, length, lengthwise, lengthways, long, l, langs, lange, der lange nach, longueur, en longueur, sens longueur, largo, longitudinal,
  a lo largo, lunghezza, lungo, in lunghezza, lengte, in de lengte, wzdluz, dlugosc, comprimento, ao comprimento`);
const ACROSS =
  words(`across, width, widthwise, cross, crosswise, w, b, quer, breite, der breite nach, largeur, en largeur, travers, en travers, ancho, transversal, a lo ancho,
  larghezza, traverso, in larghezza, breedte, dwars, in de breedte, w poprzek, szerokosc, largura`);
const ANY = words(
  `any, either, free, egal, beliebig, frei, indifferent, libre, indiferente, indistinto, indifferente, libero, vrij, dowolny, dowolnie, livre`,
);

/** Whether a cell says that there is nothing: it is empty, a dash or a word for none. */
export function isNone(cell: string): boolean {
  return /^[-–—./]*$/.test(cell) || NO.has(folded(cell));
}

/** Which way the grain runs, or only that it counts. */
export function readGrain(cell: string): Read<PartGrain | 'some'> {
  const word = folded(cell);
  if (isNone(cell) || ANY.has(word)) return { value: 'any' };
  if (ALONG.has(word)) return { value: 'along' };
  if (YES.has(word) || word === '1') return { value: 'some' };
  if (ACROSS.has(word)) return { value: 'across' };
  return { why: `${quote(cell)} says no way of the grain: along, across or any` };
}

const MOST_OF_A_PART = RESOURCE_LIMITS.pieces.most;

/** A whole number, with or without a word for pieces. */
export function readCount(cell: string, habit: Habit): Read<number> {
  const bare = cell.replace(/^x ?(?=\d)/i, '').replace(/ ?(?:x|[\p{L}]{1,7}\.?)$/iu, '');
  const plain = plainNumber(bare.replace(/^[-−–]/, ''), habit) ?? '';
  const number = /^\d+(?:\.0*)?$/.exec(plain)?.[0];
  if (number !== undefined && /^[-−–]/.test(bare) && Number(number) !== 0)
    return { why: `the count is ${quote(cell)}, less than none` };
  if (number === undefined) {
    const what = cell.startsWith('=') ? 'a formula: save the list with values' : 'no whole number';
    return { why: `${quote(cell)} is ${what}` };
  }
  const value = Number(number);
  if (value === 0) return { why: 'the count is 0, so there is nothing to cut' };
  if (MOST_OF_A_PART < value) return { why: `${quote(cell)} is more than ${MOST_OF_A_PART}` };
  return { value };
}

/** What a cell says of the band of an edge: none, there is one, or how thick it is, to be read as a length. */
export type Band = 'none' | 'some' | { readonly thick: string };

export function readBand(cell: string): Read<Band> {
  if (isNone(cell)) return { value: 'none' };
  const word = folded(cell);
  if (/^[x✓✔√+*•●]$/i.test(cell) || YES.has(word)) return { value: 'some' };
  const [, number] = /(?:^|[\p{L}] ?)(\d+(?:[.,/]\d+)? ?(?:mm|"|in)?)$/iu.exec(cell) ?? [];
  if (number !== undefined) return { value: { thick: number } };
  // What the band is called says that there is one.
  if (/^[\p{L}][\p{L} ./-]+$/u.test(cell)) return { value: 'some' };
  return { why: `${quote(cell)} says neither that there is a band nor how thick it is` };
}

const LONG_SIDES: readonly Side[] = ['bottom', 'top'];
const SHORT_SIDES: readonly Side[] = ['left', 'right'];
const ALL_SIDES: readonly Side[] = [...SHORT_SIDES, ...LONG_SIDES];

/** Words for all four. */
const ALL =
  words(`all, 4, 4x, all round, all around, all edges, all sides, alle, umlaufend, rundum, tous, toutes, 4 cotes, tout autour, todos, todo, tutti, tutto, rondom, wszystkie,
  dookola, todas`);

const SIDE_WORDS: readonly (readonly [Side, ReadonlySet<string>])[] = [
  ['left', words('left, links, gauche, izquierda, sinistra, lewa, esquerda')],
  ['right', words('right, rechts, droite, derecha, destra, prawa, direita')],
  [
    'bottom',
    words('bottom, front, vorne, vorn, unten, avant, bas, delante, davanti, voor, przod, frente'),
  ],
  ['top', words('top, back, hinten, oben, arriere, detras, dietro, achter, tyl, tras')],
];

/**
 * The sides that have a band, from one cell for all four: words of sides, all, `2L 1W` (how many along the length and along the width; B, S, K, C, Q stand for the width too) or
 * `L1 W2` (which of them). Which side a single one is does not matter to the size, so it is the first.
 */
export function readEdges(cell: string): Read<readonly Side[]> {
  if (isNone(cell)) return { value: [] };
  const word = folded(cell);
  if (ALL.has(word)) return { value: ALL_SIDES };
  const named = word.split(' ').map((each) => SIDE_WORDS.find(([, names]) => names.has(each))?.[0]);
  if (named.every((side) => side !== undefined))
    return { value: ALL_SIDES.filter((side) => named.includes(side)) };
  const code = word.replace(/ |x/g, '');
  const sides = countedSides(code) ?? numberedSides(code);
  return sides === null
    ? { why: `${quote(cell)} says no sides, such as 2L 1W, or left and top` }
    : { value: sides };
}

function countedSides(code: string): readonly Side[] | null {
  if (!/^(?:[0-2]?[lwbskcq]){1,4}$/.test(code)) return null;
  let long = 0;
  let short = 0;
  for (const [, count = '', letter] of code.matchAll(/([0-2]?)([lwbskcq])/g)) {
    const number = count === '' ? 1 : Number(count);
    if (letter === 'l') long += number;
    else short += number;
  }
  if (long > 2 || short > 2) return null;
  return [...SHORT_SIDES.slice(0, short), ...LONG_SIDES.slice(0, long)];
}

function numberedSides(code: string): readonly Side[] | null {
  if (!/^(?:[lwbskcq][12]){1,4}$/.test(code)) return null;
  const sides = [...code.matchAll(/(.)(.)/g)].map(
    ([, letter, which]) => (letter === 'l' ? LONG_SIDES : SHORT_SIDES)[Number(which) - 1],
  );
  return ALL_SIDES.filter((side) => sides.includes(side));
}
