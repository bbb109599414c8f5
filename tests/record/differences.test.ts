import { describe, expect, it } from 'vitest';
import { differences } from '../../src/record/differences.ts';

const LONG = 'x'.repeat(58);

const ROWS: readonly [string, unknown, unknown, readonly string[]][] = [
  ['the same', { a: [1, 'b', null] }, { a: [1, 'b', null] }, []],
  ['a key more, as later records have', { a: 1 }, { a: 1, b: 2 }, []],
  ['a key less, as earlier records have', { a: 1, b: 2 }, { a: 1 }, []],
  ['another whole number', { a: 1 }, { a: 2 }, ['a: 2 should be 1']],
  ['the last digit of a fraction', { a: 0.123456 }, { a: 0.123457 }, []],
  ['the last but one', { a: 0.25 }, { a: 0.250003 }, ['a: 0.250003 should be 0.25']],
  ['a whole number beside a fraction', { a: 2 }, { a: 2.000001 }, []],
  [
    'deep inside',
    { a: [{ b: 1 }, { b: 2 }] },
    { a: [{ b: 1 }, { b: 3 }] },
    ['a[1].b: 3 should be 2'],
  ],
  ['a list too short', { a: [1, 2] }, { a: [1] }, ['a: the list has 1 entry; it should have 2']],
  ['no list', { a: [1] }, { a: { b: 1 } }, ['a: a group of keys should be a list']],
  ['no group', { a: { b: 1 } }, { a: [1] }, ['a: a list should be a group of keys']],
  ['nothing', { a: { b: 1 } }, { a: null }, ['a: null should be a group of keys']],
  ['a text of sixty, quoted', { a: 1 }, { a: LONG }, [`a: "${LONG}" should be 1`]],
  ['a longer text, cut', { a: 1 }, { a: `${LONG}y` }, [`a: "${LONG}y… should be 1`]],
];

describe('a record beside what it should say', () => {
  it.each(ROWS)('%s', (_, wanted, given, told) => {
    const found = differences(wanted, given, '', 'c');
    expect(found.map(({ path, message }) => `${path}: ${message}`)).toEqual(told);
    expect(found.every(({ code }) => code === 'c')).toBe(true);
  });
});
