import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';

const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;
/** Every third run is stopped a second time, at most so much later. */
const SECOND_WITHIN_MS = 1500;
/** The exit code of a run that was stopped. */
const STOPPED = 130;

/** Discs whose bound is not reached, so that there is something to stop, and rectangles. */
const JOB = `job: Stopped
unit: mm
machine: { cutter: { diameter: 6 }, spacing: 40 }
materials:
  ply: { thickness: 18, family: plywood, sheets: [{ size: 800 x 600 }] }
  mdf: { thickness: 12, family: mdf, sheets: [{ size: 800 x 600 }] }
parts:
  - { name: Top, material: ply, shape: disc, diameter: 240, count: 5 }
  - { name: Shelf, material: mdf, size: 410 x 230, count: 2 }
`;

export interface Stopped {
  /** Whether the run wrote its plan. */
  readonly wasWritten: boolean;
  /** From the last signal to the end of the process. */
  readonly endMs: number;
  readonly faults: number;
}

/** How long a run takes that nobody stops. */
export function untroubledMs(root: string, folder: string): number {
  prepare(folder);
  const start = performance.now();
  const { status } = spawnSync(process.execPath, commandOf(root), { cwd: folder, stdio: 'ignore' });
  if (status !== 0) throw new Error(`a run that nobody stops ends with ${status}`);
  return performance.now() - start;
}

/**
 * A run that makes a plan over an older one is stopped by a signal at a moment drawn from the time that it takes. Then the folder is the older plan, or one that `verify`
 * accepts, and the exit code says that it was stopped, unless it was done before.
 */
export async function stopOnce(
  root: string,
  folder: string,
  { random, wholeMs }: { readonly random: () => number; readonly wholeMs: number },
): Promise<Stopped> {
  prepare(folder);
  const signal = SIGNALS[Math.floor(SIGNALS.length * random())]!;
  const isTwice = random() < 1 / 3;
  const child = spawn(process.execPath, commandOf(root), { cwd: folder, stdio: 'ignore' });
  const ended = endOf(child);
  await afterMs(wholeMs * random());
  child.kill(signal);
  if (isTwice) {
    await afterMs(SECOND_WITHIN_MS * random());
    child.kill(signal);
  }
  const start = performance.now();
  const { code, by } = await ended;
  const endMs = performance.now() - start;
  const names = readdirSync(join(folder, 'plan'));
  const wasWritten = names.length > 1;
  const isOld = names.join() === 'plan.json' && recordIn(folder) === OLD;
  // Before the program has begun the system itself ends it.
  const isCodeRight = code === STOPPED || (code === 0 && wasWritten) || (by !== null && isOld);
  const isWhole = wasWritten ? isSound(root, folder, names) : isOld;
  const faults = [isCodeRight, isWhole].filter((isRight) => !isRight).length;
  return { wasWritten, endMs, faults };
}

const OLD = '{}';

function prepare(folder: string): void {
  writeFileSync(join(folder, 'job.yaml'), JOB);
  mkdirSync(join(folder, 'plan'), { recursive: true });
  writeFileSync(join(folder, 'plan', 'plan.json'), OLD);
}

function commandOf(root: string): readonly string[] {
  const bin = join(root, 'bin', 'holdfast.js');
  return [bin, 'plan', 'job.yaml', '--out', 'plan', '--effort', 'long', '--seconds', '1'];
}

function recordIn(folder: string): string {
  return readFileSync(join(folder, 'plan', 'plan.json'), 'utf8');
}

/** Nothing half is left, and `verify` finds nothing wrong. */
function isSound(root: string, folder: string, names: readonly string[]): boolean {
  if (names.some((name) => name.startsWith('.'))) return false;
  const argv = [join(root, 'bin', 'holdfast.js'), 'verify', 'plan', 'job.yaml'];
  return spawnSync(process.execPath, argv, { cwd: folder, stdio: 'ignore' }).status === 0;
}

function endOf(
  child: ChildProcess,
): Promise<{ readonly code: number | null; readonly by: string | null }> {
  return new Promise((resolve) => child.on('exit', (code, by) => resolve({ code, by })));
}

function afterMs(ms: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, ms));
}
