// What is used or shipped that is not ours, as a table and with all its texts, and what is wrong with it.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { tableOf, textsOf } from './markdown.js';
import { packagesOf } from './packages.js';
import { termsOf } from './terms.js';

export function licenceList(root) {
  const terms = JSON.parse(readFileSync(join(root, 'bin', 'licences', 'terms.json'), 'utf8'));
  const { packages, faults } = packagesOf(root);
  const listed = packages.map((each) => termsOf(each, terms));
  return {
    table: tableOf(listed, terms),
    texts: textsOf(listed, terms, root),
    faults: [...faults, ...listed.flatMap((each) => each.faults), ...strangersOf(terms, packages)],
  };
}

/** What the terms say of a package in a version that is not there any more, so that it is looked at again. */
function strangersOf({ excepted, stated, remarks }, packages) {
  const known = new Set(packages.map(({ name, version }) => `${name}@${version}`));
  const said = [excepted, stated, remarks].flatMap((each) => Object.keys(each));
  return said
    .filter((each) => !known.has(each))
    .map((each) => `${each}: named in terms.json, but not installed`);
}
