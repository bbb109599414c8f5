import { type ChildProcess, type StdioOptions, spawn } from 'node:child_process';
import { closeSync, existsSync, mkdirSync, openSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import type { World } from '../../src/cli/world.ts';
import { buildHoldfast } from '../helpers/built.ts';
import { contentsOf, folderWith, holdfast, type Ran } from '../helpers/command.ts';
import { jobText } from '../helpers/job-text.ts';
import { complaintsAbout } from '../helpers/second-check.ts';
import { jobOf } from '../packing/jobs.ts';

/** Discs lie so loosely that no bound is reached, so only the end of the work, or a stop, ends the search. */
const DISCS = `job: Tables
unit: mm
machine: { cutter: { diameter: 6 }, spacing: 60 }
materials:
  ply:
    thickness: 18
    family: plywood
    sheets: [{ size: 1000 x 1000, price: 40 }]
parts:
  - { name: Top, material: ply, shape: disc, diameter: 240, count: 10 }
`;

/** Two materials, one of outlines and one of rectangles. */
const BOTH = DISCS.replace('count: 10', 'count: 3')
  .replace(
    'parts:',
    `  mdf:
    thickness: 12
    family: mdf
    sheets: [{ size: 1200 x 800, price: 20 }]
parts:`,
  )
  .concat(`  - { name: Shelf, material: mdf, size: 410 x 230, count: 2 }
  - { name: Ledge, material: mdf, size: 530 x 170, count: 1 }
  - { name: Block, material: mdf, size: 160 x 120, count: 3 }
`);

let folder = '';

beforeAll(() => {
  folder = buildHoldfast();
});

describe('a plan made in threads', () => {
  it('is the same for one and two of them, and for none', async () => {
    const here = folderWith({ 'tables.yaml': BOTH });
    const ways: readonly (readonly [string, Partial<World>])[] = [
      ['1', {}],
      ['2', {}],
      ['2', { hasThreads: false }],
    ];
    for (const [i, [workers, world]] of ways.entries()) {
      const argv = ['plan', 'tables.yaml', '--workers', workers, '--out', `way-${i}`];
      expect(await runBuilt(here, argv, world)).toMatchObject({ code: 0, err: '' });
    }
    const contents = ways.map((_, i) => contentsOf(join(here, `way-${i}`)));
    expect(contents[1]).toEqual(contents[0]);
    expect(contents[2]).toEqual(contents[0]);
    expect(recordIn(join(here, 'way-0'))).toMatchObject({
      stoppedByTime: false,
      interrupted: false,
    });
  });

  it('stops by the clock', async () => {
    const here = folderWith({ 'tables.yaml': DISCS });
    const argv = ['plan', 'tables.yaml', '--effort', 'long', '--seconds', '0.5'];
    const { code, out } = await runBuilt(here, argv);
    expect(code).toBe(0);
    expect(out).toContain('The search was stopped by time');
    const record = recordIn(join(here, 'tables-plan'));
    expect(record).toMatchObject({ stoppedByTime: true, interrupted: false });
  });

  it('tells of a broken promise in a thread as of one here', async () => {
    const { startCrew } = await built('workers.js');
    const { AssertionError } = await built('geometry/assert.js');
    const job = jobOf([{ length: 800, width: 800 }], [{ width: 300, height: 200 }]);
    // What a thread is sent has no prototype, so that there the material is missing.
    const broken = { ...job, materials: Object.setPrototypeOf([], job.materials) };
    const crew = await startCrew(1);
    onTestFinished(crew.close);
    const packing = crew.pack(broken, 0, { effort: 'quick', seed: 1 });
    await expect(packing).rejects.toThrow(AssertionError);
    await expect(packing).rejects.toThrow('there is no material 0');
  });
});

describe('a thread that takes more memory than it is given', () => {
  const LARGE = jobText('size: 300 x 200').concat(
    Array.from(
      { length: 5000 },
      (_, i) => `  - { name: P${i}, material: ply, size: 300 x 200 }\n`,
    ).join(''),
  );

  it('ends the command with a line that says how it is given more', async () => {
    const here = folderWith({ 'large.yaml': LARGE });
    const child = start(here, ['price', 'large.yaml', '--limit', 'memory=1']);
    const { code, out, err } = await ended(child);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toBe(
      'holdfast: this job takes more memory than the 64 MB it may: split the file, or raise the limit: --limit memory=128\n',
    );
  });
});

describe('a person who stops the search', () => {
  it('gets the best plan so far, whole and checked', async () => {
    const here = folderWith({ 'tables.yaml': DISCS });
    const child = start(here, ['plan', 'tables.yaml', '--effort', 'long'], ON_TERMINAL);
    const end = ended(child);
    await said(child, /so far/);
    child.kill('SIGINT');
    const { code, out, err } = await end;
    expect(code).toBe(130);
    expect(out).toContain('The search was stopped by hand');
    const record = recordIn(join(here, 'tables-plan'));
    expect(record).toMatchObject({ stoppedByTime: false, interrupted: true });
    expect(record.materials[0].unplaced).toEqual([]);
    for (const sheet of record.materials[0].sheets)
      expect(complaintsAbout(sheet, record.machine.spacing)).toEqual([]);
    expect(readFileSync(join(here, 'tables-plan', 'report.md'), 'utf8')).toContain('by hand');

    const lines = err.split('\r\u001b[K');
    expect(lines[1]).toMatch(/^ply: .*, at least 1, \d+ % of the work left$/);
    expect(lines.filter((line) => line.length > 79)).toEqual([]);
    expect(lines.at(-1)).toBe('');
  });

  it('ends at once by stopping again, and the older plan stays', async () => {
    const here = folderWith({ 'tables.yaml': DISCS });
    mkdirSync(join(here, 'tables-plan'));
    writeFileSync(join(here, 'tables-plan', 'plan.json'), 'old');
    const child = start(here, ['plan', 'tables.yaml', '--effort', 'long'], ON_TERMINAL);
    const end = ended(child);
    await said(child, /so far/);
    // Two of the same kind might count as one.
    child.kill('SIGINT');
    child.kill('SIGTERM');
    const { code, err } = await end;
    expect(code).toBe(130);
    expect(err).toContain('holdfast: stopped at once\n');
    expect(Object.keys(contentsOf(join(here, 'tables-plan')))).toEqual(['plan.json']);
    expect(readFileSync(join(here, 'tables-plan', 'plan.json'), 'utf8')).toBe('old');
  });

  it.each(['SIGTERM', 'SIGHUP'] as const)(
    'gets the check of the best plan so far: %s',
    async (signal) => {
      const here = folderWith({ 'tables.yaml': DISCS });
      const child = start(here, ['check', 'tables.yaml', '--effort', 'long'], ON_TERMINAL);
      const end = ended(child);
      await said(child, /so far/);
      child.kill(signal);
      const { code, out, err } = await end;
      expect(code).toBe(130);
      expect(out).toContain('stopped by hand');
      expect(err.split('\n')[0]).toMatch(
        /holdfast: stopping with the best found so far; once more ends at once$/,
      );
      expect(existsSync(join(here, 'tables-plan'))).toBe(false);
    },
  );
});

describe('an output that is lost', () => {
  const here = () =>
    folderWith({ 'tables.yaml': BOTH.concat('limits: { sheets: 1 }\n'), 'bad.yaml': 'job: 1\n' });

  it.each([
    { argv: ['schema'], closed: 'stdout', code: 0 },
    // The exit code is what a check is made for, whoever reads it.
    { argv: ['check', 'tables.yaml'], closed: 'stdout', code: 1 },
    { argv: ['check', 'bad.yaml'], closed: 'stderr', code: 2 },
  ] as const)(
    'is no trouble where its reader has gone: $argv $closed',
    async ({ argv, closed, code }) => {
      const child = start(here(), argv);
      const end = ended(child);
      child[closed]?.destroy();
      const ran = await end;
      expect({ code: ran.code, err: ran.err }).toEqual({ code, err: '' });
    },
  );

  // A device that is always full, where the system has it.
  it.each(existsSync('/dev/full') ? [['schema'], ['check', 'tables.yaml']] : [])(
    'is told of where the disk is full: %s %s',
    async (...argv) => {
      const full = openSync('/dev/full', 'w');
      onTestFinished(() => closeSync(full));
      const child = start(here(), argv, [], ['ignore', full, 'pipe']);
      const { code, err } = await ended(child);
      expect(err).toBe('holdfast: cannot write to standard output: the disk is full\n');
      expect(code).toBe(74);
    },
  );
});

/** Makes the command believe that its messages go to a terminal, so that it shows how far it is. */
const ON_TERMINAL = ['--import', 'data:text/javascript,process.stderr.isTTY=true'];

/** The built command with its threads, in this process, which is quicker than one of its own. */
async function runBuilt(
  cwd: string,
  argv: readonly string[],
  world: Partial<World> = {},
): Promise<Ran> {
  const { run } = await built('cli/run.js');
  return holdfast(cwd, argv, { now: Date.now, hasThreads: true, ...world }, run);
}

function start(
  cwd: string,
  argv: readonly string[],
  node: readonly string[] = [],
  stdio: StdioOptions = 'pipe',
): ChildProcess {
  const bin = join(folder, 'bin', 'holdfast.js');
  const child = spawn(process.execPath, [...node, bin, ...argv], { cwd, stdio });
  onTestFinished(() => {
    child.kill('SIGKILL');
  });
  return child;
}

function ended(child: ChildProcess): Promise<Ran> {
  let out = '';
  let err = '';
  child.stdout?.on('data', (text) => {
    out += text;
  });
  child.stderr?.on('data', (text) => {
    err += text;
  });
  return new Promise((resolve) => {
    child.on('close', (code) => resolve({ code: code ?? -1, out, err }));
  });
}

/** Waits until the messages match; fails where the command ends before. */
function said(child: ChildProcess, pattern: RegExp): Promise<void> {
  let text = '';
  return new Promise((resolve, reject) => {
    child.on('close', () => reject(new Error(`ended after: ${text}`)));
    child.stderr?.on('data', (more) => {
      text += more;
      if (pattern.test(text)) resolve();
    });
  });
}

function built(path: string) {
  return import(pathToFileURL(join(folder, 'dist', path)).href);
}

function recordIn(plan: string) {
  return JSON.parse(readFileSync(join(plan, 'plan.json'), 'utf8'));
}
