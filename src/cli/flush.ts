import {
  accessSync,
  closeSync,
  constants,
  fsyncSync,
  openSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
  writeSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';

/** What a file holds: whole, or in parts that are made one after the other. */
export type Content = string | Uint8Array | Iterable<string>;

/**
 * Down to the disk, so that not even a power cut leaves an empty file behind a new name. With `wx` the file must not be there yet, and one that cannot be written whole
 * is taken away again.
 */
export function writeThrough(path: string, content: Content, flag: 'w' | 'wx' = 'w'): void {
  const file = openSync(path, flag);
  try {
    writeAndClose(file, content);
  } catch (error) {
    if (flag === 'wx') rmSync(path, { force: true });
    throw error;
  }
}

function writeAndClose(file: number, content: Content): void {
  try {
    const isWhole = typeof content === 'string' || content instanceof Uint8Array;
    for (const part of isWhole ? [content] : content) {
      const bytes = typeof part === 'string' ? Buffer.from(part, 'utf8') : part;
      for (let done = 0; done < bytes.length; ) done += writeSync(file, bytes, done);
    }
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

/** Puts a file in the place of an older one in one step, so that the older one stays whole where this fails. What is no file, such as a pipe, is simply written to. */
export function replaceFile(path: string, text: string): void {
  const old = statSync(path, { throwIfNoEntry: false });
  if (old !== undefined && !old.isFile()) {
    writeFileSync(path, text);
    return;
  }
  const target = old === undefined ? path : realpathSync(path);
  const part = join(dirname(target), `.${basename(target)}.part`);
  try {
    writeThrough(part, text);
    renameSync(part, target);
  } catch (error) {
    rmSync(part, { force: true });
    throw error;
  }
}

/** Throws what would keep a file from being written here, as far as that shows before it is tried. */
export function expectFolder(folder: string): void {
  // Only of a folder this name can be asked, which `join` would take away.
  statSync(`${folder}/.`);
  accessSync(folder, constants.W_OK | constants.X_OK);
}

/** Not every system lets a folder be opened; the file is right even so. */
export function flushFolder(folder: string): void {
  try {
    const handle = openSync(folder, 'r');
    fsyncSync(handle);
    closeSync(handle);
  } catch {
    return;
  }
}
