// Compiles a folder of tools with the sources they look at, as they are now, and runs its main function: compiled modules run at full speed, which those of a test runner do not.
import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const [folder, ...argv] = process.argv.slice(2);
const here = dirname(fileURLToPath(import.meta.url));
const root = dirname(here);
const built = join(root, 'node_modules', '.cache', `holdfast-${folder}`);
const manifest = createRequire(import.meta.url).resolve('typescript/package.json');
const compiler = join(dirname(manifest), 'bin', 'tsc');

mkdirSync(built, { recursive: true });
// What lies in node_modules has no other say in whether it is made of modules; the version goes into records.
const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
writeFileSync(join(built, 'package.json'), JSON.stringify({ type: 'module', version }));
for (const beside of [join('outputs', 'pdf', 'font'), join('outputs', 'html', 'page')])
  cpSync(join(root, 'src', beside), join(built, 'src', beside), { recursive: true });
const project = join(here, folder);
const { status } = spawnSync(process.execPath, [compiler, '-p', project, '--outDir', built], {
  stdio: 'inherit',
});
if (status === 0) {
  const { main } = await import(pathToFileURL(join(built, 'tests', folder, 'main.js')).href);
  process.exitCode = await main(argv, root, process.env.INIT_CWD ?? process.cwd());
} else process.exitCode = status ?? 1;
