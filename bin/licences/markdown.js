// The list as people read it.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';

const TABLE_HEAD = `# What is not ours

Holdfast comes with what stands first here, and uses the packages below, which are installed beside it. Made by \`npm run licences\`
from the lock file and the installed packages; whoever installs Holdfast from a package registry may get later versions of those that
Holdfast does not ask for itself. The texts of all these licences lie in the package as \`dist/THIRD-PARTY.md\`, which every build makes anew.
`;
const TEXTS_HEAD = `# What is not ours

Holdfast itself is under the licence in LICENSE. This is what it comes with and what is installed beside it, in their own words.
`;

/** One line for each. */
export function tableOf(packages, { shipped }) {
  const rows = packages.map(({ name, version, licence, neededBy }) => {
    const by = [...new Set(neededBy)].sort().join(', ');
    return `| ${name} | ${version} | ${licence} | ${by} |`;
  });
  const lines = [
    TABLE_HEAD,
    ...shipped.map(({ what, place, licence }) => `- ${what}, \`${place}\`: ${licence}`),
    '',
    '| package | version | licence | needed by |',
    '| - | - | - | - |',
    ...rows,
  ];
  return `${lines.join('\n')}\n`;
}

/** Everything that has to go with them. */
export function textsOf(packages, terms, root) {
  const shipped = terms.shipped.map((each) => shippedOf(each, root));
  return [TEXTS_HEAD, ...shipped, ...packages.map(sectionOf)].join('\n');
}

function shippedOf({ what, place, licence, text }, root) {
  const words = readFileSync(join(root, text), 'utf8').replaceAll('\r\n', '\n').trim();
  return `## ${what}\n\nLicence: ${licence}. In the package as \`${place}\`.\n\n${fenced(words)}`;
}

function sectionOf(each) {
  const said = each.says.map((line) => `${line}\n`);
  const usual = each.usual === undefined ? [] : [missingOf(each), fenced(each.usual)];
  const notices =
    each.notices.length === 0 ? [] : ['Its files say:\n', ...each.notices.map(fenced)];
  const title = `## ${each.name} ${each.version}\n`;
  const parts = [
    title,
    `Licence: ${each.licence}.\n`,
    ...said,
    ...usual,
    ...each.texts.map(fenced),
  ];
  return [...parts, ...notices].join('\n');
}

function missingOf({ manifest: { author, contributors } }) {
  const people = [author ?? [], contributors ?? []].flat().map(nameOf).filter(Boolean);
  const by = people.length === 0 ? '' : ` It names as its authors: ${people.join(', ')}.`;
  return `The package comes without the text of its licence; this is the usual one.${by}\n`;
}

function nameOf(person) {
  return typeof person === 'string' ? person.replace(/ *(<|\(http).*$/, '') : person?.name;
}

function fenced(text) {
  return `~~~~text\n${text}\n~~~~\n`;
}
