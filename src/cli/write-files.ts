import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmdirSync,
  rmSync,
  statSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { diskReason, isRefusal } from './disk-reason.ts';
import { type Content, expectFolder, flushFolder, writeThrough } from './flush.ts';
import { CommandFailure, EXIT } from './world.ts';

export interface OutputFile {
  readonly name: string;
  /** A function is asked when the file's turn comes: the drawings of a thousand sheets need not be in memory together. */
  readonly content: Content | (() => Content);
}

/** Names what is being put in its place; while it is there, the folder is on its way to the new plan. */
const JOURNAL = '.holdfast-moving';

/**
 * Writes all files into `folder`, making it where needed. Each is first written whole under a temporary name; only when all are on the disk is a note made of
 * what goes where, and from then on the new plan is decided: whoever finds the note carries it out to the end. A stop before that leaves the
 * old plan as it was, and so does `isHurried`, which is asked before each file. Files of an older plan that match `stale` and are not written again are removed. Throws
 * `CommandFailure` with the disk's reason.
 */
export function writeFiles(
  folder: string,
  files: readonly OutputFile[],
  stale: RegExp,
  isHurried: () => boolean = () => false,
): void {
  const written = new Set(files.map((file) => file.name));
  const isOurs = (name: string) => stale.test(name) || written.has(name);
  let isNew = false;
  try {
    isNew = mkdirSync(folder, { recursive: true }) !== undefined;
    const left = readNote(folder);
    // Which files a broken note meant nobody knows; the old ones stay until those of this run take their places.
    if (left === 'broken') rmSync(join(folder, JOURNAL));
    else if (left !== null) carryOut(folder, left);
    removeParts(folder, isOurs);
  } catch (error) {
    throw failure(folder, error);
  }
  try {
    for (const file of files) {
      if (isHurried())
        throw new CommandFailure(EXIT.interrupted, 'stopped at once, nothing was written');
      const { content } = file;
      writeThrough(partOf(folder, file.name), typeof content === 'function' ? content() : content);
    }
    const gone = readdirSync(folder).filter((name) => stale.test(name) && !written.has(name));
    const note: Moving = { moved: [...written], gone };
    writeThrough(partOf(folder, JOURNAL), JSON.stringify(note));
    renameSync(partOf(folder, JOURNAL), join(folder, JOURNAL));
    flushFolder(folder);
  } catch (error) {
    tidy(folder, isOurs, isNew);
    // What a content throws while it is made is no trouble with the disk.
    throw isRefusal(error) ? failure(folder, error) : error;
  }
  finishMoving(folder);
}

/** Before time is spent on a plan: fails where its folder can neither be written to nor made. */
export function expectRoom(folder: string): void {
  try {
    let there = folder;
    while (statSync(there, { throwIfNoEntry: false }) === undefined) there = dirname(there);
    expectFolder(there);
  } catch (error) {
    throw failure(folder, error);
  }
}

interface Moving {
  readonly moved: readonly string[];
  readonly gone: readonly string[];
}

/** Carries out what a run that was killed had decided, if there was one; to be asked before a plan's folder is read. */
export function finishMoving(folder: string): void {
  const left = readNote(folder);
  if (left === null) return;
  if (left === 'broken')
    throw new CommandFailure(
      EXIT.disk,
      `${join(folder, JOURNAL)} is the broken note of a run that was killed, so this folder may be half of two plans: make the plan again, or delete the note if the files are right`,
    );
  try {
    carryOut(folder, left);
  } catch (error) {
    throw failure(folder, error);
  }
}

/** Null where there is none; `broken` where it is none of ours, or does not go with the files of the folder. */
function readNote(folder: string): Moving | 'broken' | null {
  const journal = join(folder, JOURNAL);
  if (!existsSync(journal)) return null;
  let text: string;
  try {
    text = readFileSync(journal, 'utf8');
  } catch (error) {
    throw new CommandFailure(
      EXIT.disk,
      `cannot read ${journal}, the note of a run that was killed (${diskReason(error)}): delete it and make the plan again`,
    );
  }
  try {
    const { moved, gone } = JSON.parse(text) as Moving;
    const isPlain = [...moved, ...gone].every(
      (name) => !['', '.', '..'].includes(name) && basename(name) === name,
    );
    const isThere = moved.every(
      (name) => existsSync(partOf(folder, name)) || existsSync(join(folder, name)),
    );
    return isPlain && isThere ? { moved, gone } : 'broken';
  } catch {
    return 'broken';
  }
}

/** May be broken off at any moment, and begun again. */
function carryOut(folder: string, { moved, gone }: Moving): void {
  for (const name of moved)
    if (existsSync(partOf(folder, name))) renameSync(partOf(folder, name), join(folder, name));
  for (const name of gone) rmSync(join(folder, name), { force: true });
  rmSync(join(folder, JOURNAL));
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

/** What failed is told, not that its rests could not be taken away either. */
function tidy(folder: string, isOurs: (name: string) => boolean, isNew: boolean): void {
  try {
    removeParts(folder, isOurs);
    if (isNew) rmdirSync(folder);
  } catch {
    return;
  }
}

function failure(folder: string, error: unknown): CommandFailure {
  if (error instanceof CommandFailure) return error;
  return new CommandFailure(EXIT.disk, `cannot write to ${folder}: ${diskReason(error)}`);
}
