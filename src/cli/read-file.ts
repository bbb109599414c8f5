import { closeSync, constants, fstatSync, openSync, readSync, statSync } from 'node:fs';
import { diskReason } from './disk-reason.ts';
import { CommandFailure, EXIT } from './world.ts';

/** The bytes of a file, or of one that is larger than was allowed how many it has. */
export type FileRead = { readonly bytes: Buffer } | { readonly size: number };

/**
 * Reads an ordinary file of at most `most` bytes. What is none (a folder, a pipe, a device) is never waited for, and what grows while it is
 * read, or has no end, is read no further than that. Throws what the disk says, or `NotOrdinary`.
 */
export function readOrdinary(path: string, most: number): FileRead {
  // Before it is opened: opening some devices does something already.
  checkOrdinary(statSync(path));
  const file = openSync(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
  try {
    const stat = fstatSync(file);
    checkOrdinary(stat);
    if (most < stat.size) return { size: stat.size };
    const bytes = readAll(file, Math.max(stat.size, LEAST_ROOM), most);
    return bytes.length <= most ? { bytes } : { size: bytes.length };
  } finally {
    closeSync(file);
  }
}

/** A path that leads to something that is no file to read; its message says what. */
export class NotOrdinary extends Error {
  override readonly name = 'NotOrdinary';
}

/** Some files of the system say that they are empty and are not. */
const LEAST_ROOM = 65_536;

function checkOrdinary(stat: ReturnType<typeof fstatSync>): void {
  if (stat.isDirectory()) throw new NotOrdinary('it is a folder, not a file to read');
  if (!stat.isFile()) throw new NotOrdinary('it is not an ordinary file');
}

function readAll(file: number, room: number, most: number): Buffer {
  let bytes = Buffer.allocUnsafe(room);
  let length = 0;
  for (;;) {
    const read = readSync(file, bytes, length, bytes.length - length, null);
    length += read;
    if (read === 0 || most < length) return bytes.subarray(0, length);
    if (length === bytes.length) bytes = Buffer.concat([bytes, Buffer.allocUnsafe(length)]);
  }
}

/** As `readOrdinary`, for a file that a person named. Throws `CommandFailure` where the disk says no. */
export function readNamed(path: string, name: string, most: number): FileRead {
  try {
    return readOrdinary(path, most);
  } catch (error) {
    if (error instanceof NotOrdinary)
      throw new CommandFailure(EXIT.disk, `${name}${error.message.replace(/^it/, '')}`);
    throw new CommandFailure(EXIT.disk, `cannot read ${name}: ${diskReason(error)}`);
  }
}
