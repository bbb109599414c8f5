// The packages that the installed tree needs at run time, found from their own manifests and held against the lock file.
import { existsSync, readFileSync } from 'node:fs';
import { join, posix } from 'node:path';

/** All of them by name and version, and where tree and lock file do not agree. */
export function packagesOf(root) {
  const lock = readJson(join(root, 'package-lock.json')).packages;
  const { found, faults } = walk(root);
  for (const [place, { name, version }] of found) {
    const locked = lock[place];
    if (locked === undefined) faults.push(`${place}: not in the lock file: run "npm ci"`);
    else if (locked.version !== version)
      faults.push(`${name}: ${version} is installed, ${locked.version} locked: run "npm ci"`);
    else if (locked.dev) faults.push(`${place}: needed at run time, but locked for development`);
  }
  for (const [place, locked] of Object.entries(lock)) {
    if (place !== '' && !locked.dev && !locked.devOptional && !found.has(place))
      faults.push(`${place}: locked for run time, but nothing installed needs it`);
  }
  const packages = [...found.values()].sort((a, b) => compare(keyOf(a), keyOf(b)));
  return { packages, faults };
}

function walk(root) {
  const found = new Map();
  const faults = [];
  const open = [{ place: '', manifest: readJson(join(root, 'package.json')) }];
  for (const { place, manifest } of open) {
    const optional = manifest.optionalDependencies ?? {};
    for (const name of Object.keys({ ...manifest.dependencies, ...optional })) {
      const at = placeOf(root, place, name);
      if (at === undefined) {
        if (!(name in optional))
          faults.push(`${name}: needed by ${manifest.name}, but not installed: run "npm ci"`);
        continue;
      }
      const known = found.get(at);
      if (known) known.neededBy.push(manifest.name);
      else {
        const own = readJson(join(root, at, 'package.json'));
        const folder = join(root, at);
        const { version } = own;
        found.set(at, {
          name: own.name,
          version,
          folder,
          manifest: own,
          neededBy: [manifest.name],
        });
        open.push({ place: at, manifest: own });
      }
    }
  }
  return { found, faults };
}

/** Where a package that another one asks for lies: beside it, or beside one of those around it. */
function placeOf(root, from, name) {
  for (let around = from; ; around = posix.dirname(around)) {
    const at = around === '' || around === '.' ? 'node_modules' : `${around}/node_modules`;
    if (existsSync(join(root, at, name, 'package.json'))) return `${at}/${name}`;
    if (around === '' || around === '.') return undefined;
  }
}

function keyOf({ name, version }) {
  return `${name}@${version}`;
}

function compare(a, b) {
  return a < b ? -1 : Number(a > b);
}

function readJson(path) {
  return JSON.parse(readFileSync(path, 'utf8'));
}
