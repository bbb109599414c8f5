import { existsSync } from 'node:fs';
import { normalize, resolve, sep } from 'node:path';
import { globSync } from 'tinyglobby';
import { BYTES_PER_MB, fileKind } from '../index.ts';
import { readNamed } from './read-file.ts';
import { CommandFailure, EXIT, type World } from './world.ts';

/** Where nobody keeps parts files of their own. */
const NEVER = ['**/node_modules/**', '**/.git/**'];

/**
 * The parts files that the words of a command line mean, sorted by their letters and each once. Patterns are taken here, because not every shell does;
 * a word that is the name of a file is that file, whatever letters it has. Racks and files of readings that a pattern finds are passed over, and said to be.
 */
export function partsNames(world: World, words: readonly string[]): readonly string[] {
  const names = new Map<string, string>();
  const add = (name: string) => {
    const path = resolve(world.cwd, name);
    if (!names.has(path)) names.set(path, normalize(name));
  };
  for (const word of words.filter((each) => !isPattern(world, each))) add(word);
  for (const word of words.filter((each) => isPattern(world, each)))
    for (const name of matches(world, word)) add(name);
  if (names.size === 0)
    throw new CommandFailure(EXIT.usage, `no parts file matches ${words.join(' or ')}`);
  return [...names.values()].sort();
}

/** What cannot be checked although it was named, as a reason; null for a parts file. */
export function otherKind(world: World, name: string): string | null {
  const kind = kindOf(world, name);
  return kind === 'parts file' ? null : `${name} is a ${kind}, not a parts file`;
}

/** Whether the word stands for files by a pattern. */
export function isPattern(world: World, word: string): boolean {
  return /[*?[\]{}]/.test(word) && !existsSync(resolve(world.cwd, word));
}

function matches(world: World, pattern: string): readonly string[] {
  const found = globSync(sep === '\\' ? pattern.replaceAll('\\', '/') : pattern, {
    cwd: world.cwd,
    ignore: NEVER,
    expandDirectories: false,
    followSymbolicLinks: false,
  });
  if (found.length === 0) throw new CommandFailure(EXIT.usage, `no file matches ${pattern}`);
  const others = new Map(found.map((name) => [name, kindOf(world, name)]));
  const parts = found.filter((name) => others.get(name) === 'parts file');
  for (const name of found.toSorted())
    if (!parts.includes(name))
      world.err(`holdfast: ${name} is a ${others.get(name)}, so it is passed over\n`);
  return parts;
}

/** A file that cannot be read, or is too large, counts as a parts file, so that its check tells why. */
function kindOf({ cwd, limits }: World, name: string): ReturnType<typeof fileKind> {
  try {
    const read = readNamed(resolve(cwd, name), name, limits.file * BYTES_PER_MB);
    return 'size' in read ? 'parts file' : fileKind(read.bytes.toString('utf8'));
  } catch (error) {
    if (error instanceof CommandFailure) return 'parts file';
    throw error;
  }
}
