import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { finishMoving, writeFiles } from '../../src/cli/write-files.ts';
import { seededRandom } from '../../src/packing/random.ts';
import { buildHoldfast } from '../helpers/built.ts';
import { contentsOf, folderWith, holdfast, smallJob } from '../helpers/command.ts';
import { entriesIn, exitOf, faultOfPlan, faultOfRack, killAfter, runOver } from './killed.ts';
import { smallRack } from './racks.ts';

const ADD = [
  'offcuts',
  'add',
  '--size',
  '600x200',
  '--material',
  'ply',
  '--thickness',
  '18',
].concat(['--grain', 'none']);

let built = '';

beforeAll(() => {
  built = buildHoldfast('holdfast-test-rack');
});

describe('a rack that several runs change', () => {
  it('loses none of fifty entries that each of two processes adds', async () => {
    const folder = folderWith();
    const runs = [0, 1].map(() => exitOf(runOver(built, folder, { lines: [ADD], times: 50 })));
    expect(await Promise.all(runs)).toEqual([0, 0]);
    expect(faultOfRack(folder, 100)).toBe(null);
    expect(entriesIn(folder)).toBe(100);
    expect(readdirSync(folder)).toEqual(['rack.yaml']);
  });

  it('is old or new, and changes again, whenever a run is killed', async () => {
    const folder = folderWith({ 'rack.yaml': smallRack() });
    const random = seededRandom(7);
    let atLeast = 2;
    for (let n = 0; n < 15; n++) {
      // Two at a time, so that some are killed while another waits for them.
      const runs = [0, 1].map(() => runOver(built, folder, { lines: [ADD], times: 1000 }));
      const done = await Promise.all(runs.map((run) => killAfter(run, 60 * random())));
      atLeast += done.reduce((sum, each) => sum + each, 0);
      expect(faultOfRack(folder, atLeast)).toBe(null);
      expect(await holdfast(folder, ADD)).toMatchObject({ code: 0, err: '' });
      atLeast = entriesIn(folder);
    }
    expect(readdirSync(folder)).toEqual(['rack.yaml']);
  });
});

describe("a plan's folder", () => {
  it('is the old or the new plan, whenever a run is killed', async () => {
    const folder = folderWith({
      'one.yaml': smallJob(),
      'two.yaml': smallJob().replace('count: 2, grain', 'count: 6, grain'),
    });
    const lines = ['one', 'two'].map((name) => ['plan', `${name}.yaml`, '--out', 'plan']);
    const wholes = [];
    for (const line of lines) {
      await holdfast(folder, line);
      wholes.push(contentsOf(join(folder, 'plan')));
    }
    const random = seededRandom(11);
    for (let n = 0; n < 6; n++) {
      await killAfter(runOver(built, folder, { lines, times: 1000 }), 600 * random());
      expect(faultOfPlan(join(folder, 'plan'), wholes).fault).toBe(null);
    }
    await holdfast(folder, lines[0]!);
    expect(contentsOf(join(folder, 'plan'))).toEqual(wholes[0]);
  });

  it.each([0, 1, 2, 3])(
    'is moved to the new plan where a run was killed after %i of three files',
    (moved) => {
      const folder = folderWith();
      const files = ['sheet-01.svg', 'report.md', 'plan.json'];
      const stale = /^sheet-\d+\.svg$/;
      const filesOf = (text: string) => files.map((name) => ({ name, content: text }));
      writeFiles(folder, [...filesOf('old'), { name: 'sheet-02.svg', content: 'old' }], stale);
      files.forEach((name, i) => {
        writeFileSync(join(folder, i < moved ? name : `.${name}.part`), 'new');
      });
      const note = { moved: files, gone: ['sheet-02.svg'] };
      writeFileSync(join(folder, '.holdfast-moving'), JSON.stringify(note));
      finishMoving(folder);
      expect(readdirSync(folder)).toEqual([...files].sort());
      for (const name of files) expect(readFileSync(join(folder, name), 'utf8')).toBe('new');
    },
  );

  const BROKEN: readonly (readonly [string, string])[] = [
    ['is empty', ''],
    ['is half', '{"moved":["report.md"'],
    ['is something else', '[1, 2]'],
    ['names no files', '{"moved":[7],"gone":[]}'],
    ['leaves the folder', '{"moved":[],"gone":["../other.txt"]}'],
    ['names files that are not there', '{"moved":["sheet-09.svg"],"gone":["plan.json"]}'],
  ];

  it.each(BROKEN)('loses nothing by a note that %s, and the next plan clears it', (_, note) => {
    const folder = folderWith({ 'other.txt': 'mine' });
    const plan = join(folder, 'plan');
    const stale = /^sheet-\d+\.svg$/;
    const files = ['plan.json', 'report.md'].map((name) => ({ name, content: 'old' }));
    writeFiles(plan, files, stale);
    writeFileSync(join(plan, '.report.md.part'), 'half');
    writeFileSync(join(plan, '.holdfast-moving'), note);
    expect(() => finishMoving(plan)).toThrow(/\.holdfast-moving is the broken note of a run/);
    expect(readFileSync(join(plan, 'plan.json'), 'utf8')).toBe('old');
    expect(readFileSync(join(plan, 'report.md'), 'utf8')).toBe('old');
    writeFiles(plan, [{ name: 'plan.json', content: 'new' }, ...files.slice(1)], stale);
    expect(readdirSync(plan)).toEqual(['plan.json', 'report.md']);
    expect(readFileSync(join(plan, 'plan.json'), 'utf8')).toBe('new');
    expect(readFileSync(join(folder, 'other.txt'), 'utf8')).toBe('mine');
  });

  it('is left as it is where the note is no file, with what to do in one line', async () => {
    const folder = folderWith({ 'shelf.yaml': smallJob() });
    await holdfast(folder, ['plan', 'shelf.yaml']);
    mkdirSync(join(folder, 'shelf-plan', '.holdfast-moving'));
    const before = readdirSync(join(folder, 'shelf-plan'));
    for (const argv of [
      ['plan', 'shelf.yaml'],
      ['offcuts', 'add', 'shelf-plan'],
    ]) {
      const { code, err } = await holdfast(folder, argv);
      expect([code, err]).toEqual([
        74,
        expect.stringMatching(
          /^holdfast: cannot read .*shelf-plan\/\.holdfast-moving, .*: delete it and make the plan again\n$/,
        ),
      ]);
    }
    expect(readdirSync(join(folder, 'shelf-plan'))).toEqual(before);
  });

  it('stays the old plan where a run was killed before it decided, and is clean after the next', () => {
    const folder = folderWith();
    const stale = /^sheet-\d+\.svg$/;
    writeFiles(folder, [{ name: 'plan.json', content: 'old' }], stale);
    for (const part of ['plan.json', 'sheet-07.svg', '.holdfast-moving'])
      writeFileSync(join(folder, `.${part}.part`), '{');
    mkdirSync(join(folder, '.mine.part'));
    finishMoving(folder);
    expect(readFileSync(join(folder, 'plan.json'), 'utf8')).toBe('old');
    writeFiles(folder, [{ name: 'plan.json', content: 'new' }], stale);
    expect(readdirSync(folder)).toEqual(['.mine.part', 'plan.json']);
  });
});
