import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { contentsOf, folderWith, holdfast } from '../helpers/command.ts';
import { expectGolden } from '../helpers/golden.ts';

const LIST = `\ufeffGarden bench\r
\r
Pos;Bezeichnung;Länge (mm);Breite (mm);Stk;Material;Maserung;Kanten;Lieferant\r
1;Seite;720,5;560;2;Birke Multiplex 18 mm;längs;2L 1B;nah\r
2;Boden;1.764,0;560;2;Birke Multiplex 18 mm;längs;1L;nah\r
3;Rückwand;720;7x0;1;HDF 3 mm;;;nah\r
;;;;;;;;\r
4;Boden;1000;500;2;MDF 19;;;fern\r
Summe;;;;7;;;;\r
`;

const SOUND = 'Name,Length,Width,Qty,Material\nTop,900,600,1,MDF 18\nLeg,700,80,4,MDF 18\n';

describe('import', () => {
  it('writes a parts file beside the list and says what it could not read, in 80 columns', async () => {
    const folder = folderWith({ 'bench.csv': LIST });
    const { code, out, err } = await holdfast(folder, ['import', 'bench.csv']);
    expect(code).toBe(1);
    expect(err).toBe('bench.csv: row 6, column D "Breite (mm)": "7x0" is no length\n');
    expect(out.split('\n').every((line) => [...line].length <= 80)).toBe(true);
    expectGolden('import.txt', out);
    expectGolden('import.yaml', readFileSync(join(folder, 'bench.yaml'), 'utf8'));
  });

  it('makes a file that plans as it is', async () => {
    const folder = folderWith({ 'table.csv': SOUND });
    const made = await holdfast(folder, ['import', 'table.csv', '--out', 'job.yaml']);
    expect([made.code, made.err]).toEqual([0, '']);
    const { code, err } = await holdfast(folder, ['check', 'job.yaml']);
    expect([code, err]).toEqual([0, '']);
  });

  it.each([
    ['table.csv', 'table.yaml'],
    ['table', 'table.yaml'],
    ['.table', '.table.yaml'],
    ['a.b.txt', 'a.b.yaml'],
  ])('names the file of %s %s', async (list, target) => {
    const folder = folderWith({ [list]: SOUND });
    await holdfast(folder, ['import', list]);
    expect(Object.keys(contentsOf(folder)).sort()).toEqual([list, target].sort());
  });

  it('never writes over a file', async () => {
    const folder = folderWith({ 'table.csv': SOUND, 'table.yaml': 'mine' });
    const { code, err } = await holdfast(folder, ['import', 'table.csv']);
    expect(code).toBe(74);
    expect(err).toBe(
      'holdfast: cannot write table.yaml: it is there already and is left as it is; --out takes another name\n',
    );
    expect(contentsOf(folder)['table.yaml']?.toString()).toBe('mine');
  });

  it.each([
    ['nothing in it', '', [], 'holdfast: list.csv: the list is empty\n'],
    [
      'no row that reads',
      'Name,Length,Width\nA,x,1\n',
      [],
      'list.csv: row 2, column B "Length": "x" is no length\nholdfast: list.csv: no row could be read\n',
    ],
    [
      'a column that is not there',
      SOUND,
      ['--columns', 'count=Menge'],
      'holdfast: --columns: there is no column "Menge"; the list has "Name", "Length", "Width", "Qty", "Material"\n',
    ],
  ])('writes nothing for a list with %s', async (_, list, options, says) => {
    const folder = folderWith({ 'list.csv': list });
    const { code, out, err } = await holdfast(folder, ['import', 'list.csv', ...options]);
    expect([code, out, err]).toEqual([2, '', says]);
    expect(Object.keys(contentsOf(folder))).toEqual(['list.csv']);
  });

  it('says that a list is not there, or too large', async () => {
    const folder = folderWith({ 'large.csv': new Uint8Array(20_000_001) });
    const missing = await holdfast(folder, ['import', 'none.csv']);
    expect([missing.code, missing.err]).toEqual([
      74,
      'holdfast: cannot read none.csv: there is no such file or folder\n',
    ]);
    const large = await holdfast(folder, ['import', 'large.csv']);
    expect([large.code, large.err]).toEqual([
      2,
      'holdfast: large.csv: it has 20.1 MB; the most is 20: split it, or raise the limit: --limit list=21\n',
    ]);
  });

  it('lists five hundred troubles and counts the rest', async () => {
    const rows = Array.from({ length: 600 }, () => 'A,x,1').join('\n');
    const folder = folderWith({ 'list.csv': `Name,Length,Width\nB,1,1\n${rows}` });
    const { code, err } = await holdfast(folder, ['import', 'list.csv']);
    expect(code).toBe(1);
    expect(err.split('\n').slice(-2)).toEqual([
      'list.csv: and 100 more that could not be read',
      '',
    ]);
  });
});
