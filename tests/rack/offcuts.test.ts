import {
  chmodSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { folderWith, holdfast, smallJob } from '../helpers/command.ts';
import { planText, smallRack } from './racks.ts';

const BY_HAND = ['--size', '600x200', '--material', 'ply', '--thickness', '18', '--grain', 'none'];

describe('offcuts', () => {
  it('goes from a plan to the rack, to the next plan, and back', async () => {
    const folder = folderWith({
      'shelf.yaml': smallJob(),
      'box.yaml': smallJob().replace('Shelf', 'Box').replace('600 x 300', '500 x 300'),
    });
    await holdfast(folder, ['plan', 'shelf.yaml']);
    const added = await holdfast(folder, ['offcuts', 'add', 'shelf-plan', '--date', '2026-03-31']);
    expect(added).toMatchObject({ code: 0, err: '' });
    expect(added.out).toMatch(/^Added R1, /);

    const planned = await holdfast(folder, ['plan', 'box.yaml']);
    expect(planned.code).toBe(0);
    expect(planned.out).toMatch(/Rack rack\.yaml: \d+ offcuts? for this job, taken: R1/);
    const plan = JSON.parse(readFileSync(join(folder, 'box-plan', 'plan.json'), 'utf8'));
    const ids = plan.materials[0].sheets.flatMap(
      (sheet: { rack: string | null }) => sheet.rack ?? [],
    );
    expect(ids).toContain('R1');
    expect(plan.materials[0].used).toBe(plan.materials[0].sheets.length - ids.length);
    expect(readFileSync(join(folder, 'box-plan', 'report.md'), 'utf8')).toContain('R1, ');
    const number = plan.materials[0].sheets.find(
      (sheet: { rack: string | null }) => sheet.rack === 'R1',
    ).number;
    expect(readFileSync(join(folder, 'box-plan', `sheet-0${number}.svg`), 'utf8')).toContain(
      'offcut R1',
    );

    expect((await holdfast(folder, ['offcuts', 'use', 'box-plan'])).out).toMatch(/^Used: R1, /);
    expect((await holdfast(folder, ['offcuts', 'list'])).out).not.toMatch(/^R1 /m);
    expect((await holdfast(folder, ['offcuts', 'list', '--all'])).out).toMatch(
      /^R1 .* used; Shelf/m,
    );
    const again = await holdfast(folder, ['check', 'box.yaml']);
    expect(again.out).not.toMatch(/taken: .*R1\b/);
    expect((await holdfast(folder, ['offcuts', 'take-back', 'box-plan'])).out).toMatch(
      /^Back on the rack: R1, /,
    );
    expect((await holdfast(folder, ['offcuts', 'list'])).out).toMatch(/^R1 /m);
  });

  it('says where a plan takes what an earlier one of the same job has left', async () => {
    const folder = folderWith({ 'shelf.yaml': smallJob() });
    await holdfast(folder, ['plan', 'shelf.yaml']);
    await holdfast(folder, ['offcuts', 'add', 'shelf-plan']);
    const { out } = await holdfast(folder, ['check', 'shelf.yaml']);
    expect(out).toMatch(/From a plan of this very job: R\d/);
  });

  it('takes the rack beside the parts file, another one, or none', async () => {
    const rack = smallRack().replace('300 x 500', '620 x 620');
    const folder = folderWith({ 'shelf.yaml': smallJob(), 'rack.yaml': rack });
    const bare = folderWith({ 'shelf.yaml': smallJob() });
    const said = async (where: string, argv: readonly string[]) =>
      (await holdfast(where, ['check', 'shelf.yaml', ...argv])).out;
    expect(await said(folder, [])).toMatch(/Rack rack\.yaml: .*taken: R2/);
    expect(await said(folder, ['--rack', 'none'])).not.toContain('Rack');
    const priced = await holdfast(folder, ['price', 'shelf.yaml']);
    expect(priced.out).toMatch(/Rack rack\.yaml: .*taken: R2/);
    expect(await said(bare, ['--rack', join(folder, 'rack.yaml')])).toMatch(/taken: R2/);
    expect(await said(bare, [])).not.toContain('Rack');
    writeFileSync(join(bare, 'thin.yaml'), rack.replaceAll('thickness: 18', 'thickness: 17.5'));
    expect(await said(bare, ['--rack', 'thin.yaml'])).toContain('so left: R1, R2.');
    expect(await holdfast(bare, ['check', 'shelf.yaml', '--rack', 'none.yaml'])).toMatchObject({
      code: 74,
      err: expect.stringContaining('there is no rack none.yaml'),
    });
  });

  it('takes the rack that the parts file names, which --rack and a variant may change', async () => {
    const rack = smallRack().replace('300 x 500', '620 x 620');
    const folder = folderWith({
      'shelf.yaml': smallJob('rack: racks/wall.yaml\nvariants: [{ name: New, rack: none }]\r\n'),
      'rack.yaml': smallRack().replaceAll('R2', 'R7'),
      'none.yaml': smallJob('rack: none'),
    });
    const said = async (file: string, argv: readonly string[] = []) =>
      holdfast(folder, ['check', file, ...argv]);
    expect(await said('shelf.yaml')).toMatchObject({
      code: 2,
      err: expect.stringMatching(/^shelf\.yaml:12:7: error rack-missing: .*"racks\/wall\.yaml"/),
    });
    mkdirSync(join(folder, 'racks'));
    writeFileSync(join(folder, 'racks', 'wall.yaml'), rack);
    expect((await said('shelf.yaml')).out).toMatch(/Rack racks\/wall\.yaml: .*taken: R2/);
    expect((await said('shelf.yaml', ['--rack', 'rack.yaml'])).out).toContain('Rack rack.yaml');
    expect((await said('shelf.yaml', ['--rack', 'none'])).out).not.toContain('Rack');
    expect((await said('none.yaml')).out).not.toContain('Rack');
    const compared = await holdfast(folder, ['compare', 'shelf.yaml', '--format', 'json']);
    const [asIs, without] = JSON.parse(compared.out).plans;
    expect([asIs.totalMinor, without.totalMinor]).toEqual([0, 4000]);
  });

  it.each([
    ['above the parts file', '../rack.yaml'],
    ['behind a link', 'link.yaml'],
  ])('looks at no rack %s unless it is asked for by the person', async (_, name) => {
    const folder = folderWith({ 'rack.yaml': smallRack() });
    mkdirSync(join(folder, 'job'));
    writeFileSync(join(folder, 'job', 'shelf.yaml'), smallJob(`rack: ${name}`));
    symlinkSync(join(folder, 'rack.yaml'), join(folder, 'job', 'link.yaml'));
    const { code, err } = await holdfast(folder, ['check', 'job/shelf.yaml']);
    expect([code, err]).toEqual([2, expect.stringContaining('error rack-not-allowed')]);
    const argv = ['check', 'job/shelf.yaml', '--rack', 'rack.yaml'];
    expect((await holdfast(folder, argv)).code).toBe(0);
  });

  it.each([['list'], ['add', ...BY_HAND], ['use', 'R1'], ['take-back', 'R1']])(
    'does not take none for the name of a rack: %s',
    async (...argv) => {
      const folder = folderWith();
      const { code, err } = await holdfast(folder, ['offcuts', ...argv, '--rack', 'none']);
      expect([code, err]).toEqual([2, expect.stringContaining('--rack none is for plans')]);
      expect(readdirSync(folder)).toEqual([]);
    },
  );

  it('lists in 80 columns, as CSV that is no formula, and as JSON in millimetres', async () => {
    const note = 'a very long remark about the state of this offcut, and where it stands';
    const rack = smallRack(
      `  - { id: LONG-123, material: birch-plywood-18-mm, thickness: 18, size: 2440.5 x 1220.25, grain: second, from: { job: =SUM(A1), sheet: 3 }, date: 2026-03-31, note: "${note}", state: used, used-by: { job: -1 } }\n`,
    );
    const folder = folderWith({ 'rack.yaml': rack });
    const list = await holdfast(folder, ['offcuts', 'list', '--all']);
    expect(list.out.split('\n').every((line) => [...line].length <= 80)).toBe(true);
    expect(list.out).toContain('2 offcuts on the rack, 0.47 m2, 1 used.');
    const csv = await holdfast(folder, ['offcuts', 'list', '--all', '--format', 'csv']);
    expect(csv.out).toContain(`,2440.5,1220.25,second,,'=SUM(A1),3,2026-03-31,used,'-1,`);
    expect(csv.out.split('\r\n')).toHaveLength(5);
    const json = await holdfast(folder, ['offcuts', 'list', '--format', 'json']);
    expect(JSON.parse(json.out).offcuts).toMatchObject([
      { id: 'R1', length: 800, width: 400, state: 'on-rack', usedBy: null },
      { id: 'R2', length: 300, width: 500 },
    ]);
  });

  it('makes a new rack only to add to it', async () => {
    const folder = folderWith();
    for (const argv of [['list'], ['use', 'R1'], ['take-back', 'R1']]) {
      const { code, err } = await holdfast(folder, ['offcuts', ...argv]);
      expect([code, err]).toEqual([74, expect.stringContaining('offcuts add makes one')]);
    }
    expect(readdirSync(folder)).toEqual([]);
    const added = await holdfast(folder, [
      'offcuts',
      'add',
      ...BY_HAND,
      '--unit',
      'in',
      '--rack',
      'wall.yaml',
    ]);
    expect(added.code).toBe(2);
    expect(existsSync(join(folder, 'wall.yaml'))).toBe(false);
    const { code, out } = await holdfast(
      folder,
      ['offcuts', 'add', ...BY_HAND.with(1, '23-1/4 x 8'), '--unit', 'in', '--rack', 'wall.yaml'],
      { env: { SOURCE_DATE_EPOCH: '1774915200' } },
    );
    expect([code, out]).toEqual([0, 'Added R1, 23-1/4" × 8" of ply\nWrite the id on it.\n']);
    expect(readFileSync(join(folder, 'wall.yaml'), 'utf8')).toContain('date: 2026-03-31');
    expect(readdirSync(folder)).toEqual(['wall.yaml']);
  });

  it.each([
    ['an empty file', ''],
    ['broken YAML', 'format: holdfast-rack/1\nunit: mm\noffcuts: [{ id: R1\n'],
    ['an unknown key', smallRack('shelves: 3\n')],
    ['another format', smallRack().replace('rack/1', 'rack/2')],
    ['bytes', '\0\0\0'],
  ])('never writes over %s', async (_, text) => {
    const folder = folderWith({ 'rack.yaml': text, 'shelf.yaml': smallJob() });
    for (const argv of [
      ['offcuts', 'list'],
      ['offcuts', 'add', ...BY_HAND],
      ['offcuts', 'use', 'R1'],
      ['offcuts', 'take-back', 'R1'],
      ['plan', 'shelf.yaml'],
      ['check', 'shelf.yaml'],
    ]) {
      const { code, err } = await holdfast(folder, argv);
      expect([code, err]).toEqual([2, expect.stringMatching(/^rack\.yaml:\d+:\d+: error /)]);
    }
    expect(readFileSync(join(folder, 'rack.yaml'), 'utf8')).toBe(text);
    expect(readdirSync(folder).sort()).toEqual(['rack.yaml', 'shelf.yaml']);
  });

  it.each<[string, readonly string[], number, RegExp]>([
    ['no action it knows', ['lisst'], 2, /did you mean list\?/],
    ['words after list', ['list', 'R1'], 2, /too much/],
    ['nothing to add', ['add'], 2, /folder of a plan/],
    ['half an offcut', ['add', '--size', '600x200'], 2, /--material, --thickness, --grain/],
    ['a plan and an offcut', ['add', 'plan.json', '--size', '600x200'], 2, /one after the other/],
    ['two plans', ['add', 'plan.json', 'plan.json'], 2, /too much/],
    ['no plan', ['add', 'rack.yaml'], 2, /not the plan\.json/],
    ['a plan that is not there', ['add', 'other-plan'], 74, /cannot read other-plan/],
    ['nothing to use', ['use'], 2, /labels such as R12/],
    ['a label that is not there', ['use', 'R1', 'R8'], 2, /no R8/],
    ['what is not on the rack any more', ['use', 'R2'], 1, /R2 is used already, for Box/],
    ['a plan whose offcut another took', ['use', 'plan.json'], 1, /R2 is used already/],
    ['a form that lists do not have', ['list', '--format', 'xml'], 2, /text, json, csv/],
    ['a way of grain that is none', ['add', ...BY_HAND.with(7, 'along')], 2, /first, second, none/],
  ])('refuses %s and leaves the rack alone', async (_, argv, code, says) => {
    const rack = smallRack().replace('note: bruised', 'state: used, used-by: { job: Box }');
    const folder = folderWith({
      'rack.yaml': rack,
      'plan.json': planText([[400, 300]], [{ id: 'R2', size: [300, 500] }]),
    });
    const ran = await holdfast(folder, ['offcuts', ...argv]);
    expect([ran.code, ran.out]).toEqual([code, '']);
    expect(ran.err).toMatch(says);
    expect(readFileSync(join(folder, 'rack.yaml'), 'utf8')).toBe(rack);
    expect(readdirSync(folder).sort()).toEqual(['plan.json', 'rack.yaml']);
  });

  it('keeps the format of check to text and JSON', async () => {
    const folder = folderWith({ 'shelf.yaml': smallJob() });
    expect(await holdfast(folder, ['check', 'shelf.yaml', '--format', 'csv'])).toMatchObject({
      code: 2,
    });
  });

  it('refuses prices in two currencies, and counts those in one', async () => {
    const rack = `${smallRack().replace('note: bruised', 'price: 5').replace('300 x 500', '620 x 620')}currency: USD\n`;
    const folder = folderWith({ 'rack.yaml': rack, 'shelf.yaml': smallJob() });
    const { code, err } = await holdfast(folder, ['check', 'shelf.yaml']);
    expect([code, err]).toEqual([2, expect.stringContaining('mixed-currency')]);
    writeFileSync(join(folder, 'rack.yaml'), rack.replace('USD', 'EUR'));
    expect((await holdfast(folder, ['check', 'shelf.yaml'])).out).toContain('5.00 EUR');
  });

  it('writes through a link, keeps the mode of the file, and clears up what a killed run left', async () => {
    const folder = folderWith({ 'real.yaml': smallRack(), '.real.yaml.123.part': 'half' });
    chmodSync(join(folder, 'real.yaml'), 0o600);
    symlinkSync('real.yaml', join(folder, 'rack.yaml'));
    // A process that is long gone.
    writeFileSync(join(folder, '.real.yaml.lock'), `999999999.1-0.${hostLabel()}`);
    expect(await holdfast(folder, ['offcuts', 'add', ...BY_HAND])).toMatchObject({
      code: 0,
      err: '',
    });
    expect(readdirSync(folder).sort()).toEqual(['rack.yaml', 'real.yaml']);
    expect(readFileSync(join(folder, 'real.yaml'), 'utf8')).toContain('id: R3');
  });
});

function hostLabel(): string {
  return hostname().replaceAll(/[^A-Za-z0-9]/g, '-');
}
