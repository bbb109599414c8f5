import { spawn, spawnSync } from 'node:child_process';
import {
  chmodSync,
  copyFileSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  writeFileSync,
} from 'node:fs';
import { join, resolve } from 'node:path';
import { beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { buildHoldfast } from '../helpers/built.ts';
import { contentsOf, folderWith, holdfast, smallJob } from '../helpers/command.ts';
import { resultsOf, sarifFaults } from '../helpers/sarif.ts';

const KEPT = smallJob('limits: { sheets: 1, proof: yes }\n');
const BROKEN = smallJob('limits: { sheets: 0 }\n');
const BAD = smallJob('colour: red\n');
const RACK = 'format: holdfast-rack/1\nunit: mm\noffcuts: []\n';
const READINGS = 'unit: mm\nreadings: [{ kind: bare, vacuum: 12.5 kPa }]\n';

/** "a.yaml", "b.yaml": the headings of a check of many files, in their order. */
function headings(out: string): readonly string[] {
  return out.split('\n').filter((line) => /^\S+\.ya?ml$/.test(line));
}

describe('a check of many files', () => {
  it('has every file once, sorted, and a count at the end', async () => {
    const folder = folderWith({ 'c.yaml': KEPT, 'a.yaml': BROKEN, 'b.yml': BAD });
    const argv = ['check', './c.yaml', 'c.yaml', '*.yaml', '*.{yaml,yml}'];
    const { code, out, err } = await holdfast(folder, argv);
    expect(headings(out)).toEqual(['a.yaml', 'b.yml', 'c.yaml']);
    expect(out.endsWith('\n3 files: 1 passed, 1 failed, 1 not planned\n')).toBe(true);
    expect(err).toMatch(/^b\.yml:12:1: error unknown-key/);
    expect(out).toMatch(/^b\.yml:12:1: nothing planned: /m);
    expect(code).toBe(2);
    expect(out.split('\n').filter((line) => [...line].length > 80)).toEqual([]);
  });

  it('goes into folders, and passes over racks, readings and packages', async () => {
    const folder = folderWith({ 'rack.yaml': RACK });
    for (const sub of ['in', 'in/deep', 'node_modules', 'node_modules/x'])
      mkdirSync(join(folder, sub));
    writeFileSync(join(folder, 'in', 'table.yaml'), READINGS);
    writeFileSync(join(folder, 'in', 'deep', 'a.yaml'), KEPT);
    writeFileSync(join(folder, 'node_modules', 'x', 'b.yaml'), BAD);
    const { code, out, err } = await holdfast(folder, ['check', './**/*.yaml']);
    expect(headings(out)).toEqual(['in/deep/a.yaml']);
    expect(err).toBe(
      'holdfast: in/table.yaml is a file of readings, so it is passed over\nholdfast: rack.yaml is a rack, so it is passed over\n',
    );
    expect(code).toBe(0);
  });

  it.each<readonly [string, readonly string[], number, string]>([
    ['a pattern that nothing matches', ['*.yaml', '*.yml'], 2, 'no file matches *.yml'],
    ['a pattern for racks alone', ['r*.yaml'], 2, 'no parts file matches r*.yaml'],
    ['a rack by its name', ['rack.yaml'], 2, 'rack.yaml is a rack, not a parts file'],
    ['one plan for two files', ['a.yaml', 'b.yaml', '--against', 'x'], 2, 'write --against beside'],
    [
      'a plan that is not there',
      ['a.yaml', '--against', 'beside'],
      74,
      'a.yaml: there is no kept plan a-plan/plan.json to compare with: holdfast plan makes one, with --out a-plan',
    ],
    ['a plan that is none', ['a.yaml', '--against', 'rack.yaml'], 2, 'is no record of a plan'],
    ['a file that is not there', ['a.yaml', 'gone.yaml'], 74, 'cannot read gone.yaml'],
    ['a place for SARIF that is none', ['a.yaml', '--sarif', 'no/s'], 74, 'cannot write no/s'],
  ])('says what is wrong with %s', async (_, words, code, says) => {
    const folder = folderWith({ 'a.yaml': KEPT, 'b.yaml': KEPT, 'rack.yaml': RACK });
    const ran = await holdfast(folder, ['check', ...words]);
    expect(ran.err).toContain(says);
    expect(ran.code).toBe(code);
  });

  it('says on the standard output, too, why a file was not planned', async () => {
    const folder = folderWith({
      'a.yaml': KEPT,
      'bad.yaml': 'unit: mm\r\nparts: [}\r\n',
      'none.yaml': '',
    });
    const argv = ['check', 'a.yaml', 'bad.yaml', 'none.yaml', 'gone.yaml'];
    const { out } = await holdfast(folder, argv);
    const reasons = out
      .replace(/\n {2,}/g, ' ')
      .split('\n')
      .filter((line) => line.includes('nothing planned'));
    expect(reasons).toEqual([
      'bad.yaml:2:9: nothing planned: a bracket is not closed, or the indent of this line does not fit',
      'gone.yaml: nothing planned: cannot read gone.yaml: there is no such file or folder',
      'none.yaml:1:1: nothing planned: the file is empty',
    ]);
  });

  it('takes a name with the letters of patterns for a name', async () => {
    const folder = folderWith({ 'a[1].yaml': KEPT });
    const { code, out } = await holdfast(folder, ['check', 'a[1].yaml']);
    expect([code, out]).toEqual([0, expect.stringContaining('a[1].yaml: all limits are kept')]);
  });

  it.each<readonly [number, readonly string[]]>([
    [0, [KEPT, KEPT]],
    [1, [KEPT, BROKEN, KEPT]],
    [2, [BAD, BROKEN]],
  ])('ends with %i, the worst of all', async (code, texts) => {
    const files = Object.fromEntries(texts.map((text, i) => [`${i}.yaml`, text]));
    const ran = await holdfast(folderWith(files), ['check', '*.yaml', '--format', 'json']);
    expect(ran.code).toBe(code);
    const record = JSON.parse(ran.out);
    expect([record.format, record.passed]).toEqual(['holdfast-checks/1', code === 0]);
    expect(record.files.map(({ file }: { file: string }) => file)).toEqual(Object.keys(files));
  });
});

describe('a check against a plan', () => {
  it('passes until the job changes, and says what changed', async () => {
    const folder = folderWith({ 'a.yaml': smallJob('limits: { drift: a-plan }\n') });
    await holdfast(folder, ['plan', 'a.yaml']);
    const before = contentsOf(join(folder, 'a-plan'));
    const same = await holdfast(folder, ['check', 'a.yaml']);
    expect([same.code, same.out]).toEqual([
      0,
      expect.stringMatching(/all limits are kept\n.*still as in a-plan/),
    ]);

    const wider = readFileSync(join(folder, 'a.yaml'), 'utf8').replace('600 x 300', '600 x 310');
    writeFileSync(join(folder, 'a.yaml'), wider);
    const ran = await holdfast(folder, ['check', 'a.yaml', '--against', 'beside']);
    expect(ran.code).toBe(1);
    expect(ran.out).toContain('no longer as in a-plan/plan.json');
    expect(ran.out).toContain('    "Side" measures 600 × 310 mm, before 600 × 300 mm\n');
    expect(ran.out).not.toContain('all limits are kept');
    expect(contentsOf(join(folder, 'a-plan'))).toEqual(before);
  });

  it('takes a plan from elsewhere only by the option', async () => {
    const folder = folderWith({ 'a.yaml': KEPT });
    await holdfast(folder, ['plan', 'a.yaml']);
    mkdirSync(join(folder, 'in'));
    writeFileSync(
      join(folder, 'in', 'b.yaml'),
      smallJob('limits: { drift: ../a-plan/plan.json }\n'),
    );
    const named = await holdfast(folder, ['check', 'in/b.yaml']);
    expect([named.code, named.err]).toEqual([
      2,
      expect.stringContaining('is not beside or below the parts file'),
    ]);
    const given = await holdfast(folder, ['check', 'in/b.yaml', '--against', 'a-plan']);
    expect([given.code, given.err]).toEqual([0, '']);
  });
});

describe('the built command', () => {
  let built = '';
  beforeAll(() => {
    built = buildHoldfast('holdfast-check-test');
  }, 60_000);

  it('gives the same bytes with two files side by side and one after the other', () => {
    const files = { 'a.yaml': KEPT, 'b.yaml': BROKEN, 'c.yaml': BAD, 'd.yaml': KEPT };
    const folder = folderWith(files);
    const ran = ['1', '2'].map((workers) =>
      command(['check', '*.yaml', '--workers', workers, '--sarif', `${workers}.sarif`], folder),
    );
    expect(ran[1]).toEqual(ran[0]);
    expect(ran[0]!.code).toBe(2);
    const [one, two] = ['1', '2'].map((name) =>
      readFileSync(join(folder, `${name}.sarif`), 'utf8'),
    );
    expect(two).toBe(one);
  });

  it('stops all files by one signal, with 130', async () => {
    const loose = smallJob()
      .replace('spacing: 8', 'spacing: 60')
      .replace(
        /parts:[\s\S]*/,
        'parts: [{ name: Top, material: ply, shape: disc, diameter: 240, count: 10 }]\n',
      );
    const folder = folderWith({
      'a.yaml': KEPT,
      'b.yaml': loose,
      'c.yaml': loose,
      'd.yaml': loose,
    });
    const argv = [join(built, 'bin', 'holdfast.js'), 'check', '*.yaml', '--effort', 'long'];
    const child = spawn(process.execPath, argv, { cwd: folder });
    onTestFinished(() => void child.kill('SIGKILL'));
    let [out, err] = ['', ''];
    child.stdout.on('data', (text) => {
      if (out === '') child.kill('SIGINT');
      out += text;
    });
    child.stderr.on('data', (text) => {
      err += text;
    });
    const code = await new Promise((done) => child.on('close', done));
    expect(code).toBe(130);
    expect(headings(out)).toEqual(['a.yaml', 'b.yaml', 'c.yaml', 'd.yaml']);
    expect(out).toContain('stopped by hand');
    expect(err).toContain('d.yaml: stopped before it was checked');
  });

  it('is run by the example for CI in a clean folder, by a plain shell', () => {
    const folder = folderWith({ 'check.sh': '', holdfast: '' });
    mkdirSync(join(folder, 'my jobs'));
    writeFileSync(join(folder, 'my jobs', 'good.yaml'), KEPT);
    writeFileSync(join(folder, 'my jobs', 'over.yml'), BROKEN);
    copyFileSync(resolve('examples/ci/check.sh'), join(folder, 'check.sh'));
    const bin = join(built, 'bin', 'holdfast.js');
    writeFileSync(
      join(folder, 'holdfast'),
      `#!/bin/sh\nexec '${process.execPath}' '${bin}' "$@"\n`,
    );
    chmodSync(join(folder, 'holdfast'), 0o755);
    const sh = (...words: readonly string[]) =>
      spawnSync('sh', ['check.sh', ...words], {
        cwd: folder,
        env: { PATH: `${folder}:${process.env.PATH}` },
        encoding: 'utf8',
      });

    const all = sh('my jobs');
    expect([all.status, all.stderr]).toEqual([1, '']);
    expect(all.stdout).toContain('my jobs/over.yml:12:11: the limit is 0 sheets');
    expect(readdirSync(join(folder, 'my jobs'))).toEqual([
      'good.yaml',
      'holdfast.sarif',
      'over.yml',
    ]);
    const log = readFileSync(join(folder, 'my jobs', 'holdfast.sarif'), 'utf8');
    expect([sarifFaults(log), resultsOf(log)]).toEqual([
      [],
      ['my%20jobs/over.yml:12:11 error limit-sheets'],
    ]);

    expect(sh('no such').status).toBe(2);
    writeFileSync(join(folder, 'my jobs', 'over.yml'), KEPT);
    const good = sh();
    expect([good.status, good.stderr]).toEqual([0, '']);
    expect(headings(good.stdout.replaceAll('my jobs', 'my-jobs'))).toEqual([
      'my-jobs/good.yaml',
      'my-jobs/over.yml',
    ]);
  });

  function command(argv: readonly string[], cwd: string) {
    const ran = spawnSync(process.execPath, [join(built, 'bin', 'holdfast.js'), ...argv], {
      cwd,
      encoding: 'utf8',
    });
    return { code: ran.status, out: ran.stdout, err: ran.stderr };
  }
});
