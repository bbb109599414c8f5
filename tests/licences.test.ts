import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
// @ts-expect-error: a script without types
import { licenceList } from '../bin/licences/list.js';

const ROOT = resolve(import.meta.dirname, '..');
const LIST = join('bin', 'licences', 'packages.md');
const SECOND_UNDER_MIT = JSON.stringify({ name: 'second', version: '2.0.0', license: 'MIT' });
const folders: string[] = [];

afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

describe('the list of what is not ours', () => {
  it('is that of the packages as they are installed', () => {
    expect(licences(ROOT, '--check')).toEqual({ status: 0, err: '' });
  });

  it('names every package of the lock file that is needed at run time, the font, and their licences', () => {
    const list = readFileSync(join(ROOT, 'dist', 'THIRD-PARTY.md'), 'utf8');
    for (const [place, { version, dev }] of Object.entries(lockedPackages())) {
      if (place === '' || dev) continue;
      const name = place.slice(place.lastIndexOf('node_modules/') + 'node_modules/'.length);
      expect(list).toContain(`\n## ${name} ${version}\n\nLicence: `);
    }
    const font = readFileSync(join(ROOT, 'src', 'outputs', 'pdf', 'font', 'LICENSE'), 'utf8');
    expect(list).toContain(font.replaceAll('\r\n', '\n').trim());
  });

  it('is made of a small tree, with what a package needs in turn', () => {
    const folder = treeWith({});
    expect(licences(folder)).toEqual({ status: 0, err: '' });
    const table = readFileSync(join(folder, LIST), 'utf8');
    expect(table).toContain('| first | 1.0.0 | MIT | ours |\n| second | 2.0.0 | ISC | first |');
    const { texts } = licenceList(folder);
    expect(texts).toContain('~~~~text\nCopyright (c) someone\nfreely\n~~~~');
    expect(texts).toContain('Its files say:\n\n~~~~text\nCopyright (c) 2001 another\n~~~~');
    expect(licences(folder, '--check')).toEqual({ status: 0, err: '' });
  });

  it.each([
    [
      'a copyleft licence',
      { second: { license: 'GPL-3.0' } },
      'second@2.0.0: the licence GPL-3.0 is not taken; see terms.json',
    ],
    [
      'one of which only a part is taken',
      { second: { license: '(MIT AND GPL-3.0)' } },
      'second@2.0.0: the licence (MIT AND GPL-3.0) is not taken; see terms.json',
    ],
    [
      'a licence of its own',
      { second: { license: 'SEE LICENSE IN HERE' } },
      'second@2.0.0: the licence SEE LICENSE IN HERE is not taken; see terms.json',
    ],
    [
      'no licence',
      { second: { license: undefined } },
      'second@2.0.0: names no licence; see terms.json',
    ],
    [
      'another version than that of the lock file',
      { second: { version: '2.0.1' } },
      'second: 2.0.1 is installed, 2.0.0 locked: run "npm ci"',
    ],
    [
      'a package that the lock file has not',
      { second: { dependencies: { third: '1' } }, third: {} },
      'node_modules/third: not in the lock file: run "npm ci"',
    ],
    [
      'a package that is not installed',
      { second: { dependencies: { third: '1' } } },
      'third: needed by second, but not installed: run "npm ci"',
    ],
    [
      'a package that nothing needs any more',
      { first: { dependencies: {} } },
      'node_modules/second: locked for run time, but nothing installed needs it',
    ],
  ] as const)('refuses %s', (_what, changes, message) => {
    const { status, err } = licences(treeWith(changes));
    expect(err).toContain(`licences: ${message}\n`);
    expect(status).toBe(1);
  });

  it.each([
    ['a choice of which one is taken', '(MIT OR GPL-3.0)', {}],
    [
      'what is excepted with a reason',
      'GPL-3.0',
      { 'second@2.0.0': 'It is only run, beside ours.' },
    ],
  ])('takes %s', (_what, license, excepted) => {
    expect(licences(treeWith({ second: { license } }, excepted))).toEqual({ status: 0, err: '' });
  });

  it('is out of date once a package is another', () => {
    const folder = treeWith({});
    licences(folder);
    write(folder, 'node_modules/second/package.json', SECOND_UNDER_MIT);
    expect(licences(folder, '--check')).toEqual({
      status: 1,
      err: 'licences: bin/licences/packages.md is out of date: run "npm run licences"\n',
    });
  });

  it('wants an exception looked at again when the version is another', () => {
    const folder = treeWith({}, { 'second@1.0.0': 'It was well then.' });
    expect(licences(folder).err).toBe(
      'licences: second@1.0.0: named in terms.json, but not installed\n',
    );
  });
});

function licences(
  folder: string,
  ...words: readonly string[]
): { status: number | null; err: string } {
  const argv = [join(ROOT, 'bin', 'licences', 'main.js'), ...words, folder];
  const { status, stderr } = spawnSync(process.execPath, argv, { encoding: 'utf8' });
  return { status, err: stderr };
}

function lockedPackages(): Record<string, { version?: string; dev?: boolean }> {
  return JSON.parse(readFileSync(join(ROOT, 'package-lock.json'), 'utf8')).packages;
}

/** A project that needs `first`, which needs `second`, with some of their manifests changed. */
function treeWith(changes: Record<string, object>, excepted: Record<string, string> = {}): string {
  const folder = mkdtempSync(join(tmpdir(), 'holdfast-licences-'));
  folders.push(folder);
  const manifests: Record<string, object> = {
    first: { version: '1.0.0', license: 'MIT', dependencies: { second: '2' }, ...changes['first'] },
    second: { version: '2.0.0', license: 'ISC', ...changes['second'] },
    ...(changes['third'] && { third: { version: '1.0.0', license: 'MIT' } }),
  };
  for (const [name, manifest] of Object.entries(manifests)) {
    write(folder, `node_modules/${name}/package.json`, JSON.stringify({ name, ...manifest }));
    write(folder, `node_modules/${name}/LICENSE`, 'Copyright (c) someone\r\nfreely\r\n');
  }
  write(folder, 'node_modules/second/index.js', '/*\r\n * Copyright (c) 2001 another\r\n */\r\n');
  write(folder, 'package.json', JSON.stringify({ name: 'ours', dependencies: { first: '1' } }));
  const packages = {
    '': {},
    'node_modules/first': { version: '1.0.0' },
    'node_modules/second': { version: '2.0.0' },
  };
  write(folder, 'package-lock.json', JSON.stringify({ packages }));
  const terms = { taken: ['MIT', 'ISC'], excepted, stated: {}, remarks: {}, shipped: [] };
  write(folder, 'bin/licences/terms.json', JSON.stringify(terms));
  return folder;
}

function write(folder: string, name: string, text: string): void {
  mkdirSync(dirname(join(folder, name)), { recursive: true });
  writeFileSync(join(folder, name), text);
}
