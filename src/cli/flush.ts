import { closeSync, fsyncSync, openSync, writeSync } from 'node:fs';

/** Down to the disk, so that not even a power cut leaves an empty file behind a new name. */
export function writeThrough(path: string, content: string | Uint8Array): void {
  const file = openSync(path, 'w');
  try {
    const bytes = typeof content === 'string' ? Buffer.from(content, 'utf8') : content;
    for (let done = 0; done < bytes.length; ) done += writeSync(file, bytes, done);
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
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
