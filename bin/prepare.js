// Builds dist/ after an install. Where development packages were left out there is no compiler, and what is there stays.
import { spawnSync } from 'node:child_process';
import { cpSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = dirname(dirname(fileURLToPath(import.meta.url)));

let compiler;
try {
  const manifest = createRequire(import.meta.url).resolve('typescript/package.json');
  compiler = join(dirname(manifest), 'bin', 'tsc');
} catch {
  process.stdout.write('prepare: no compiler here, dist/ left as it is\n');
}

if (compiler) {
  rmSync(join(root, 'dist'), { recursive: true, force: true });
  const { status } = spawnSync(process.execPath, [compiler, '-p', root], { stdio: 'inherit' });
  if (status === 0) {
    for (const folder of [join('outputs', 'pdf', 'font'), join('outputs', 'html', 'page')])
      cpSync(join(root, 'src', folder), join(root, 'dist', folder), { recursive: true });
  }
  process.exitCode = status ?? 1;
}
