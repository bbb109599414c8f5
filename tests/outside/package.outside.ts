import { execFileSync, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, expect, it } from 'vitest';

const ROOT = resolve(import.meta.dirname, '..', '..');
/** Installing takes its time where others are at work. */
const MINUTES = 600_000;
const folder = mkdtempSync(join(tmpdir(), 'holdfast-package-'));

afterAll(() => rmSync(folder, { recursive: true, force: true }), MINUTES);

it(
  'is the same package to the byte when it is built twice in two places',
  () => {
    expect(packed(cloneTo('one')).sha512).toBe(packed(cloneTo('two')).sha512);
  },
  MINUTES,
);

it(
  'is installed from its package without scripts, and plans its own example',
  () => {
    const { path } = packed(cloneTo('three'));
    const shop = join(folder, 'shop');
    mkdirSync(shop);
    writeFileSync(join(shop, 'package.json'), '{ "private": true }\n');
    run(shop, 'npm', ['install', '--ignore-scripts', '--prefer-offline', path]);
    const example = join('node_modules', 'holdfast', 'examples', 'reading-nook.yaml');
    const said = run(shop, 'npx', ['--no-install', 'holdfast', 'plan', example, '--out', 'plan']);
    expect(said).toContain('no layout can use fewer');
    expect(existsSync(join(shop, 'plan', 'plan.pdf'))).toBe(true);
    const golden = readFileSync(join(ROOT, 'tests', 'golden', 'examples', 'reading-nook.sha256'));
    const plan = readFileSync(join(shop, 'plan', 'plan.json'));
    expect(golden.toString()).toContain(createHash('sha256').update(plan).digest('hex'));
    const script =
      "const { readPartsFile } = await import('holdfast'); console.log(typeof readPartsFile)";
    expect(run(shop, 'node', ['--input-type=module', '--eval', script])).toBe('function\n');
  },
  MINUTES,
);

it(
  'is built at the first use where the install ran no scripts',
  () => {
    const example = join('examples', 'bookcase-saw.yaml');
    const said = run(cloneTo('four'), 'node', ['bin/holdfast.js', 'plan', example]);
    expect(said).toContain('Written to');
  },
  MINUTES,
);

it(
  'says in one line what to do where there is nothing to build it with',
  () => {
    const bare = join(folder, 'bare');
    run(folder, 'git', ['clone', '--quiet', ROOT, bare]);
    const { status, stderr } = spawnSync('node', ['bin/holdfast.js', '--version'], {
      cwd: bare,
      encoding: 'utf8',
    });
    expect(stderr).toMatch(/^holdfast: not built\. Run "npm ci" in its folder.*\n$/m);
    expect(status).toBe(70);
  },
  MINUTES,
);

/** What git has of the project, with its packages as `npm ci --ignore-scripts` installs them; installed once, then copied. */
function cloneTo(name: string): string {
  const installed = join(folder, 'installed');
  if (!existsSync(installed)) {
    run(folder, 'git', ['clone', '--quiet', ROOT, installed]);
    run(installed, 'npm', ['ci', '--ignore-scripts', '--prefer-offline']);
  }
  run(folder, 'git', ['clone', '--quiet', ROOT, name]);
  cpSync(join(installed, 'node_modules'), join(folder, name, 'node_modules'), { recursive: true });
  return join(folder, name);
}

function packed(clone: string): { readonly path: string; readonly sha512: string } {
  run(clone, 'npm', ['run', 'build']);
  const [{ filename }] = JSON.parse(run(clone, 'npm', ['pack', '--json', '--ignore-scripts']));
  const path = join(clone, filename);
  return { path, sha512: createHash('sha512').update(readFileSync(path)).digest('hex') };
}

function run(cwd: string, program: string, argv: readonly string[]): string {
  return execFileSync(program, argv, {
    cwd,
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'pipe'],
    shell: process.platform === 'win32',
  });
}
