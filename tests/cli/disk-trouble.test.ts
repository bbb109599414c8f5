import { mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { CommandFailure } from '../../src/cli/world.ts';
import { finishMoving, writeFiles } from '../../src/cli/write-files.ts';
import { folderWith, holdfast, smallJob } from '../helpers/command.ts';
import { withFailure } from '../helpers/failing-disk.ts';

vi.mock('node:fs', async (importOriginal) => {
  const { failingFs } = await import('../helpers/failing-disk.ts');
  return failingFs(await importOriginal());
});

type Files = Readonly<Record<string, string>>;

const FOUND: Files = {
  'shelf.yaml': smallJob().replaceAll('count: 2', 'count: 1'),
  'list.csv': 'name,length,width,count,material\nSide,600,300,2,Ply 18\n',
  'readings.yaml': readFileSync(
    join(import.meta.dirname, '../../examples/readings/blower-table.yaml'),
    'utf8',
  ),
  'found.sarif': 'old',
};
const ADD = 'offcuts add --size 600x200 --material ply --thickness 18 --grain none';
const RACK = 'rack.yaml';

/** Every command that asks the disk, and whether it finds a rack. */
const COMMANDS: readonly { readonly line: string; readonly racked: boolean }[] = [
  { line: 'check shelf.yaml --sarif found.sarif', racked: false },
  { line: 'check s*.yaml', racked: false },
  { line: 'price shelf.yaml', racked: true },
  { line: 'explain shelf.yaml', racked: false },
  { line: 'verify made shelf.yaml', racked: false },
  { line: 'gauge readings.yaml', racked: false },
  { line: 'offcuts list', racked: true },
  { line: ADD, racked: false },
  { line: ADD, racked: true },
  { line: 'offcuts add made', racked: true },
  { line: 'import list.csv', racked: false },
  { line: 'new fresh.yaml', racked: false },
];

describe.each(['EIO', 'ENOSPC', 'EMFILE'])('a disk that says %s once', (code) => {
  it.each(COMMANDS)(
    'stops "$line" (a rack: $racked) with one clear line and whole files, whatever it was asked',
    async ({ line, racked }) => {
      const found = await filesFor(racked);
      const run = async (failure: Parameters<typeof withFailure>[0]) => {
        const folder = folderOf(found);
        const { result, calls } = await withFailure(failure, () =>
          holdfast(folder, line.split(' ')),
        );
        return { ...result, calls, files: filesIn(folder) };
      };
      const well = await run(null);
      expect(well.code).toBeLessThan(2);
      expect(well.calls.length).toBeGreaterThan(0);
      for (const [call, name] of well.calls.entries()) {
        const ran = await run({ call, code });
        const what = `${code} of ${name}, call ${call}: ${ran.err}`;
        expect(ran.err, what).not.toMatch(/mistake|\n {4}at /);
        if (ran.code === 74) {
          expect(ran.err + ran.out, what).toMatch(REASONS[code]!);
          expect(ran.err.split('holdfast: ').length, what).toBeLessThan(3);
          // What a check says of the disk stands in its SARIF as well.
          const { 'found.sarif': sarif, ...others } = ran.files;
          expect({ ...others, 'found.sarif': 'old' }, what).toEqual(found);
          if (sarif !== 'old') expect(JSON.parse(sarif!), what).toMatchObject({ version: '2.1.0' });
        } else {
          // What is only a courtesy, such as flushing a folder, or giving back a lock that ends with the process.
          expect(ran.code, what).toBe(well.code);
          expect(withoutLocks(ran.files), what).toEqual(well.files);
        }
      }
    },
    60_000,
  );

  it('leaves the older plan whole, or the newer one once the next run has been', async () => {
    const older: Files = { 'plan.json': 'old', 'sheet-01.svg': 'old', 'sheet-02.svg': 'old' };
    const newer: Files = { 'plan.json': 'new', 'sheet-01.svg': 'new', 'report.md': 'new' };
    const write = (folder: string) => {
      const files = Object.entries(newer).map(([name, content]) => ({ name, content }));
      writeFiles(folder, files, /^sheet-\d+\.svg$/);
    };
    const { calls } = await withFailure(null, () => write(folderOf(older)));
    for (const [call, name] of calls.entries()) {
      const folder = folderOf(older);
      const what = `${code} of ${name}, call ${call}`;
      const { result } = await withFailure({ call, code }, () => failureOf(() => write(folder)));
      finishMoving(folder);
      const left = filesIn(folder);
      if (result === null) expect(left, what).toEqual(newer);
      else {
        expect(result.message, what).toMatch(REASONS[code]!);
        expect(result.message, what).toContain(folder);
        expect(result.exitCode, what).toBe(74);
        expect([older, newer], what).toContainEqual(left);
      }
    }
  });
});

describe('a plan', () => {
  it('finds out before the search that its folder cannot be written to', async () => {
    const folder = folderOf({ ...FOUND, taken: 'a file' });
    for (const out of ['taken', 'taken/plan', 'x'.repeat(300)]) {
      const argv = ['plan', 'shelf.yaml', '--out', out];
      const { code, err } = await holdfast(folder, argv, { now: notAsked });
      expect(code).toBe(74);
      expect(err).toMatch(/^holdfast: cannot write to .*: (?!no permission)[^\n]+\n$/);
    }
    expect(filesIn(folder)).toEqual({ ...FOUND, taken: 'a file' });
  });

  it('leaves the older one, and nothing half, where it is stopped while files are written', () => {
    const older = { 'plan.json': 'old' };
    const folder = folderOf(older);
    const files = ['report.md', 'plan.json'].map((name) => ({ name, content: 'new' }));
    let asked = 0;
    const failure = failureOf(() => writeFiles(folder, files, /^$/, () => asked++ > 0));
    expect(failure).toMatchObject({
      exitCode: 130,
      message: 'stopped at once, nothing was written',
    });
    expect(filesIn(folder)).toEqual(older);
  });

  it('leaves no empty folder where it cannot be written', async () => {
    const folder = folderOf(FOUND);
    const files = [{ name: 'plan.json', content: 'new' }];
    const write = () => writeFiles(join(folder, 'fresh'), files, /^$/);
    const { calls } = await withFailure(null, write);
    rmSync(join(folder, 'fresh'), { recursive: true });
    const call = calls.indexOf('writeSync');
    const { result } = await withFailure({ call, code: 'ENOSPC' }, () => failureOf(write));
    expect(result?.message).toBe(`cannot write to ${join(folder, 'fresh')}: the disk is full`);
    expect(readdirSync(folder).sort()).toEqual(Object.keys(FOUND).sort());
  });
});

const REASONS: Readonly<Record<string, RegExp>> = {
  EIO: /the disk failed/,
  ENOSPC: /the disk is full/,
  EMFILE: /too many files are open/,
};

function notAsked(): never {
  throw new Error('the search has begun');
}

function failureOf(act: () => void): CommandFailure | null {
  try {
    act();
    return null;
  } catch (error) {
    expect(error).toBeInstanceOf(CommandFailure);
    return error as CommandFailure;
  }
}

let made: Promise<Files> | null = null;

/** What a command finds: the job, a plan of it and, where asked for, a rack; made once. */
async function filesFor(racked: boolean): Promise<Files> {
  made ??= makeFiles();
  const { [RACK]: rack, ...others } = await made;
  return racked ? { ...others, [RACK]: rack! } : others;
}

async function makeFiles(): Promise<Files> {
  const folder = folderOf(FOUND);
  const argv = ['plan', 'shelf.yaml', '--out', 'made'];
  expect(await holdfast(folder, argv)).toMatchObject({ code: 0 });
  expect(await holdfast(folder, ADD.split(' '))).toMatchObject({ code: 0 });
  const { 'made/plan.json': record, [RACK]: rack } = filesIn(folder);
  return { ...FOUND, 'made/plan.json': record!, [RACK]: rack! };
}

function folderOf(files: Files): string {
  const folder = folderWith();
  for (const [name, text] of Object.entries(files)) {
    mkdirSync(join(folder, name, '..'), { recursive: true });
    writeFileSync(join(folder, name), text);
  }
  return folder;
}

function withoutLocks(files: Files): Files {
  return Object.fromEntries(Object.entries(files).filter(([name]) => !name.includes('.lock')));
}

/** The texts of all files of a folder and those in it by their names, hidden ones too. */
function filesIn(folder: string): Files {
  const list = (inside: string): string[] =>
    readdirSync(inside).flatMap((name) => {
      const path = join(inside, name);
      return statSync(path).isDirectory() ? list(path) : [path];
    });
  return Object.fromEntries(
    list(folder).map((path) => [relative(folder, path), readFileSync(path, 'utf8')]),
  );
}
