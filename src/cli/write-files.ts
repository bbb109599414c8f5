import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { basename, join } from 'node:path';
import { diskReason } from './read-job.ts';
import { CommandFailure, EXIT } from './world.ts';

export interface OutputFile {
  readonly name: string;
  readonly content: string | Uint8Array;
}

/** Names what is being put in its place; while it is there, the folder is on its way to the new plan. */
const JOURNAL = '.holdfast-moving';

/**
 * Writes all files into `folder`, making it where needed. Each is first written whole under a temporary name; only when all are on the disk is a note made of
 * what goes where, and from then on the new plan is decided: whoever finds the note (see `finishMoving`) carries it out to the end. A stop before that leaves the
 * old plan as it was. Files of an older plan that match `stale` and are not written again are removed. Throws `CommandFailure` with the disk's reason.
 */
export function writeFiles(folder: string, files: readonly OutputFile[], stale: RegExp): void {
  const written = new Set(files.map((file) => file.name));
  const isOurs = (name: string) => stale.test(name) || written.has(name);
  try {
    mkdirSync(folder, { recursive: true });
    finishMoving(folder);
    removeParts(folder, isOurs);
  } catch (error) {
    throw failure(folder, error);
  }
  try {
    for (const file of files) writeFileSync(partOf(folder, file.name), file.content);
    const gone = readdirSync(folder).filter((name) => stale.test(name) && !written.has(name));
    const note: Moving = { moved: [...written], gone };
    writeFileSync(partOf(folder, JOURNAL), JSON.stringify(note));
    renameSync(partOf(folder, JOURNAL), join(folder, JOURNAL));
  } catch (error) {
    removeParts(folder, isOurs);
    throw failure(folder, error);
  }
  finishMoving(folder);
}

interface Moving {
  readonly moved: readonly string[];
  readonly gone: readonly string[];
}

/** Carries out what a run that was killed had decided, if there was one; to be asked before a plan's folder is read or written. */
export function finishMoving(folder: string): void {
  const journal = join(folder, JOURNAL);
  if (!existsSync(journal)) return;
  try {
    const { moved, gone } = JSON.parse(readFileSync(journal, 'utf8')) as Moving;
    for (const name of moved.map((each) => basename(each)))
      if (existsSync(partOf(folder, name))) renameSync(partOf(folder, name), join(folder, name));
    for (const name of gone) rmSync(join(folder, basename(name)), { force: true });
    rmSync(journal);
  } catch (error) {
    throw failure(folder, error);
  }
}

function partOf(folder: string, name: string): string {
  return join(folder, `.${name}.part`);
}

/** What a run that was stopped before its note has left. */
function removeParts(folder: string, isOurs: (name: string) => boolean): void {
  for (const part of readdirSync(folder)) {
    const [, name] = /^\.(.+)\.part$/.exec(part) ?? [];
    if (name !== undefined && (isOurs(name) || name === JOURNAL)) rmSync(join(folder, part));
  }
}

function failure(folder: string, error: unknown): CommandFailure {
  if (error instanceof CommandFailure) return error;
  return new CommandFailure(EXIT.disk, `cannot write to ${folder}: ${diskReason(error)}`);
}
