import { dirname, resolve } from 'node:path';
import {
  BYTES_PER_MB,
  counted,
  type Excess,
  fileExcess,
  formatProblem,
  type Job,
  limitFault,
  megabytes,
  type Problem,
  readPartsFile,
  type ToldProblem,
  type Variant,
} from '../index.ts';
import { drawingReader } from './drawing-reader.ts';
import { sha256 } from './hash.ts';
import { readNamed } from './read-file.ts';
import { CommandFailure, EXIT, type World } from './world.ts';

export interface PartsFile {
  readonly path: string;
  readonly sha256: string;
  readonly job: Job | null;
  readonly variants: readonly Variant[];
  readonly problems: readonly Problem[];
}

/** Reads a parts file and the drawings it names. Throws `CommandFailure` only where it is too large, or the disk says no. */
export function readParts(world: World, name: string): PartsFile {
  const path = resolve(world.cwd, name);
  const bytes = readWhole(world, name);
  const drawings = drawingReader(world, dirname(path));
  const read = readPartsFile(bytes.toString('utf8'), drawings, world.limits);
  return { path, sha256: sha256(bytes), ...read };
}

/** The text of a file that is no parts file. Throws `CommandFailure` where it is too large, or the disk says no. */
export function readText(world: World, name: string): string {
  return readWhole(world, name).toString('utf8');
}

/** The text of a file that Holdfast wrote, with the hash of its bytes. */
export function readWithHash(
  world: World,
  name: string,
): { readonly text: string; readonly sha256: string } {
  const { cwd, limits } = world;
  const read = readNamed(resolve(cwd, name), name, limits.record * BYTES_PER_MB);
  if ('size' in read) {
    const { message, hint } = limitFault(recordExcess(read.size), limits)!;
    throw new CommandFailure(EXIT.usage, `${name}: ${message}: ${hint}`);
  }
  const { bytes } = read;
  return { text: bytes.toString('utf8'), sha256: sha256(bytes) };
}

function recordExcess(bytes: number): Excess {
  return {
    ...{ limit: 'record', code: 'file-too-large', found: megabytes(bytes) },
    ...{ subject: 'the record has', instead: '' },
  };
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
    throw new CommandFailure(EXIT.usage, `${name}: ${counted(errors, 'problem')}, ${outcome}`);
  }
  return { ...parts, job: parts.job };
}

export function printProblems(
  world: Pick<World, 'err'>,
  name: string,
  problems: readonly ToldProblem[],
): void {
  for (const problem of problems) world.err(`${formatProblem(name, problem)}\n`);
}

/** The bytes of a file that is read as text. Ends the command where it is too large, or the disk says no. */
function readWhole({ cwd, limits }: World, name: string): Buffer {
  const read = readNamed(resolve(cwd, name), name, limits.file * BYTES_PER_MB);
  if ('bytes' in read) return read.bytes;
  const { code, message, hint } = limitFault(fileExcess(read.size), limits)!;
  const place = { line: 1, column: 1 };
  const problem: Problem = { severity: 'error', code, place, path: '', message, hint };
  throw new CommandFailure(EXIT.usage, `${name}: it was not read`, {
    file: name,
    problems: [problem],
  });
}
