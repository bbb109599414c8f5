import { isUtf8 } from 'node:buffer';
import { createHash } from 'node:crypto';
import { readFileSync, realpathSync, statSync } from 'node:fs';
import { dirname, isAbsolute, relative, resolve } from 'node:path';
import {
  type DrawingRead,
  formatProblem,
  type Job,
  MAX_FILE_BYTES,
  type Problem,
  readPartsFile,
  type ToldProblem,
  type Variant,
} from '../index.ts';
import { diskReason } from './disk-reason.ts';
import { CommandFailure, EXIT, type World } from './world.ts';

export interface PartsFile {
  readonly path: string;
  readonly sha256: string;
  readonly job: Job | null;
  readonly variants: readonly Variant[];
  readonly problems: readonly Problem[];
}

/** Reads a parts file and the drawings it names. Throws `CommandFailure` only where the disk says no. */
export function readParts(world: World, name: string): PartsFile {
  const path = resolve(world.cwd, name);
  const bytes = readWhole(path, name);
  const read = readPartsFile(bytes.toString('utf8'), drawingReader(dirname(path)));
  return { path, sha256: sha256(bytes), ...read };
}

/** The text of a file that is no parts file. Throws `CommandFailure` only where the disk says no. */
export function readText(world: World, name: string): string {
  return readWhole(resolve(world.cwd, name), name).toString('utf8');
}

/** A plan of 10,000 pieces has 30 MB. */
const MAX_RECORD_BYTES = 300_000_000;

/** The text of a file that Holdfast wrote, with the hash of its bytes. */
export function readWithHash(
  world: World,
  name: string,
): { readonly text: string; readonly sha256: string } {
  const bytes = readWhole(resolve(world.cwd, name), name, MAX_RECORD_BYTES);
  return { text: bytes.toString('utf8'), sha256: sha256(bytes) };
}

/** As `readParts`, but prints the problems and ends the command where there is no job. */
export function readJob(
  world: World,
  name: string,
  outcome = 'nothing planned',
): PartsFile & { readonly job: Job } {
  const parts = readParts(world, name);
  printProblems(world, name, parts.problems);
  if (parts.job === null) {
    const errors = parts.problems.filter(({ severity }) => severity === 'error').length;
    const count = errors === 1 ? '1 problem' : `${errors} problems`;
    throw new CommandFailure(EXIT.usage, `${name}: ${count}, ${outcome}`);
  }
  return { ...parts, job: parts.job };
}

export function printProblems(world: World, name: string, problems: readonly ToldProblem[]): void {
  for (const problem of problems) world.err(`${formatProblem(name, problem)}\n`);
}

/** The file's bytes, or of one that is too large just enough of them for the reader to say so. */
function readWhole(path: string, name: string, most = MAX_FILE_BYTES): Buffer {
  return readUpTo(path, name, most) ?? Buffer.alloc(MAX_FILE_BYTES + 1, ' ');
}

/** The file's bytes, or null where it has more than `most`. Throws `CommandFailure` only where the disk says no. */
export function readUpTo(path: string, name: string, most: number): Buffer | null {
  try {
    const stat = statSync(path);
    if (stat.isDirectory())
      throw new CommandFailure(EXIT.disk, `${name} is a folder, not a file to read`);
    if (!stat.isFile()) throw new CommandFailure(EXIT.disk, `${name} is not an ordinary file`);
    return stat.size > most ? null : readFileSync(path);
  } catch (error) {
    if (error instanceof CommandFailure) throw error;
    throw new CommandFailure(EXIT.disk, `cannot read ${name}: ${diskReason(error)}`);
  }
}

/** Reads drawings below `folder` only, links followed, so that a parts file from elsewhere cannot look around. */
function drawingReader(folder: string): (path: string) => DrawingRead {
  return (path) => {
    try {
      if (!isBelow(folder, resolve(folder, path))) {
        return {
          ok: false,
          reason: 'outside',
          detail: 'it lies outside the folder of the parts file',
        };
      }
      const target = resolve(folder, path);
      if (statSync(target).size > MAX_FILE_BYTES) {
        return {
          ok: false,
          reason: 'too-large',
          detail: `it is larger than ${MAX_FILE_BYTES} bytes`,
        };
      }
      const bytes = readFileSync(target);
      return { ok: true, text: lettersOf(bytes), sha256: sha256(bytes) };
    } catch (error) {
      const missing = (error as NodeJS.ErrnoException).code === 'ENOENT';
      return { ok: false, reason: missing ? 'missing' : 'unreadable', detail: diskReason(error) };
    }
  };
}

/** Drawing programs of old write names in the older Western alphabet. */
function lettersOf(bytes: Buffer): string {
  return new TextDecoder(isUtf8(bytes) ? 'utf-8' : 'windows-1252').decode(bytes);
}

/** Links followed. Throws where one of the two is not there. */
export function isBelow(folder: string, path: string): boolean {
  const inside = relative(realpathSync(folder), realpathSync(path));
  return inside !== '..' && !/^\.\.[\\/]/.test(inside) && !isAbsolute(inside);
}

function sha256(bytes: Buffer): string {
  return createHash('sha256').update(bytes).digest('hex');
}
