import { describe, expect, it } from 'vitest';
import { csvText } from '../../src/outputs/csv.ts';

describe('comma-separated text', () => {
  it.each([
    { what: 'plain fields', row: ['Side', 3, 0.5], text: 'Side,3,0.5\r\n' },
    { what: 'nothing known', row: [null, 'x'], text: ',x\r\n' },
    { what: 'a comma', row: ['720, left'], text: '"720, left"\r\n' },
    { what: 'inches', row: ['3/4"'], text: '"3/4"""\r\n' },
    { what: 'a line break', row: ['a\nb'], text: '"a\nb"\r\n' },
    { what: 'a number below nought', row: [-2], text: '-2\r\n' },
    { what: 'a formula', row: ['=1+2'], text: "'=1+2\r\n" },
    {
      what: 'a formula with a comma',
      row: ['=HYPERLINK("a", "b")'],
      text: '"\'=HYPERLINK(""a"", ""b"")"\r\n',
    },
    {
      what: 'other beginnings of a formula',
      row: ['+1', '-1', '@a', '\ta'],
      text: "'+1,'-1,'@a,'\ta\r\n",
    },
    { what: 'signs further on', row: ['a=b', '1-2'], text: 'a=b,1-2\r\n' },
  ])('holds $what', ({ row, text }) => {
    expect(csvText([row])).toBe(text);
  });

  it('has a line for each row', () => {
    expect(csvText([['a'], ['b']])).toBe('a\r\nb\r\n');
    expect(csvText([])).toBe('');
  });
});
