// Writes bin/THIRD-PARTY.md: what is used or shipped that is not ours, with its licences. With --check it writes nothing and says what is
// otherwise; a folder may be named in place of this project's. Where a licence is not taken or not known, nothing is written.
import { readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { markdownOf } from './markdown.js';
import { packagesOf } from './packages.js';
import { termsOf } from './terms.js';

const here = dirname(fileURLToPath(import.meta.url));
const argv = process.argv.slice(2);
const root = argv.find((word) => !word.startsWith('-')) ?? dirname(dirname(here));
const place = join(root, 'bin', 'THIRD-PARTY.md');

const terms = JSON.parse(readFileSync(join(root, 'bin', 'licences', 'terms.json'), 'utf8'));
const { packages, faults } = packagesOf(root);
const listed = packages.map((each) => termsOf(each, terms));
faults.push(...listed.flatMap((each) => each.faults), ...strangersOf(terms));
const text = markdownOf(listed, terms, root);

if (faults.length > 0) fail(faults);
else if (argv.includes('--check')) {
  if (written() !== text) fail(['bin/THIRD-PARTY.md is out of date: run "npm run licences"']);
} else {
  writeFileSync(place, text);
  process.stdout.write(`licences: ${listed.length} packages, written to bin/THIRD-PARTY.md\n`);
}

/** What the terms say of a package in a version that is not there any more, so that it is looked at again. */
function strangersOf({ excepted, stated, remarks }) {
  const known = new Set(packages.map(({ name, version }) => `${name}@${version}`));
  const said = [excepted, stated, remarks].flatMap((each) => Object.keys(each));
  return said
    .filter((each) => !known.has(each))
    .map((each) => `${each}: named in terms.json, but not installed`);
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
