// Builds dist/ after an install. Where development packages were left out there is no compiler, and what is there stays.
import { spawnSync } from 'node:child_process';
import { cpSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { licenceList } from './licences/list.js';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const dist = join(root, 'dist');
// Built beside its place and then moved, so that nobody runs half of it, and two builds at once do no harm.
const fresh = join(root, `.dist-${process.pid}`);

let compiler;
try {
  const manifest = createRequire(import.meta.url).resolve('typescript/package.json');
  compiler = join(dirname(manifest), 'bin', 'tsc');
} catch {
  process.stderr.write('prepare: no compiler here, dist/ left as it is\n');
}

if (compiler) {
  const argv = [compiler, '-p', root, '--outDir', fresh];
  const { status } = spawnSync(process.execPath, argv, { stdio: ['ignore', 2, 2] });
  if (status === 0) {
    for (const folder of [join('outputs', 'pdf', 'font'), join('outputs', 'html', 'page')]) {
      const filter = (path) => basename(path) !== 'tsconfig.json';
      cpSync(join(root, 'src', folder), join(fresh, folder), { recursive: true, filter });
    }
    writeFileSync(join(fresh, 'THIRD-PARTY.md'), licenceList(root).texts);
    move();
  }
  rmSync(fresh, { recursive: true, force: true });
  process.exitCode = status ?? 1;
}

/** Another build may put its own there between the two steps; it is as good as this one. */
function move() {
  for (let tries = 1; ; tries += 1) {
    rmSync(dist, { recursive: true, force: true });
    try {
      renameSync(fresh, dist);
      return;
    } catch (error) {
      if (tries === 3) throw error;
    }
  }
}
