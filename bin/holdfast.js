#!/usr/bin/env node
import { existsSync } from 'node:fs';

const built = new URL('../dist/cli/main.js', import.meta.url);
const compiler = new URL('../node_modules/typescript/package.json', import.meta.url);

// A clone whose install ran no scripts is built at the first use; a package comes built.
if (!existsSync(built) && existsSync(compiler)) {
  process.stderr.write('holdfast: building, once\n');
  await import('./prepare.js');
}
if (existsSync(built)) {
  const { main } = await import(built.href);
  await main();
} else {
  process.stderr.write(
    'holdfast: not built. Run "npm ci" in its folder, with development packages.\n',
  );
  process.exitCode = 70;
}
