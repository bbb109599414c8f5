import { mkdirSync, readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { diskReason } from './read-job.ts';
import { CommandFailure, EXIT } from './world.ts';

export interface OutputFile {
  readonly name: string;
  readonly content: string | Uint8Array;
}

/**
 * Writes all files into `folder`, making it where needed. Each is first written whole under a temporary name; only when all are on the disk
 * do they take their places, so that a stop half-way leaves the old plan as it was. Files of an older plan that match `stale` and are not
 * written again are removed last. Throws `CommandFailure` with the disk's reason.
 */
export function writeFiles(folder: string, files: readonly OutputFile[], stale: RegExp): void {
  const temporary = (file: OutputFile) => join(folder, `.${file.name}.part`);
  const waiting: OutputFile[] = [];
  try {
    mkdirSync(folder, { recursive: true });
    for (const file of files) {
      writeFileSync(temporary(file), file.content);
      waiting.push(file);
    }
    for (const file of files) renameSync(temporary(file), join(folder, file.name));
    const written = new Set(files.map((file) => file.name));
    for (const name of readdirSync(folder)) {
      if (stale.test(name) && !written.has(name)) rmSync(join(folder, name));
    }
  } catch (error) {
    for (const file of waiting) rmSync(temporary(file), { force: true });
    throw new CommandFailure(EXIT.disk, `cannot write to ${folder}: ${diskReason(error)}`);
  }
}
