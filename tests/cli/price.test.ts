import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { folderWith, holdfast, smallJob } from '../helpers/command.ts';
import { expectGolden } from '../helpers/golden.ts';

const COSTS = `costs:
  labour: { machine: 65 per h, bench: 48 per h }
  setup: 20 min
  loading: 4 min
  hole: 3 s
  edge-band: { price: 0.85 per m, waste: 10 % }
  hardware: [{ name: "=Hinge, brass", price: 2.40, count: 8, group: Carcass }]
  margin: 20 %
  tax: 19 %
`;

const JOB = smallJob(COSTS).replace(
  'count: 2, grain: along',
  'count: 2, grain: along, group: Carcass, edges: { left: 1 }, holes: [{ at: [60, 60], diameter: 5 }]',
);

const priced = (text: string, ...options: readonly string[]) =>
  holdfast(folderWith({ 'shelf.yaml': text }), ['price', 'shelf.yaml', ...options]);

describe('price', () => {
  it.each([
    ['text', 'price.txt'],
    ['json', 'price.json'],
    ['csv', 'price.csv'],
  ])('prints %s, the same every time', async (format, golden) => {
    const { code, out, err } = await priced(JOB, '--format', format);
    expect([code, err]).toEqual([0, '']);
    expectGolden(golden, out);
    expect(await priced(JOB, '--format', format)).toEqual({ code, out, err });
  });

  it('says the same with colour as without, in 80 columns', async () => {
    const [plain, colour] = [
      await priced(JOB, '--colour', 'never'),
      await priced(JOB, '--colour', 'always'),
    ];
    expect(colour.out).not.toBe(plain.out);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: that is what colour is made of.
    expect(colour.out.replace(/\u001b\[\d+m/g, '')).toBe(plain.out);
    expect(plain.out.split('\n').every((line) => [...line].length <= 80)).toBe(true);
  });

  it.each(['text', 'json', 'csv'])(
    'sets variants side by side as compare does, as %s',
    async (format) => {
      const text = `${JOB}variants: [{ name: No costs, costs: ~ }]\n`;
      const folder = folderWith({ 'shelf.yaml': text });
      const options = ['shelf.yaml', '--format', format];
      const compared = await holdfast(folder, ['compare', ...options]);
      expect(await holdfast(folder, ['price', ...options, '--variants'])).toEqual(compared);
      expect(compared.out).toMatch(/no costs|No price of the job \(No costs\)/);
      expect((await priced(text)).out).toContain(
        '\nThe file has 1 variant: price --variants sets them side by side.\n',
      );
    },
  );

  it('cuts nothing, however long names are', async () => {
    const name = `${'Doors of the cupboard in the hall '.repeat(4)}${'x'.repeat(60)}`;
    const text = JOB.replace('name: Block', `name: ${name}`).replace(
      'price: 40',
      'price: 40, pack: 3, name: thin and long and for the back of a wardrobe',
    );
    const { out } = await priced(text);
    expect(out.split('\n').every((line) => [...line].length <= 80)).toBe(true);
    expect(out.replace(/\s/g, '')).toContain('notcut:soldinpacks)');
    expect(out.match(/x/g)!.length).toBeGreaterThanOrEqual(60);
    expect(out).not.toContain('…');
  });

  it('writes nothing', async () => {
    const folder = folderWith({ 'shelf.yaml': JOB });
    await holdfast(folder, ['price', 'shelf.yaml']);
    expect(readdirSync(folder)).toEqual(['shelf.yaml']);
  });

  it('is of material only where the file has no costs, and says so', async () => {
    const { code, out } = await priced(smallJob());
    expect(code).toBe(0);
    expect(out).toMatch(/^Shelf: 40\.00 EUR, material only\n/);
    expect(out).toContain('Material only, as the file has no costs');
  });

  it('prints what is known where the price is not, with exit code 0', async () => {
    const text = JOB.replace('price: 2.40, ', '');
    const { code, out } = await priced(text);
    expect(code).toBe(0);
    expect(out).toMatch(/^Shelf: price not known\n/);
    expect(out).toContain('not known: =Hinge, brass: the file has no price for it');
    const { totalMinor, groups, unknown } = JSON.parse(
      (await priced(text, '--format', 'json')).out,
    );
    expect([totalMinor, groups, unknown.length]).toEqual([null, [], 1]);
  });

  it.each([
    ['JPY', 'price: 40', '9000 per h', '85 per m', '240', /^Shelf: \d+ JPY with tax/],
    [
      'KWD',
      'price: 40.125',
      '25.5 per h',
      '0.085 per m',
      '0.240',
      /^Shelf: \d+\.\d{3} KWD with tax/,
    ],
    ['EUR', 'price: 40.05', '65 per h', '0.85 per m', '2.40', /^Shelf: \d+\.\d{2} EUR with tax/],
  ])(
    'prints %s with the decimals of its minor unit',
    async (code, sheet, hour, metre, hinge, head) => {
      // ISO 4217:2015, list one: the minor unit of EUR has 2 decimals, that of JPY none, that of KWD 3.
      const text = JOB.replace('unit: mm', `unit: mm\ncurrency: ${code}`)
        .replace('price: 40', sheet)
        .replace('65 per h', hour)
        .replace('0.85 per m', metre)
        .replace('price: 2.40', `price: ${hinge}`);
      const { out, err } = await priced(text);
      expect(err).toBe('');
      expect(out).toMatch(head);
      const record = JSON.parse((await priced(text, '--format', 'json')).out);
      const shared = record.groups.map((each: { shareMinor: number }) => each.shareMinor);
      expect(shared.reduce((all: number, each: number) => all + each, 0)).toBe(
        record.beforeTaxMinor,
      );
      expect(record.currency.code).toBe(code);
    },
  );

  it('fails with 1 where the stock is too little, with 2 where the file is bad', async () => {
    const few = JOB.replace('trim: 10', 'trim: 10, on-hand: 1').replace('count: 2', 'count: 9');
    const { code, out } = await priced(few);
    expect(code).toBe(1);
    expect(out).toContain('too little stock');
    expect((await priced(JOB.replace('20 min', '20'))).code).toBe(2);
    expect((await priced(JOB, '--format', 'xml')).code).toBe(2);
  });

  it('leaves csv to price', async () => {
    const folder = folderWith({ 'shelf.yaml': JOB });
    const { code, err } = await holdfast(folder, ['check', 'shelf.yaml', '--format', 'csv']);
    expect(code).toBe(2);
    expect(err).toContain('--format takes one of text, json, not "csv"');
  });

  it('is in the report and the record of the plan', async () => {
    const folder = folderWith({ 'shelf.yaml': JOB });
    await holdfast(folder, ['plan', 'shelf.yaml']);
    const read = (name: string) => readFileSync(`${folder}/shelf-plan/${name}`, 'utf8');
    const { out } = await priced(JOB, '--format', 'json');
    const { totalMinor, groups, lines } = JSON.parse(out);
    const { costs } = JSON.parse(read('plan.json'));
    expect(costs.quote).toMatchObject({ totalMinor, groups, lines });
    const section = /## Price\n[\s\S]*?(?=\n## )/.exec(read('report.md'))?.[0] ?? '';
    expectGolden('price-section.md', section);
    expect(read('report.md')).toMatch(/## Lifting\n[\s\S]*two people or a lifter/);
  });
});
