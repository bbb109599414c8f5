import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { finishMoving } from '../../src/cli/write-files.ts';
import { readRack } from '../../src/rack/read-rack.ts';

/** A process of the built command line that runs command lines one after the other, for ever or so many times; it says `.` after each. */
export function runOver(
  built: string,
  folder: string,
  { lines, times }: { readonly lines: readonly (readonly string[])[]; readonly times: number },
): ChildProcess {
  const script = `
    import { run } from ${JSON.stringify(pathToFileURL(join(built, 'dist', 'cli', 'run.js')).href)};
    const lines = ${JSON.stringify(lines)};
    const world = {
      cwd: process.cwd(), env: {}, out: () => {}, err: (text) => process.stderr.write(text),
      outIsTerminal: false, errIsTerminal: false, now: () => 0, hasThreads: false, onInterrupt: () => () => {},
      interrupts: () => 0, guard: (act) => act(),
    };
    process.stdout.write('+');
    for (let n = 0; n < ${times}; n++) {
      const code = await run(lines[n % lines.length], world);
      if (code !== 0) process.exit(code);
      process.stdout.write('.');
    }`;
  return spawn(process.execPath, ['--input-type=module', '-e', script], {
    cwd: folder,
    stdio: ['ignore', 'pipe', 'inherit'],
  });
}

/** Names and contents of two made-up plans of so many files that moving them takes a while; the second has fewer drawings. */
export const LONG_PLANS: readonly Readonly<Record<string, Buffer>>[] = [200, 150].map(
  (drawings, which) => {
    const names = Array.from({ length: drawings }, (_, i) => `sheet-${i + 1}.svg`);
    return Object.fromEntries(
      [...names, 'plan.json', 'report.md'].map((name) => [
        name,
        Buffer.from(`${name} of plan ${which}\n`.repeat(100)),
      ]),
    );
  },
);

/** A process that writes the two plans into `plan` by turns with the writer of the built command line. */
export function writeLongPlans(built: string, folder: string, times: number): ChildProcess {
  const plans = LONG_PLANS.map((plan) =>
    Object.entries(plan).map(([name, content]) => ({ name, content: content.toString() })),
  );
  writeFileSync(join(folder, 'plans.json'), JSON.stringify(plans));
  const script = `
    import { readFileSync } from 'node:fs';
    import { writeFiles } from ${JSON.stringify(pathToFileURL(join(built, 'dist', 'cli', 'write-files.js')).href)};
    const plans = JSON.parse(readFileSync('plans.json', 'utf8'));
    for (let n = 0; n < ${times}; n++) writeFiles('plan', plans[n % 2], /^sheet-\\d+\\.svg$/);`;
  return spawn(process.execPath, ['--input-type=module', '-e', script], {
    cwd: folder,
    stdio: ['ignore', 'pipe', 'inherit'],
  });
}

/** Waits until the note of a move is there, or is gone; busy, as a move takes milliseconds only. */
export function waitForNote(folder: string, isThere: boolean): void {
  const end = Date.now() + 60_000;
  const cell = new Int32Array(new SharedArrayBuffer(4));
  while (existsSync(join(folder, '.holdfast-moving')) !== isThere) {
    if (Date.now() > end) throw new Error('no move was seen for a minute');
    Atomics.wait(cell, 0, 0, 0.1);
  }
}

export function exitOf(child: ChildProcess): Promise<number | null> {
  return new Promise((resolve) => child.on('exit', resolve));
}

/** Kills a process without warning, so long after it has begun its work; gives how many of its lines it said were done. */
export async function killAfter(child: ChildProcess, ms: number): Promise<number> {
  let said = '';
  const begun = new Promise<void>((resolve) => {
    child.stdout!.on('data', (text) => {
      said += text;
      resolve();
    });
    child.on('exit', () => resolve());
  });
  const ended = exitOf(child);
  await begun;
  await new Promise((resolve) => setTimeout(resolve, ms));
  child.kill('SIGKILL');
  await ended;
  return said.length - 1;
}

/** What is wrong with a rack after a run was killed: a half file, a lost entry; null where nothing is. */
export function faultOfRack(folder: string, atLeast: number): string | null {
  const { rack, problems } = readRack(readFileSync(join(folder, 'rack.yaml'), 'utf8'));
  if (rack === null) return `the rack cannot be read: ${problems[0]?.message}`;
  if (rack.entries.length < atLeast)
    return `${rack.entries.length} entries where ${atLeast} were added`;
  const ids = new Set(rack.entries.map(({ id }) => id));
  return ids.size === rack.entries.length ? null : 'a label is there twice';
}

export function entriesIn(folder: string): number {
  return readRack(readFileSync(join(folder, 'rack.yaml'), 'utf8')).rack?.entries.length ?? 0;
}

/**
 * What is wrong with a plan's folder after a run was killed: it is none of the whole ones. Where the run had decided on the new plan and left a note of it, what
 * the next run does first is done first; `wasMoving` says so.
 */
export function faultOfPlan(
  folder: string,
  wholes: readonly Readonly<Record<string, Buffer>>[],
): { readonly fault: string | null; readonly wasMoving: boolean } {
  const wasMoving = existsSync(join(folder, '.holdfast-moving'));
  finishMoving(folder);
  const names = readdirSync(folder)
    .filter((name) => !name.endsWith('.part'))
    .sort();
  const isWhole = wholes.some(
    (whole) =>
      Object.keys(whole).sort().join() === names.join() &&
      names.every((name) => readFileSync(join(folder, name)).equals(whole[name]!)),
  );
  return { fault: isWhole ? null : `a mixed folder: ${names.join(', ')}`, wasMoving };
}
