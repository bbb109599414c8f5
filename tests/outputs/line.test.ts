import { describe, expect, it } from 'vitest';
import { broken, table, wholeTable } from '../../src/outputs/report/line.ts';

describe('a table of the terminal', () => {
  it('is never wider than a line: one column gives way', () => {
    const columns = [30, 60, 20].map((most) => ({ most, right: false }));
    const rows = [['a'.repeat(30), 'b'.repeat(60), 'c'.repeat(20)]];
    expect(table(rows, columns, 1)[0]).toBe(
      `${'a'.repeat(30)}  ${'b'.repeat(25)}…  ${'c'.repeat(20)}`,
    );
  });
});

describe('a table that cuts nothing', () => {
  it('lets the first column go on below where the line is too short', () => {
    const name = `  ${'word '.repeat(20).trim()}`;
    const [lines] = wholeTable([[name, '1'.repeat(17), '2'.repeat(20)]], [false, true, true]);
    expect(lines?.[0]).toBe(
      `  ${'word '.repeat(7).trim()}     ${'1'.repeat(17)}  ${'2'.repeat(20)}`,
    );
    expect(lines?.every((line) => [...line].length <= 80)).toBe(true);
    expect(lines?.join(' ').match(/word/g)).toHaveLength(20);
  });

  it('leaves short rows as they are', () => {
    const rows = [
      ['a', '1'],
      ['  bc', '200'],
    ];
    expect(wholeTable(rows, [false, true])).toEqual([['a       1'], ['  bc  200']]);
  });

  it.each<readonly [string, number, readonly string[]]>([
    ['', 4, ['']],
    ['abcd', 4, ['abcd']],
    ['abcde', 4, ['abcd', 'e']],
    ['ab cd ef', 5, ['ab cd', 'ef']],
    ['  abcdefgh', 5, ['  abc', 'defgh']],
    ['\u{1F4A7}\u{1F4A7}\u{1F4A7}', 2, ['\u{1F4A7}\u{1F4A7}', '\u{1F4A7}']],
  ])('breaks %j at %i characters', (text, most, lines) => {
    expect(broken(text, most)).toEqual(lines);
  });
});
