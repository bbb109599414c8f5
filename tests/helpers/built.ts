import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join, resolve } from 'node:path';

const ROOT = resolve(import.meta.dirname, '..', '..');

/** Compiles the sources as they are now, because threads start from built files only, and `dist/` may be older. Gives the folder that stands for the project's, of a name of its own where tests run side by side. */
export function buildHoldfast(name = 'holdfast-test'): string {
  const folder = join(ROOT, 'node_modules', '.cache', name);
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  const manifest = createRequire(import.meta.url).resolve('typescript/package.json');
  const compiler = join(dirname(manifest), 'bin', 'tsc');
  const argv = [compiler, '-p', ROOT, '--outDir', join(folder, 'dist')];
  const { status } = spawnSync(process.execPath, argv, { stdio: 'inherit' });
  if (status !== 0) throw new Error('the sources do not compile');
  for (const name of ['package.json', 'bin']) {
    cpSync(join(ROOT, name), join(folder, name), { recursive: true });
  }
  for (const beside of [join('outputs', 'pdf', 'font'), join('outputs', 'html', 'page')])
    cpSync(join(ROOT, 'src', beside), join(folder, 'dist', beside), { recursive: true });
  return folder;
}
