import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';

/** What the figures depend on: not the documents, nor the figures that are already written. */
const MEASURED = ['src', 'tests', 'package-lock.json', ':!tests/*/results/*'];

/** The commit that is measured; with a hash of what is changed since, where anything is. */
export function commitOf(root: string): string {
  const git = (...args: readonly string[]) =>
    execFileSync('git', args, { cwd: root, encoding: 'utf8', maxBuffer: 2 ** 30 });
  const commit = git('rev-parse', '--short=12', 'HEAD').trim();
  const changes = createHash('sha256');
  const diff = git('diff', 'HEAD', '--binary', '--', ...MEASURED);
  const added = git('ls-files', '--others', '--exclude-standard', '-z', '--', ...MEASURED)
    .split('\0')
    .filter((name) => name !== '');
  changes.update(diff);
  for (const name of added) changes.update(`\0${name}\0`).update(readFileSync(join(root, name)));
  const clean = diff === '' && added.length === 0;
  return clean ? commit : `${commit}+${changes.digest('hex').slice(0, 8)}`;
}
