import { createHash } from 'node:crypto';
import { cpSync, readdirSync, readFileSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { contentsOf, folderWith, holdfast } from './helpers/command.ts';
import { expectGolden } from './helpers/golden.ts';
import { complaintsAbout } from './helpers/second-check.ts';

const EXAMPLES = resolve(import.meta.dirname, '..', 'examples');
const FILES = readdirSync(EXAMPLES).filter((name) => name.endsWith('.yaml'));

describe.each(FILES)('examples/%s', (file) => {
  const stem = basename(file, '.yaml');

  it('plans as it did, to the byte', async () => {
    const { folder, out } = await planned(file);
    expectGolden(`examples/${stem}.txt`, out);
    const hashes = Object.entries(contentsOf(join(folder, `${stem}-plan`))).map(
      ([name, bytes]) => `${createHash('sha256').update(bytes).digest('hex')}  ${name}\n`,
    );
    expectGolden(`examples/${stem}.sha256`, hashes.join(''));
  });

  it('is in order when its plan is checked from disk', async () => {
    const { folder } = await planned(file);
    const { code, out } = await holdfast(folder, ['verify', `${stem}-plan`, file]);
    expect([code, out.replace(/\s+/g, ' ')]).toEqual([
      0,
      expect.stringContaining(`in order. Checked against ${file}`),
    ]);
  });

  it('lays every piece once, apart and inside, as an independent library sees it', async () => {
    const { folder } = await planned(file);
    const record = JSON.parse(contentsOf(join(folder, `${stem}-plan`))['plan.json']!.toString());
    const names: string[] = [];
    for (const material of record.materials) {
      for (const sheet of material.sheets) {
        expect(complaintsAbout(sheet, record.machine.spacing)).toEqual([]);
        for (const { part, piece } of sheet.placements) names.push(`${part} ${piece}`);
      }
    }
    expect(new Set(names).size).toBe(names.length);
    expect(names.length).toBeGreaterThanOrEqual(20);
    expect(names.length).toBeLessThanOrEqual(60);
    expect(record.materials.length).toBeGreaterThanOrEqual(2);
  });

  it('keeps its own limits', async () => {
    const { code, out } = await holdfast(EXAMPLES, ['check', file]);
    expect(out).toContain('all limits are kept');
    expect(code).toBe(0);
  });
});

describe('the variants of an example', () => {
  it('stand beside it as they did', async () => {
    const { code, out, err } = await holdfast(EXAMPLES, ['compare', 'bookcase-router.yaml']);
    expect([code, err]).toEqual([0, '']);
    expect(out.split('\n').every((line) => [...line].length <= 80)).toBe(true);
    expectGolden('examples/bookcase-router-compare.txt', out);
  });
});

describe('the picture in the README', () => {
  it('is what the tool draws', async () => {
    const { folder } = await planned('reading-nook.yaml');
    const drawn = contentsOf(join(folder, 'reading-nook-plan'))['sheet-01.svg']!.toString();
    const shown = join(EXAMPLES, 'reading-nook-sheet.svg');
    if (process.env.UPDATE === '1')
      cpSync(join(folder, 'reading-nook-plan', 'sheet-01.svg'), shown);
    expect(readFileSync(shown, 'utf8')).toBe(drawn);
  });
});

/** Plans a copy of an example in a folder of its own. */
async function planned(file: string): Promise<{ folder: string; out: string }> {
  const folder = folderWith();
  cpSync(EXAMPLES, folder, { recursive: true });
  const { code, out, err } = await holdfast(folder, ['plan', file]);
  expect(err).toBe('');
  expect(code).toBe(0);
  return { folder, out };
}
