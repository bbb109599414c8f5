import { describe, expect, it } from 'vitest';
import { fitText, plainText, textWidth, wrapText } from '../../src/drawing/text.ts';

describe('text width', () => {
  it.each([
    ['i', 'm'],
    ['Side', 'Side panel'],
    ['s', 'S'],
    ['л', 'Л'],
  ])('counts "%s" as narrower than "%s"', (narrow, wide) => {
    expect(textWidth(narrow, 1)).toBeLessThan(textWidth(wide, 1));
  });

  it('counts an accented letter as its base letter', () => {
    expect(textWidth('éźñ', 2)).toBe(textWidth('ezn', 2));
  });

  it('grows with the size and is nothing for nothing', () => {
    expect(textWidth('Drawer', 5)).toBeCloseTo(5 * textWidth('Drawer', 1));
    expect(textWidth('', 5)).toBe(0);
  });
});

describe('fitting', () => {
  const full = textWidth('Drawer bottom', 1);

  it.each([
    ['keeps what fits', full * 4, { text: 'Drawer bottom', size: 4 }],
    ['shrinks first', full * 3, { text: 'Drawer bottom', size: 3 }],
  ])('%s', (_, room, fitted) => {
    expect(fitText('Drawer bottom', 4, 2, room)).toEqual(fitted);
  });

  it('cuts short with an ellipsis what would be too small', () => {
    const fitted = fitText('Drawer bottom', 4, 2, full);
    expect(fitted?.text).toMatch(/^Drawe?r?.*…$/);
    expect(textWidth(fitted?.text ?? '', 2)).toBeLessThanOrEqual(full);
  });

  it('gives up where not even three letters fit', () => {
    expect(fitText('Drawer bottom', 4, 2, 3)).toBeNull();
  });

  it('does not split a letter of two code units', () => {
    expect(fitText('𝒜𝒜𝒜𝒜𝒜𝒜𝒜𝒜', 2, 2, 10)?.text).toBe('𝒜𝒜𝒜𝒜…');
  });
});

describe('wrapping', () => {
  it('breaks at spaces and keeps every word', () => {
    const lines = wrapText('one two three four five', 1, textWidth('one two three', 1));
    expect(lines.length).toBeGreaterThan(1);
    expect(lines.join(' ')).toBe('one two three four five');
  });

  it('cuts a word that is wider than the line', () => {
    expect(wrapText('abcdefghijklmnop', 1, 5)[0]).toMatch(/…$/);
  });

  it('gives no line for nothing', () => {
    expect(wrapText('', 1, 5)).toEqual([]);
  });
});

describe('plain text', () => {
  it.each([
    ['Side\u0000panel\u001b[31m', 'Side panel [31m'],
    ['first\r\nsecond\tthird', 'first second third'],
    ['abc\u202edef\u2066ghi', 'abcdefghi'],
    ['\ufeff  Side  ', 'Side'],
    ['broken \ud800 half', 'broken half'],
    ['Łódź · Ράφι · Стенка', 'Łódź · Ράφι · Стенка'],
  ])('makes %j into %j', (text, plain) => {
    expect(plainText(text)).toBe(plain);
  });
});
