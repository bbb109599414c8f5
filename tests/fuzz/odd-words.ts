import type { Draw } from './draw.ts';

/** Names that mean something to the language. */
export const LANGUAGE_NAMES = [
  '__proto__',
  'constructor',
  'prototype',
  'toString',
  'hasOwnProperty',
  'valueOf',
  '__defineGetter__',
];

/** What stands where a number should. */
export const ODD_NUMBERS = [
  '0',
  '-0',
  '-1',
  '1e9',
  '1e999',
  '-1e-999',
  'NaN',
  '.nan',
  '.inf',
  '-Infinity',
  '0x10',
  '0o17',
  '1_000',
  '1,5',
  '1.250,75',
  '1.2.3',
  '--4',
  '+7',
  '.5',
  '5.',
  '007',
  '1/0',
  '1/3',
  '3-5/4',
  '9007199254740993',
  '2147483648',
  '4294967296',
  '67108864',
  '8388.608',
  '8388.6080001',
  '4194.304',
  '0.000125',
  '0.00006',
  '1e-7',
  '99999999999999999999999999999999999999',
  '0.1234567890123456789012345678901234567890',
  '½',
  '12¾',
  '٣',
  '１２',
  '𝟙𝟚',
];

/** What no editor writes, or what a terminal would obey. */
export const ODD_LETTERS = [
  '\0',
  '\u0007',
  '\u001b[31m',
  '\u007f',
  '\u0085',
  '\u00a0',
  '\u00ad',
  '\u2028',
  '\u2029',
  '\u202e',
  '\u2066',
  '\ufeff',
  '\ufffd',
  '\ud800',
  '\udc00',
  '\ud83d\ude00',
  'e\u0301',
  '\u212b',
  '\u0130',
  '\u1e9e',
  '\t',
  '\v',
  '\f',
  '\r',
  '\r\n',
  '\n',
];

const SIGNS = [...'"\'[]{}:,-&*!|>#%@`?~^<>=;/\\ ()$'];

/** Anything that may stand where it should not. */
export function oddWord(draw: Draw): string {
  return draw.weighed([
    [4, () => draw.pick(ODD_NUMBERS)],
    [2, () => draw.pick(LANGUAGE_NAMES)],
    [2, () => draw.pick(ODD_LETTERS)],
    [3, () => draw.pick(SIGNS)],
    [
      1,
      () =>
        draw.pick([
          'null',
          'true',
          'no',
          'undefined',
          '{}',
          '[]',
          '""',
          'mm',
          'in',
          '&a',
          '*a',
          '<<',
        ]),
    ],
    [1, () => longWord(draw)],
    [1, () => draw.pick(['[', '{', '(', '- ', 'a: ', '<g>']).repeat(draw.between(2, 130))],
  ])();
}

function longWord(draw: Draw): string {
  return draw.pick(['x', '9', 'é', '\u{1f600}', '1 ', '0.', '"']).repeat(draw.between(50, 1500));
}
