import { chmodSync, readdirSync, realpathSync, renameSync, rmSync, statSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import process from 'node:process';
import { counted, type Rack, type ResourceLimits, readRack } from '../index.ts';
import { diskReason } from './disk-reason.ts';
import { flushFolder, writeThrough } from './flush.ts';
import { type Lock, lockOf } from './lock.ts';
import { printProblems, readText } from './read-job.ts';
import { CommandFailure, EXIT, type World } from './world.ts';

export interface RackText {
  readonly text: string;
  readonly rack: Rack;
  readonly limits: ResourceLimits;
}

/** A rack file as it stands; null where there is none. Ends the command with its problems where it cannot be read. */
export function readRackFile(world: World, name: string): RackText | null {
  if (!isThere(resolve(world.cwd, name))) return null;
  const text = readText(world, name);
  const { rack, problems } = readRack(text, world.limits);
  if (rack !== null) {
    printProblems(world, name, problems);
    return { text, rack, limits: world.limits };
  }
  const count = counted(problems.length, 'problem');
  throw new CommandFailure(EXIT.usage, `${name}: ${count}, the rack is left as it is`, {
    file: name,
    problems,
  });
}

/** As `readRackFile`, but a missing file ends the command. */
export function readExistingRack(world: World, name: string): RackText {
  const found = readRackFile(world, name);
  if (found !== null) return found;
  throw new CommandFailure(
    EXIT.disk,
    `there is no rack ${name}; holdfast offcuts add makes one, and --rack says where it is`,
  );
}

/** The text that takes the place of the old one, or null where nothing is to be written; and what the caller wants to know. */
export interface Change<T> {
  readonly text: string | null;
  readonly result: T;
}

/**
 * Changes a rack file while no other run can: reads it, asks `change` for the new text, and puts that in its place in one step. At any moment the file
 * is the old one or the new one, whole. A file that cannot be read, or a `change` that throws, leaves it as it was.
 */
export async function changeRack<T>(
  world: World,
  name: string,
  change: (found: RackText | null) => Change<T>,
): Promise<T> {
  const path = realPath(resolve(world.cwd, name));
  const lock = await lockFor(path, name);
  return world.guard(() => {
    try {
      const { text, result } = change(readRackFile(world, name));
      if (text !== null) replace(path, name, text, lock);
      return result;
    } finally {
      lock.release();
    }
  });
}

async function lockFor(path: string, name: string): Promise<Lock> {
  try {
    const lock = await lockOf(path);
    if (!('holder' in lock)) return lock;
    const who = lock.holder === '' ? '' : ` (process ${lock.holder})`;
    throw new CommandFailure(EXIT.disk, `another run is changing ${name}${who}; try again`);
  } catch (error) {
    if (error instanceof CommandFailure) throw error;
    throw new CommandFailure(EXIT.disk, `cannot write ${name}: ${diskReason(error)}`);
  }
}

function replace(path: string, name: string, text: string, lock: Lock): void {
  const folder = dirname(path);
  const start = `.${basename(path)}.`;
  const part = join(folder, `${start}${process.pid}.part`);
  try {
    // Only whoever has the lock writes such files, so these are of runs that were killed.
    for (const other of readdirSync(folder))
      if (other.startsWith(start) && other.endsWith('.part')) rmSync(join(folder, other));
    writeThrough(part, text);
    if (isThere(path)) chmodSync(part, statSync(path).mode);
    if (!lock.isHeld()) {
      rmSync(part, { force: true });
      throw new CommandFailure(
        EXIT.disk,
        `this run was stopped for so long that another may have changed ${name}; try again`,
      );
    }
    renameSync(part, path);
    flushFolder(folder);
  } catch (error) {
    if (error instanceof CommandFailure) throw error;
    rmSync(part, { force: true });
    throw new CommandFailure(EXIT.disk, `cannot write ${name}: ${diskReason(error)}`);
  }
}

/** Behind links, so that a rack with two names has one lock and stays where it is. */
function realPath(path: string): string {
  try {
    return isThere(path) ? realpathSync(path) : join(realpathSync(dirname(path)), basename(path));
  } catch {
    return path;
  }
}

function isThere(path: string): boolean {
  return statSync(path, { throwIfNoEntry: false }) !== undefined;
}
