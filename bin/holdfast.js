#!/usr/bin/env node
import { existsSync } from 'node:fs';

const built = new URL('../dist/cli/main.js', import.meta.url);
if (existsSync(built)) {
  const { main } = await import(built.href);
  await main();
} else {
  process.stderr.write(
    'holdfast: not built yet. Run "npm ci" in its folder, with development packages.\n',
  );
  process.exitCode = 70;
}
