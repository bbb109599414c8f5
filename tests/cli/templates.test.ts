import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { folderWith, holdfast, smallJob } from '../helpers/command.ts';

const ODD = `${smallJob()}  - { name: 'Shelf, wide', material: ply, size: 300 x 100, holes: [{ at: [20, 20], diameter: 5, depth: 10 }] }
  - { name: Café ✂, material: ply, size: 100 x 100 }
`;

describe('holdfast plan --templates', () => {
  it('writes the templates of the named parts, also with commas and odd letters in their names', async () => {
    const folder = folderWith({ 'shelf.yaml': ODD.replaceAll('\n', '\r\n') });
    const decomposed = 'Café ✂'.normalize('NFD');
    const names = `Side, Shelf, wide,${decomposed}`;
    const { code, out } = await holdfast(folder, ['plan', 'shelf.yaml', '--templates', names]);
    expect(code).toBe(0);
    expect(out.replace(/\s+/g, ' ')).toContain('sheet-01.dxf, templates.pdf');
    expect(out.replace(/\s+/g, ' ')).toContain(
      '"Side" is a plain rectangle of 600 × 300 mm: a rule marks it out as well as a template.',
    );
    expect(out).not.toContain('"Shelf, wide" is a plain');
    expect(existsSync(join(folder, 'shelf-plan', 'templates.pdf'))).toBe(true);
  });

  it('takes older templates away where none are asked for', async () => {
    const folder = folderWith({ 'shelf.yaml': smallJob() });
    await holdfast(folder, ['plan', 'shelf.yaml', '--templates', 'Side']);
    const file = join(folder, 'shelf-plan', 'templates.pdf');
    expect(existsSync(file)).toBe(true);
    await holdfast(folder, ['plan', 'shelf.yaml']);
    expect(existsSync(file)).toBe(false);
  });

  it.each([
    ['Sied', 'there is no part "Sied"; did you mean "Side"?'],
    ['Zzzzzz', 'there is no part "Zzzzzz"; there are Side, Block'],
    ['Side,', '--templates takes names of parts, with commas between them'],
    ['', '--templates takes names of parts, with commas between them'],
    ['\u202eSide', 'did you mean "Side"?'],
  ])('says what is wrong with "%s" before it plans', async (names, message) => {
    const folder = folderWith({ 'shelf.yaml': smallJob() });
    const { code, err } = await holdfast(folder, ['plan', 'shelf.yaml', '--templates', names]);
    expect(code).toBe(2);
    expect(err).toContain(message);
    expect(existsSync(join(folder, 'shelf-plan'))).toBe(false);
  });

  it.each(['1:0', '0', '10', '1:', '1:-5', '1:101', '2:1', 'large', ''])(
    'does not take "%s" for a scale',
    async (scale) => {
      const folder = folderWith({ 'shelf.yaml': smallJob() });
      const { code, err } = await holdfast(folder, ['plan', 'shelf.yaml', '--scale', scale]);
      expect(code).toBe(2);
      expect(err).toContain(
        `--scale takes fit or a scale from 1:1 to 1:100, such as 1:10, not "${scale}"`,
      );
    },
  );

  it('refuses more pages than anybody joins', async () => {
    const large = smallJob().replace('1200 x 800', '4000 x 2000');
    const part = "  - { name: Wall, material: ply, path: 'M0 0 H3900 L0 1900 Z' }\n";
    const folder = folderWith({ 'wall.yaml': large + part });
    const argv = ['plan', 'wall.yaml', '--scale', '1:1', '--templates', 'Wall'];
    const { code, err } = await holdfast(folder, argv);
    expect(code).toBe(2);
    expect(err).toMatch(/--scale 1:1 would spread a sheet over \d+ pages, more than 120/);
    expect(err).not.toContain('the template');
  });
});
