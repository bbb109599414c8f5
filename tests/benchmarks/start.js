// Compiles the benchmarks with the sources they measure, as they are now, and runs them: compiled modules run at full speed, which those of a test runner do not.
import { spawnSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));
const root = dirname(dirname(here));
const built = join(root, 'node_modules', '.cache', 'holdfast-bench');
const manifest = createRequire(import.meta.url).resolve('typescript/package.json');
const compiler = join(dirname(manifest), 'bin', 'tsc');

mkdirSync(built, { recursive: true });
// What lies in node_modules has no other say in whether it is made of modules; records of plans have the version.
writeFileSync(join(built, 'package.json'), '{ "type": "module", "version": "0" }\n');
const { status } = spawnSync(process.execPath, [compiler, '-p', here, '--outDir', built], {
  stdio: 'inherit',
});
if (status === 0) {
  const { main } = await import(pathToFileURL(join(built, 'tests', 'benchmarks', 'main.js')).href);
  process.exitCode = await main(process.argv.slice(2), root, process.env.INIT_CWD ?? process.cwd());
} else process.exitCode = status ?? 1;
