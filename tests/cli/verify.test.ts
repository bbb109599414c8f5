import { appendFileSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { folderWith, holdfast, smallJob } from '../helpers/command.ts';

describe('holdfast verify', () => {
  it('says of a plan and its folder what was checked, and what not', async () => {
    const folder = await planned();
    for (const name of ['a-plan', 'a-plan/plan.json']) {
      const { code, out, err } = await holdfast(folder, ['verify', name, 'a.yaml']);
      expect([code, err]).toEqual([0, '']);
      const said = out.replace(/\s+/g, ' ');
      expect(said).toContain('in order. Checked against a.yaml: 1 sheet with 4 pieces;');
      expect(said).toContain('follows from the size of the pieces alone');
      expect(out.split('\n').every((line) => line.length <= 80)).toBe(true);
    }
  });

  it('does not mind Windows line ends and a byte order mark', async () => {
    const folder = await planned();
    edit(folder, (text) => `\uFEFF${text.replaceAll('\n', '\r\n')}`);
    expect((await holdfast(folder, ['verify', 'a-plan', 'a.yaml'])).code).toBe(0);
  });

  it('tells that the parts file is another one', async () => {
    const folder = await planned();
    appendFileSync(join(folder, 'a.yaml'), '# changed\n');
    const { code, out } = await holdfast(folder, ['verify', 'a-plan', 'a.yaml']);
    expect(code).toBe(1);
    expect(out).toContain('partsFileSha256: the plan was made from another parts file');
    expect(out).toContain('a-plan/plan.json: 1 thing is wrong');
  });

  it('leads with another parts file, and counts the figures that follow from it', async () => {
    const folder = await planned();
    const file = join(folder, 'a.yaml');
    writeFileSync(file, readFileSync(file, 'utf8').replace('price: 40', 'price: 55'));
    const { code, out } = await holdfast(folder, ['verify', 'a-plan', 'a.yaml']);
    expect(code).toBe(1);
    const lines = out.replace(/\n {4,}/g, ' ').split('\n');
    expect(lines[0]).toMatch(/^partsFileSha256: the plan was made from another parts file/);
    expect(lines[1]).toContain('All pieces are there, each once and where it may lie.');
    expect(lines[2]).toMatch(
      /\d+ figures that follow from the file are otherwise; --all lists them/,
    );
    expect(out).not.toContain('[figure]');
    const all = await holdfast(folder, ['verify', 'a-plan', 'a.yaml', '--all']);
    expect(all.out).toContain('[figure]');
    const json = await holdfast(folder, ['verify', 'a-plan', 'a.yaml', '--format', 'json']);
    expect(JSON.parse(json.out).faults.length).toBeGreaterThan(2);
  });

  it('tells what another parts file asks for and the plan has not', async () => {
    const folder = await planned();
    const file = join(folder, 'a.yaml');
    writeFileSync(file, readFileSync(file, 'utf8').replace('40, count: 2', '40, count: 3'));
    const { out } = await holdfast(folder, ['verify', 'a-plan', 'a.yaml']);
    expect(out).toContain('[missing]');
    expect(out).not.toContain('All pieces are there');
  });

  it('lists everything that is wrong, as JSON too', async () => {
    const folder = await planned();
    editTree(folder, (plan) => {
      plan.materials[0].used = 2;
      plan.materials[0].sheets[0].placements[0].x += 0.002;
      plan.materials[0].sheets[0].placements.pop();
    });
    const { code, out } = await holdfast(folder, [
      'verify',
      'a-plan',
      'a.yaml',
      '--format',
      'json',
    ]);
    expect(code).toBe(1);
    const { valid, faults, checked } = JSON.parse(out);
    expect(valid).toBe(false);
    expect(checked.figures).toBe(false);
    expect(faults.map((fault: { code: string }) => fault.code)).toEqual(
      expect.arrayContaining(['used', 'outline', 'missing', 'holding']),
    );
    expect(faults).toContainEqual({
      code: 'used',
      path: 'materials[0].used',
      message: 'ply: the layout says that it uses 2; it uses 1',
    });
  });

  it('reckons a plan again that was edited by hand, and tells only the figures that are old', async () => {
    const folder = await planned();
    editTree(folder, (plan) => {
      const { placements } = plan.materials[0].sheets[0];
      const topOf = ({ outline }: Piece) => Math.max(...outline.map(([, y]) => y!));
      const [highest] = placements.toSorted((a: Piece, b: Piece) => topOf(b) - topOf(a));
      highest.y += 5;
      for (const corner of highest.outline) corner[1] += 5;
    });
    const { code, out } = await holdfast(folder, [
      'verify',
      'a-plan',
      'a.yaml',
      '--format',
      'json',
    ]);
    expect(code).toBe(1);
    const { faults, checked } = JSON.parse(out);
    expect(checked.figures).toBe(true);
    expect(new Set(faults.map((fault: { code: string }) => fault.code)).size).toBe(1);
    expect(faults[0].code).toBe('figure');
  });

  it('shows no character that could change the terminal', async () => {
    const folder = await planned();
    editTree(folder, (plan) => {
      plan.materials[0].sheets[0].placements[0].part = '\u001b[2J\u202eSide';
    });
    const { code, out } = await holdfast(folder, ['verify', 'a-plan', 'a.yaml']);
    expect(code).toBe(1);
    expect(out).toContain('the job has no \\u{1b}[2J\\u{202e}Side 1');
  });

  it.each<[string, string | null, number, string]>([
    ['an empty file', '', 2, 'the file is empty'],
    ['no plan', '{"format": "holdfast-plan/1"}', 2, 'materials: '],
    ['a parts file', smallJob(), 2, 'the file is not JSON'],
    ['50 MB of something else', `["${'x'.repeat(50_000_000)}"]`, 2, 'is not the plan.json'],
    ['no file', null, 74, 'there is no such file'],
  ])('ends for %s', async (_, text, wanted, said) => {
    const folder = folderWith({ 'a.yaml': smallJob() });
    if (text !== null) writeFileSync(join(folder, 'plan.json'), text);
    const { code, out, err } = await holdfast(folder, ['verify', 'plan.json', 'a.yaml']);
    expect([code, out]).toEqual([wanted, '']);
    expect(err).toContain(said);
    expect(err.length).toBeLessThan(3000);
  });

  it('ends for a folder without a plan, a bad parts file, and one word too few', async () => {
    const folder = await planned();
    mkdirSync(join(folder, 'empty'));
    writeFileSync(join(folder, 'bad.yaml'), 'job: 1\nparts: no\n');
    const codes = await Promise.all(
      [['empty', 'a.yaml'], ['a-plan', 'bad.yaml'], ['a-plan', 'none.yaml'], ['a-plan']].map(
        async (words) => (await holdfast(folder, ['verify', ...words])).code,
      ),
    );
    expect(codes).toEqual([74, 2, 74, 2]);
  });

  it('takes the offcuts of a plan from the rack, used or not', async () => {
    const folder = folderWith({ 'a.yaml': smallJob() });
    const size = ['--size', '1100x700', '--material', 'ply', '--thickness', '18'];
    await holdfast(folder, ['offcuts', 'add', ...size, '--grain', 'first']);
    await holdfast(folder, ['plan', 'a.yaml']);
    expect(readFileSync(join(folder, 'a-plan', 'plan.json'), 'utf8')).toContain('"rack": "R1"');
    await holdfast(folder, ['offcuts', 'use', 'a-plan']);
    const { code, out } = await holdfast(folder, ['verify', 'a-plan', 'a.yaml']);
    expect([code, out]).toEqual([0, expect.stringContaining('R1')]);
    const without = await holdfast(folder, ['verify', 'a-plan', 'a.yaml', '--rack', 'none']);
    expect(without.code).toBe(1);
    expect(without.out).toContain('no offcut R1 of ply is on the rack');
  });
});

interface Piece {
  readonly outline: number[][];
}

/** A folder with a small parts file and its plan. */
async function planned(): Promise<string> {
  const folder = folderWith({ 'a.yaml': smallJob() });
  expect((await holdfast(folder, ['plan', 'a.yaml'])).code).toBe(0);
  return folder;
}

function edit(folder: string, change: (text: string) => string): void {
  const path = join(folder, 'a-plan', 'plan.json');
  writeFileSync(path, change(readFileSync(path, 'utf8')));
}

// biome-ignore lint/suspicious/noExplicitAny: the record as anyone may have changed it
function editTree(folder: string, change: (plan: any) => void): void {
  edit(folder, (text) => {
    const plan = JSON.parse(text);
    change(plan);
    return JSON.stringify(plan);
  });
}
