import { execFileSync } from 'node:child_process';
import {
  existsSync,
  lstatSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import process from 'node:process';
import { describe, expect, it } from 'vitest';
import { folderWith, holdfast, smallJob } from '../helpers/command.ts';
import { jobText } from '../helpers/job-text.ts';

const RAIL =
  '<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="200mm" viewBox="0 0 300 200"><rect width="300" height="200"/></svg>';

/** A shop with a job in a folder of its own, and drawings in it and beside it. */
function shop(): string {
  const folder = folderWith();
  for (const name of ['job', 'job/sub', 'job/folder.svg', 'common', 'job-other'])
    mkdirSync(join(folder, name));
  for (const name of [
    'job/rail.svg',
    'job/sub/rail.svg',
    'common/rail.svg',
    'rail.svg',
    'job-other/rail.svg',
  ])
    writeFileSync(join(folder, name), RAIL);
  return folder;
}

async function check(folder: string, drawing: string, ...options: string[]) {
  writeFileSync(join(folder, 'job/a.yaml'), jobText(`outline: ${JSON.stringify(drawing)}`));
  const { code, err } = await holdfast(folder, ['check', 'job/a.yaml', ...options]);
  return [code, /error ([a-z-]+):/.exec(err)?.[1] ?? err];
}

describe('a drawing', () => {
  it.each([
    ['beside', 'rail.svg', 0, ''],
    ['below', 'sub/rail.svg', 0, ''],
    ['below and back', 'sub/../rail.svg', 0, ''],
    ['out and in again', '../job/rail.svg', 0, ''],
    ['above', '../rail.svg', 2, 'drawing-not-allowed'],
    ['in a folder whose name begins alike', '../job-other/rail.svg', 2, 'drawing-not-allowed'],
    ['above, which is not there', '../none.svg', 2, 'drawing-not-allowed'],
    ['that is not there', 'none.svg', 2, 'drawing-missing'],
    ['by a whole path elsewhere', '/etc/rail.svg', 2, 'drawing-not-allowed'],
    ['on a drive', 'C:\\rail.svg', 2, 'drawing-not-allowed'],
    ['on a drive, from where it is', 'c:rail.svg', 2, 'drawing-not-allowed'],
    ['on another machine', '\\\\server\\share\\rail.svg', 2, 'drawing-not-allowed'],
    ['on another machine, by slashes', '//server/share/rail.svg', 2, 'drawing-not-allowed'],
    ['by a device path', '\\\\.\\pipe\\rail.svg', 2, 'drawing-not-allowed'],
    ['a device', 'CON.svg', 2, 'drawing-not-allowed'],
    ['a device below', 'sub/nul.svg', 2, 'drawing-not-allowed'],
    ['a port', 'com1 .svg', 2, 'drawing-not-allowed'],
    ['that is a folder', 'folder.svg', 2, 'drawing-unreadable'],
    ['through a file', 'rail.svg/rail.svg', 2, 'drawing-unreadable'],
    ['of a name without end', `${'x'.repeat(5000)}.svg`, 2, 'drawing-unreadable'],
  ])('%s', async (_, drawing, code, says) => {
    expect(await check(shop(), drawing)).toEqual([code, says]);
  });

  it.skipIf(process.platform === 'win32')('behind a link counts where the link ends', async () => {
    const folder = shop();
    symlinkSync('sub/rail.svg', join(folder, 'job/in.svg'));
    symlinkSync('../rail.svg', join(folder, 'job/out.svg'));
    symlinkSync('../common', join(folder, 'job/away'));
    symlinkSync('round.svg', join(folder, 'job/round.svg'));
    symlinkSync('/dev/zero', join(folder, 'job/zero.svg'));
    expect(await check(folder, 'in.svg')).toEqual([0, '']);
    expect(await check(folder, 'out.svg')).toEqual([2, 'drawing-not-allowed']);
    expect(await check(folder, 'away/rail.svg')).toEqual([2, 'drawing-not-allowed']);
    expect(await check(folder, 'round.svg')).toEqual([2, 'drawing-unreadable']);
    expect(await check(folder, 'zero.svg')).toEqual([2, 'drawing-not-allowed']);
    expect(await check(folder, 'zero.svg', '--drawings-from', '/dev')).toEqual([
      2,
      'drawing-unreadable',
    ]);
  });

  it.skipIf(process.platform === 'win32')(
    'that is a pipe is not waited for, nor a list or a parts file',
    async () => {
      const folder = shop();
      execFileSync('mkfifo', [join(folder, 'job/pipe.svg'), join(folder, 'pipe.yaml')]);
      expect(await check(folder, 'pipe.svg')).toEqual([2, 'drawing-unreadable']);
      for (const words of [
        ['check', 'pipe.yaml'],
        ['import', 'pipe.yaml'],
        ['gauge', 'pipe.yaml'],
        ['verify', 'pipe.yaml', 'pipe.yaml'],
      ]) {
        const { code, err } = await holdfast(folder, words);
        expect([code, err]).toEqual([
          74,
          expect.stringContaining('pipe.yaml is not an ordinary file'),
        ]);
      }
    },
  );

  it('may come from a folder that a person allows', async () => {
    const folder = shop();
    expect(await check(folder, '../common/rail.svg', '--drawings-from', 'common')).toEqual([0, '']);
    expect(
      await check(folder, join(folder, 'common/rail.svg'), '--drawings-from', 'common'),
    ).toEqual([0, '']);
    expect(await check(folder, '../rail.svg', '--drawings-from', 'common')).toEqual([
      2,
      'drawing-not-allowed',
    ]);
    expect(await check(folder, 'rail.svg', '--drawings-from', 'none')).toEqual([0, '']);
  });
});

describe('--out', () => {
  const plan = (folder: string, out: string) => holdfast(folder, ['plan', 'a.yaml', '--out', out]);

  it('takes the folder of the parts file, and leaves what is there', async () => {
    const folder = folderWith({ 'a.yaml': smallJob(), 'notes.txt': 'mine' });
    expect((await plan(folder, '.')).code).toBe(0);
    expect(readFileSync(join(folder, 'a.yaml'), 'utf8')).toBe(smallJob());
    expect(readFileSync(join(folder, 'notes.txt'), 'utf8')).toBe('mine');
    expect(existsSync(join(folder, 'plan.json'))).toBe(true);
  });

  it.each([
    ['a file', 'notes.txt'],
    ['below a file', 'notes.txt/plan'],
    ['the parts file', 'a.yaml'],
  ])('says that %s is no folder, and writes nothing', async (_, out) => {
    const folder = folderWith({ 'a.yaml': smallJob(), 'notes.txt': 'mine' });
    const { code, err } = await plan(folder, out);
    expect([code, err]).toEqual([
      74,
      expect.stringMatching(
        /^holdfast: cannot write to .*: (a file of that name is in the way|a part of the path is not a folder)\n$/,
      ),
    ]);
    expect(readdirSync(folder).sort()).toEqual(['a.yaml', 'notes.txt']);
  });

  it.skipIf(process.platform === 'win32')(
    'follows a link to a folder, and replaces links by files',
    async () => {
      const folder = folderWith({ 'a.yaml': smallJob(), 'mine.json': 'mine' });
      mkdirSync(join(folder, 'real'));
      symlinkSync('real', join(folder, 'link'));
      symlinkSync('../mine.json', join(folder, 'real/plan.json'));
      symlinkSync('nowhere', join(folder, 'broken'));
      expect((await plan(folder, 'link')).code).toBe(0);
      expect(lstatSync(join(folder, 'real/plan.json')).isFile()).toBe(true);
      expect(readFileSync(join(folder, 'mine.json'), 'utf8')).toBe('mine');
      const { code, err } = await plan(folder, 'broken');
      expect([code, err]).toEqual([74, expect.stringMatching(/cannot write to/)]);
    },
  );
});
