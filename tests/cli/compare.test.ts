import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { folderWith, holdfast, smallJob } from '../helpers/command.ts';

const SAW = '  - { name: Saw, machine: { kind: panel-saw, kerf: 3 } }\n';

function compared(variants: string, argv: readonly string[] = [], job = smallJob()) {
  const folder = folderWith({ 'shelf.yaml': `${job}variants:\n${variants}` });
  return holdfast(folder, ['compare', 'shelf.yaml', ...argv]);
}

describe('compare', () => {
  it('sets the file and its variants side by side and writes nothing', async () => {
    const folder = folderWith({ 'shelf.yaml': `${smallJob()}variants:\n${SAW}` });
    const { code, out, err } = await holdfast(folder, ['compare', 'shelf.yaml']);
    expect([code, err]).toEqual([0, '']);
    expect(out).toMatch(/^Shelf +as it is +Saw\nsheets +1 +1\n/);
    expect(out).toMatch(/\ncost of material +40\.00 EUR +40\.00 EUR\n/);
    expect(out).toMatch(/\npieces that move +\d +no vacuum \*\n/);
    expect(readdirSync(folder)).toEqual(['shelf.yaml']);
  });

  it('gives the same bytes again, as text, JSON and CSV', async () => {
    for (const format of ['text', 'json', 'csv']) {
      const [one, two] = [
        await compared(SAW, ['--format', format]),
        await compared(SAW, ['--format', format]),
      ];
      expect(one.code).toBe(0);
      expect(two.out).toBe(one.out);
    }
    const { plans } = JSON.parse((await compared(SAW, ['--format', 'json'])).out);
    expect(plans.map(({ name }: { name: string }) => name)).toEqual(['as it is', 'Saw']);
  });

  const CODES: readonly {
    name: string;
    variants: string;
    code: number;
    out: RegExp;
    err: RegExp;
  }[] = [
    {
      name: 'too little stock in a variant',
      variants:
        '  - { name: One, parts: { Side: { count: 9 } }, materials: { ply: { sheets: [{ size: 1200 x 800, on-hand: 1 }] } } }\n',
      code: 1,
      out: /proof +proved +too little stock \*\n/,
      err: /^$/,
    },
    {
      name: 'a part that fits no sheet of a variant',
      variants: '  - { name: Tiny, materials: { ply: { sheets: [{ size: 500 x 400 }] } } }\n',
      code: 2,
      out: /^$/,
      err: /shelf\.yaml:10:\d+: error fits-no-sheet: in the variant "Tiny": /,
    },
    {
      name: 'a part that finds no room in a variant',
      variants: `  - { name: Tiny, materials: { ply: { sheets: [{ size: 620 x 320, trim: 5, keep-out: [{ at: [300, 150], size: 20 x 20 }] }] } } }\n${SAW}`,
      code: 2,
      out: /sheets +1 +– +1\n/,
      err: /error fits-no-sheet: in the variant "Tiny": "Side" fits no sheet of ply/,
    },
    {
      name: 'a variant that is called as the file itself is',
      variants: '  - { name: As It Is, machine: { feed: 8000 } }\n',
      code: 2,
      out: /^$/,
      err: /shelf\.yaml:13:13: error duplicate-name: "As It Is" .*\n +give the variant another name/,
    },
    {
      name: 'a problem in a variant',
      variants: '  - { name: Bad, machine: { feed: fast } }\n',
      code: 2,
      out: /^$/,
      err: /shelf\.yaml:13:35: error bad-quantity: in the variant "Bad": /,
    },
  ];

  it.each(CODES)('ends as the worst of them: $name', async ({ variants, code, out, err }) => {
    const ran = await compared(variants);
    expect(ran.err).toMatch(err);
    expect(ran.out).toMatch(out);
    expect(ran.code).toBe(code);
  });

  it('says that there is nothing to compare', async () => {
    const folder = folderWith({ 'shelf.yaml': smallJob() });
    const { code, err } = await holdfast(folder, ['compare', 'shelf.yaml']);
    expect(code).toBe(2);
    expect(err).toContain('there is nothing to compare: write variants:');
  });

  it.each(['plan', 'check'])(
    'leaves variants alone in %s, but for their problems',
    async (command) => {
      const good = folderWith({ 'shelf.yaml': `${smallJob()}variants:\n${SAW}` });
      expect(await holdfast(good, [command, 'shelf.yaml'])).toMatchObject({ code: 0, err: '' });
      const bad = folderWith({
        'shelf.yaml': `${smallJob()}variants:\n  - { name: Bad, unit: in }\n`,
      });
      const { code, err } = await holdfast(bad, [command, 'shelf.yaml']);
      expect(code).toBe(2);
      expect(err).toContain('a variant cannot change unit');
    },
  );
});
