// The licence of a package, whether it is taken, and every text that has to go with it.
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const USUAL = join(dirname(fileURLToPath(import.meta.url)), 'texts');
const LICENCE_FILE = /^(licen[cs]e|copying|copyright|notice|unlicense)/i;
// Bundles for browsers, tests and what a package was built with are never run here.
const PASSED_OVER = /^(\.|node_modules$|src$|tests?$)|\.(browser|standalone|old|min)\./;
const READ = /\.([cm]?js|afm)$/;
const OWNER = /@copyright|copyright[ :]*(\(c\)|©|\d{4}|\w+ \w+ \d{4})|\(c\) \d{4}/i;
const LONGEST_NOTICE = 4000;

export function termsOf(each, terms) {
  const key = `${each.name}@${each.version}`;
  const licence = terms.stated[key]?.licence ?? licenceOf(each.manifest);
  const faults = [];
  if (licence === undefined) faults.push(`${key}: names no licence; see terms.json`);
  else if (!isTaken(licence, terms.taken) && !(key in terms.excepted))
    faults.push(`${key}: the licence ${licence} is not taken; see terms.json`);
  const own = textsOf(each.folder);
  const usual = own.length === 0 ? usualOf(licence) : undefined;
  if (own.length === 0 && usual === undefined)
    faults.push(`${key}: comes without the text of ${licence ?? 'its licence'}`);
  const notices = noticesOf(each.folder).filter((notice) => !own.some((t) => t.includes(notice)));
  const says = [terms.stated[key]?.why, terms.excepted[key], terms.remarks[key]].filter(Boolean);
  return { ...each, licence: licence ?? 'unknown', texts: own, usual, notices, says, faults };
}

/** As the manifest says it, in the older forms as well. */
function licenceOf({ license, licenses }) {
  if (typeof license === 'string') return license;
  if (typeof license?.type === 'string') return license.type;
  return Array.isArray(licenses) ? licenses.map(({ type }) => type).join(' OR ') : undefined;
}

/** One of what is offered has to be taken, and all of what goes together; nested brackets are not known, and so not taken. */
function isTaken(licence, taken) {
  const plain = licence.replace(/^\((.*)\)$/, '$1');
  return plain
    .split(' OR ')
    .some((choice) => choice.split(' AND ').every((id) => taken.includes(id)));
}

function textsOf(folder) {
  return readdirSync(folder, { withFileTypes: true })
    .filter((entry) => entry.isFile() && LICENCE_FILE.test(entry.name))
    .map(({ name }) => name)
    .sort()
    .map((name) => plain(readFileSync(join(folder, name), 'utf8')));
}

function usualOf(licence) {
  const path = join(USUAL, `${licence}.txt`);
  return licence !== undefined && existsSync(path) ? plain(readFileSync(path, 'utf8')) : undefined;
}

/** What the files themselves say of whose they are: comments with a copyright, each once, and the shorter of two that say the same. */
function noticesOf(folder) {
  const found = new Set();
  for (const file of filesUnder(folder)) {
    const text = readFileSync(file, 'utf8');
    const comments = file.endsWith('.afm')
      ? (text.match(/^Comment Copyright.*$/m) ?? [])
      : (text.match(/\/\*[\s\S]*?\*\/|(?:^[ \t]*\/\/.*\n)+/gm) ?? []);
    for (const comment of comments) {
      if (OWNER.test(comment) && comment.length <= LONGEST_NOTICE) found.add(bare(comment));
    }
  }
  const all = [...found];
  return all.filter((one) => !all.some((other) => other !== one && one.includes(other)));
}

function filesUnder(folder) {
  return readdirSync(folder, { withFileTypes: true })
    .filter(({ name }) => !PASSED_OVER.test(name))
    .sort((a, b) => (a.name < b.name ? -1 : 1))
    .flatMap((entry) => {
      const path = join(folder, entry.name);
      if (entry.isDirectory()) return filesUnder(path);
      return READ.test(entry.name) ? [path] : [];
    });
}

/** A comment without its stars and slashes. */
function bare(comment) {
  const lines = comment.split(/\r?\n/).map((line) =>
    line
      .replace(/^[ \t]*(\/\*+!?|\/\/+|\*+\/?)?[ \t]?/, '')
      .replace(/[ \t]*\*+\/?[ \t]*$/, '')
      .trimEnd(),
  );
  return plain(lines.join('\n'));
}

function plain(text) {
  const lines = text.replace(/^\uFEFF/, '').split(/\r\n|\n|\r/);
  return lines
    .map((line) => line.trimEnd())
    .join('\n')
    .replace(/\n{3,}/g, '\n\n')
    .replace(/^\n+|\n+$/g, '');
}
