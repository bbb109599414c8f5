// Writes bin/licences/packages.md: what is used or shipped that is not ours, and under which licence. With --check it writes nothing and says
// what is otherwise; a folder may be named in place of this project's. Where a licence is not taken or not known, nothing is written.
import { readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { licenceList } from './list.js';

const here = dirname(fileURLToPath(import.meta.url));
const argv = process.argv.slice(2);
const root = argv.find((word) => !word.startsWith('-')) ?? dirname(dirname(here));
const name = 'bin/licences/packages.md';
const place = join(root, name);
const { table, faults } = licenceList(root);

if (faults.length > 0) fail(faults);
else if (argv.includes('--check')) {
  if (written() !== table) fail([`${name} is out of date: run "npm run licences"`]);
} else {
  writeFileSync(place, table);
  process.stdout.write(`licences: written to ${name}\n`);
}

function written() {
  try {
    return readFileSync(place, 'utf8').replaceAll('\r\n', '\n');
  } catch {
    return undefined;
  }
}

function fail(messages) {
  for (const message of messages) process.stderr.write(`licences: ${message}\n`);
  process.exitCode = 1;
}
