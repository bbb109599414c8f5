import { chmodSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { contentsOf, folderWith, holdfast, smallJob } from '../helpers/command.ts';
import { lumberText } from '../helpers/lumber-job.ts';

describe('plan', () => {
  it('writes plan, drawings, PDF and report beside the parts file and says so', async () => {
    const folder = folderWith({ 'shelf.yaml': smallJob() });
    const { code, out, err } = await holdfast(folder, ['plan', 'shelf.yaml']);
    expect(err).toBe('');
    expect(code).toBe(0);
    expect(Object.keys(contentsOf(join(folder, 'shelf-plan')))).toEqual([
      'labels.pdf',
      'plan.html',
      'plan.json',
      'plan.pdf',
      'report.md',
      'sheet-01.dxf',
      'sheet-01.svg',
      'yield.csv',
    ]);
    expect(out).toContain('no layout can use fewer (proved');
    expect(out).toContain('Written to shelf-plan:');
    expect(out.split('\n').every((line) => [...line].length <= 80)).toBe(true);
  });

  it.each([
    [[], 0, '6 labels on 1 sheet of paper, 3 × 8 of 63.5 × 33.9 mm: print at full size.'],
    [['--paper', 'letter'], 0, '3 × 10 of 66.67 × 25.4 mm'],
    [['--first-label', '24'], 0, 'labels on 2 sheets of paper'],
    [['--first-label', '25'], 2, 'a sheet has 24 labels'],
    [['--first-label', '0'], 2, '--first-label takes a whole number from 1 to 10000'],
  ] as const)('counts the labels: %j', async (options, exit, words) => {
    const folder = folderWith({ 'shelf.yaml': smallJob() });
    const { code, out, err } = await holdfast(folder, ['plan', 'shelf.yaml', ...options]);
    expect(code).toBe(exit);
    expect(`${out}${err}`.replace(/\s+/g, ' ')).toContain(words);
    expect(existsSync(join(folder, 'shelf-plan'))).toBe(exit === 0);
  });

  it.each([
    ['labels: { roll: 62 x 40 }', [], 0, 'on a roll, 62 × 40 mm'],
    ['labels: { roll: 62 x 40 }', ['--first-label', '2'], 2, 'there is one label on a page'],
    ['labels: { roll: 25 x 13 }', [], 0, 'They are too small for a code.'],
  ] as const)('takes the labels of the file: %s %j', async (key, options, exit, words) => {
    const folder = folderWith({ 'shelf.yaml': `${smallJob()}${key}\n` });
    const { code, out, err } = await holdfast(folder, ['plan', 'shelf.yaml', ...options]);
    expect(code).toBe(exit);
    expect(`${out}${err}`.replace(/\s+/g, ' ')).toContain(words);
  });

  it('gives the same bytes again, in another folder, time zone and locale', async () => {
    const one = folderWith({ 'shelf.yaml': smallJob() });
    const two = folderWith({ 'shelf.yaml': smallJob() });
    await holdfast(one, ['plan', 'shelf.yaml', '--out', 'a']);
    const zone = process.env.TZ;
    process.env.TZ = 'Pacific/Kiritimati';
    await holdfast(two, ['plan', 'shelf.yaml', '--out', 'b'], {
      env: { LANG: 'de_DE.UTF-8', LC_ALL: 'tr_TR.UTF-8' },
    });
    if (zone === undefined) delete process.env.TZ;
    else process.env.TZ = zone;
    expect(contentsOf(join(two, 'b'))).toEqual(contentsOf(join(one, 'a')));
  });

  it('prints a date only where one is given', async () => {
    const folder = folderWith({ 'shelf.yaml': smallJob() });
    await holdfast(folder, ['plan', 'shelf.yaml', '--out', 'none']);
    await holdfast(folder, ['plan', 'shelf.yaml', '--out', 'option', '--date', '2026-03-31']);
    await holdfast(folder, ['plan', 'shelf.yaml', '--out', 'epoch'], {
      env: { SOURCE_DATE_EPOCH: '1774915200' },
    });
    const report = (name: string) => readFileSync(join(folder, name, 'report.md'), 'utf8');
    expect(report('none')).not.toMatch(/\d{4}-\d{2}-\d{2}/);
    expect(report('option')).toContain('2026-03-31');
    expect(report('epoch')).toContain('2026-03-31');
  });

  it('replaces an older plan, takes its extra sheets away and leaves other files alone', async () => {
    const folder = folderWith({ 'shelf.yaml': smallJob() });
    mkdirSync(join(folder, 'shelf-plan'));
    writeFileSync(join(folder, 'shelf-plan', 'sheet-09.svg'), 'old');
    writeFileSync(join(folder, 'shelf-plan', 'sheet-09.dxf'), 'old');
    writeFileSync(join(folder, 'shelf-plan', 'notes.txt'), 'mine');
    await holdfast(folder, ['plan', 'shelf.yaml']);
    expect(Object.keys(contentsOf(join(folder, 'shelf-plan')))).toEqual([
      'labels.pdf',
      'notes.txt',
      'plan.html',
      'plan.json',
      'plan.pdf',
      'report.md',
      'sheet-01.dxf',
      'sheet-01.svg',
      'yield.csv',
    ]);
  });

  it('leaves the older plan as it was where the new one cannot be written', async () => {
    const folder = folderWith({ 'shelf.yaml': smallJob() });
    await holdfast(folder, ['plan', 'shelf.yaml']);
    const before = contentsOf(join(folder, 'shelf-plan'));
    mkdirSync(join(folder, 'shelf-plan', '.plan.json.part'));
    const { code, err } = await holdfast(folder, ['plan', 'shelf.yaml', '--seed', '7']);
    expect(code).toBe(74);
    expect(err).toContain('cannot write to');
    rmSync(join(folder, 'shelf-plan', '.plan.json.part'), { recursive: true });
    expect(contentsOf(join(folder, 'shelf-plan'))).toEqual(before);
  });

  it('writes a plan without a drawing where there is only lumber to buy', async () => {
    const folder = folderWith({ 'table.yaml': lumberText('rough: 26, price: 1450 per m3') });
    const { code, out, err } = await holdfast(folder, ['plan', 'table.yaml']);
    expect([code, err]).toEqual([0, '']);
    expect(out).toMatch(/^Table: lumber for 8 pieces\n.*buy\s+0\.011 m³, 15\.95 EUR/s);
    expect(out).toMatch(/plan.json, plan.pdf, plan.html, report.md, yield.csv,\s+no\s+drawing/);
    expect(Object.keys(contentsOf(`${folder}/table-plan`))).toEqual([
      'plan.html',
      'plan.json',
      'plan.pdf',
      'report.md',
      'yield.csv',
    ]);
  });

  it('writes the plan and fails where the stock is too little', async () => {
    const folder = folderWith({
      'shelf.yaml': smallJob()
        .replace('trim: 10', 'trim: 10, on-hand: 1')
        .replace('count: 2, grain', 'count: 9, grain'),
    });
    const { code, out } = await holdfast(folder, ['plan', 'shelf.yaml']);
    expect(code).toBe(1);
    expect(out).toContain('left over: Side');
    const record = JSON.parse(readFileSync(join(folder, 'shelf-plan', 'plan.json'), 'utf8'));
    expect(record.materials[0].status).toBe('impossible');
    expect(record.materials[0].unplaced[0]).toMatchObject({ part: 'Side', why: 'no-stock' });
  });

  it('searches in this thread where no other can be had, and hears there that it is to stop', async () => {
    // Discs reach no bound, so only the end of the work, or a stop, ends their search.
    const disc = '  - { name: Top, material: ply, shape: disc, diameter: 290, count: 9 }';
    const folder = folderWith({
      'shelf.yaml': smallJob(disc).replace('spacing: 8', 'spacing: 40'),
    });
    const argv = ['plan', 'shelf.yaml', '--effort', 'long'];
    // Sources that are not built have no file to start a thread from.
    const ran = await holdfast(folder, argv, { hasThreads: true, interrupts: () => 1 });
    expect(ran).toMatchObject({ code: 130, err: '' });
    expect(ran.out).toContain('stopped by hand');
  });

  it('says that there are no parts', async () => {
    const folder = folderWith({ 'none.yaml': smallJob().replace(/parts:[\s\S]*/, 'parts: []\n') });
    const { code, err } = await holdfast(folder, ['plan', 'none.yaml']);
    expect(code).toBe(2);
    expect(err).toContain('none.yaml:');
  });
});

describe('check', () => {
  const limits: { name: string; extra: string; code: number; says: string }[] = [
    { name: 'no limits', extra: '', code: 0, says: 'no limits in the file' },
    {
      name: 'kept',
      extra: 'limits: { sheets: 1, cost: 40, yield: 30 % }',
      code: 0,
      says: 'all limits are kept',
    },
    {
      name: 'cost broken',
      extra: 'limits: { cost: 39.99 }',
      code: 1,
      says: 'the limit is 39.99 EUR, the sheets cost 40.00 EUR',
    },
    {
      name: 'yield broken',
      extra: 'limits: { yield: 99 % }',
      code: 1,
      says: 'the limit is a yield of 99.0 %',
    },
  ];

  it.each(limits)('$name', async ({ extra, code, says }) => {
    const folder = folderWith({ 'shelf.yaml': smallJob(extra) });
    const ran = await holdfast(folder, ['check', 'shelf.yaml']);
    expect(ran.code).toBe(code);
    expect(ran.out).toContain(says);
    expect(existsSync(join(folder, 'shelf-plan'))).toBe(false);
  });

  it.each(limits)('$name, as JSON', async ({ extra, code }) => {
    const folder = folderWith({ 'shelf.yaml': smallJob(extra) });
    const ran = await holdfast(folder, ['check', 'shelf.yaml', '--format', 'json']);
    const record = JSON.parse(ran.out);
    expect(ran.code).toBe(code);
    expect(record.passed).toBe(code === 0);
    expect(record.limits.length).toBe(code);
  });

  it('puts the problems of a bad file into the JSON', async () => {
    const folder = folderWith({ 'shelf.yaml': smallJob('colour: red') });
    const ran = await holdfast(folder, ['check', 'shelf.yaml', '--format', 'json']);
    expect(ran.code).toBe(2);
    expect(JSON.parse(ran.out).problems[0]).toMatchObject({
      severity: 'error',
      line: 12,
      column: 1,
    });
  });
});

describe('explain', () => {
  it('shows the reckoning of the worst piece of a part', async () => {
    const folder = folderWith({ 'shelf.yaml': smallJob() });
    const { code, out } = await holdfast(folder, ['explain', 'shelf.yaml', 'Block']);
    expect(code).toBe(0);
    expect(out).toContain('Block');
    expect(out).toMatch(/ N\b/);
    expect(out).toContain('kPa');
    expect(out).toContain('Verdict:');
    expect(out.split('\n').every((line) => [...line].length <= 80)).toBe(true);
  });

  it('lists what needs care where no part is named', async () => {
    const folder = folderWith({ 'shelf.yaml': smallJob() });
    const { code, out } = await holdfast(folder, ['explain', 'shelf.yaml']);
    expect(code).toBe(0);
    expect(out).toContain('Block 1');
    expect(out).not.toContain('Side 1');
  });

  it('suggests the nearest name', async () => {
    const folder = folderWith({ 'shelf.yaml': smallJob() });
    const { code, err } = await holdfast(folder, ['explain', 'shelf.yaml', 'Blok']);
    expect(code).toBe(2);
    expect(err).toContain('did you mean "Block"?');
  });
});

describe('new and schema', () => {
  it.each(['mm', 'in'])('a starter file in %s plans without a change', async (unit) => {
    const folder = folderWith();
    expect((await holdfast(folder, ['new', 'first.yaml', '--unit', unit])).code).toBe(0);
    const { code, err } = await holdfast(folder, ['plan', 'first.yaml']);
    expect(err).toBe('');
    expect(code).toBe(0);
  });

  it('never overwrites a file', async () => {
    const folder = folderWith({ 'mine.yaml': 'mine' });
    const { code, err } = await holdfast(folder, ['new', 'mine.yaml']);
    expect(code).toBe(74);
    expect(err).toContain('is there already');
    expect(readFileSync(join(folder, 'mine.yaml'), 'utf8')).toBe('mine');
  });

  it('prints a JSON Schema that names the keys of the file', async () => {
    const { code, out } = await holdfast(folderWith(), ['schema']);
    expect(code).toBe(0);
    expect(Object.keys(JSON.parse(out).properties)).toEqual(
      expect.arrayContaining(['job', 'unit', 'materials', 'parts', 'limits']),
    );
  });
});

describe('usage', () => {
  const cases: { argv: string[]; code: number; says: string }[] = [
    { argv: ['plan'], code: 2, says: 'missing required argument' },
    { argv: ['fly', 'x'], code: 2, says: 'unknown command' },
    {
      argv: ['plan', 'shelf.yaml', '--effort', 'huge'],
      code: 2,
      says: '--effort takes one of quick, normal, long',
    },
    { argv: ['plan', 'shelf.yaml', '--seed', '-1'], code: 2, says: '--seed takes a whole number' },
    {
      argv: ['plan', 'shelf.yaml', '--seconds', 'soon'],
      code: 2,
      says: '--seconds takes a number',
    },
    { argv: ['plan', 'shelf.yaml', '--date', '2026-02-30'], code: 2, says: '--date takes a date' },
    { argv: ['plan', 'absent.yaml'], code: 74, says: 'there is no such file' },
    { argv: ['plan', '.'], code: 74, says: 'is a folder' },
    { argv: ['plan', 'shelf.yaml', '--bogus'], code: 2, says: 'unknown option' },
  ];

  it.each(cases)('$argv', async ({ argv, code, says }) => {
    const folder = folderWith({ 'shelf.yaml': smallJob() });
    const ran = await holdfast(folder, argv);
    expect(ran.err).toContain(says);
    expect(ran.code).toBe(code);
    expect(Object.keys(contentsOf(folder))).toEqual(['shelf.yaml']);
  });

  it('says that it may not read', async () => {
    const folder = folderWith({ 'shelf.yaml': smallJob() });
    chmodSync(join(folder, 'shelf.yaml'), 0o000);
    const ran = await holdfast(folder, ['plan', 'shelf.yaml']);
    // The administrator may read anything: then the file simply plans.
    const administrator = process.getuid?.() === 0;
    expect(ran.code).toBe(administrator ? 0 : 74);
  });

  it('helps with every command and option', async () => {
    const main = await holdfast(folderWith(), ['--help']);
    expect(main.code).toBe(0);
    expect(main.out).toContain('explain');
    const plan = await holdfast(folderWith(), ['plan', '--help']);
    expect(plan.out).toContain('--effort <quick|normal|long>');
  });
});
