import {
  closeSync,
  openSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { hostname } from 'node:os';
import { basename, dirname, join } from 'node:path';
import process from 'node:process';

/**
 * Who may change a file: one run at a time, and never for ever.
 *
 * Idea: the lock is a file that only one run can create, with a token in it. Where the run that made it is gone, its successor is whoever can create the file that is
 * named after that token. Nobody takes away a lock that he believes to be dead, so two that find the same dead lock cannot both have it. On release the lock itself goes
 * first: a successor that comes too late sees that the token it followed is no longer there, and starts anew.
 * A run is gone where its process is no more, if it was on this computer; else, and where a process was stopped and never went on, once its lock was watched unchanged for
 * a minute. What is done under the lock takes milliseconds. No clock of a disk is trusted.
 * Degenerate cases: a run that wakes up after a minute asks `isHeld` before it writes; a lock without a token is one whose run ended while making it.
 */
export interface Lock {
  readonly isHeld: () => boolean;
  readonly release: () => void;
}

const WATCH_MS = 60_000;
const WATCH_EMPTY_MS = 10_000;
const LONGEST_WAIT_MS = 120_000;
const PAUSE_MS = 15;

let made = 0;

/** Waits for the lock of a file; the number of the process that has it, where that takes too long. */
export async function lockOf(file: string): Promise<Lock | { readonly holder: string }> {
  const base = `${join(dirname(file), `.${basename(file)}`)}.lock`;
  const token = `${process.pid}.${Math.floor(performance.timeOrigin)}-${made++}.${HOST}`;
  const started = performance.now();
  const firstSeen = new Map<string, number>();
  const watchedMs = ({ token: other }: Found) => {
    const first = firstSeen.get(other) ?? performance.now();
    firstSeen.set(other, first);
    return performance.now() - first;
  };
  for (;;) {
    const tried = tryLock(base, token, watchedMs);
    if (!('holder' in tried)) return tried;
    if (performance.now() - started > LONGEST_WAIT_MS) return tried;
    await new Promise((resolve) => setTimeout(resolve, PAUSE_MS));
  }
}

const HOST = hostname().replaceAll(/[^A-Za-z0-9]/g, '-');

interface Found {
  readonly token: string;
  /** Both empty in a lock without a token. */
  readonly pid: string;
  readonly host: string;
}

function tryLock(
  base: string,
  token: string,
  watchedMs: (found: Found) => number,
): Lock | { readonly holder: string } {
  let path = base;
  let first: string | null = null;
  while (!create(path, token)) {
    const other = lookAt(path);
    if (other === null || !isGone(other, watchedMs)) return { holder: other?.pid ?? '' };
    first ??= other.token;
    path = `${base}.${other.token}`;
  }
  // While the first of the dead locks is there, none of those after it was given back.
  if (first === null || lookAt(base)?.token === first) return lockAt(base, path, token);
  rmSync(path, { force: true });
  return { holder: '' };
}

function create(path: string, token: string): boolean {
  let file: number;
  try {
    file = openSync(path, 'wx');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false;
    throw error;
  }
  try {
    fill(file, token);
    return true;
  } catch (error) {
    // A full disk takes a name but no token, and others would wait for a lock without one.
    rmSync(path, { force: true });
    throw error;
  }
}

function fill(file: number, token: string): void {
  try {
    writeFileSync(file, token);
  } finally {
    closeSync(file);
  }
}

/** Null where it has gone in the meantime. */
function lookAt(path: string): Found | null {
  try {
    const token = readFileSync(path, 'utf8');
    if (token === '') return { token: `empty-${statSync(path).ino}`, pid: '', host: '' };
    const [pid = '', , host = ''] = token.split('.');
    return { token, pid, host };
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
    throw error;
  }
}

function isGone(found: Found, watchedMs: (found: Found) => number): boolean {
  const { pid, host } = found;
  if (pid === '') return watchedMs(found) > WATCH_EMPTY_MS;
  return (host === HOST && !isRunning(Number(pid))) || watchedMs(found) > WATCH_MS;
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code !== 'ESRCH';
  }
}

function lockAt(base: string, path: string, token: string): Lock {
  const isHeld = () => lookAt(path)?.token === token && lookAt(`${base}.${token}`) === null;
  return {
    isHeld,
    release: () => {
      try {
        if (isHeld()) removeLocks(base);
      } catch {
        // What stays is a lock of a dead run once this one has ended, and no trouble to the next.
        return;
      }
    },
  };
}

function removeLocks(base: string): void {
  const folder = dirname(base);
  const left = readdirSync(folder).filter((name) => name.startsWith(`${basename(base)}.`));
  rmSync(base, { force: true });
  // The locks of dead runs that were followed, and what other dead ones left; none of them can be followed any more.
  for (const name of left) rmSync(join(folder, name), { force: true });
}
