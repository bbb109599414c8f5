import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { gaugeTable, readPartsFile } from '../../src/index.ts';
import { contentsOf, folderWith, holdfast } from '../helpers/command.ts';
import { expectGolden } from '../helpers/golden.ts';

const EXAMPLE = readFileSync(
  resolve(import.meta.dirname, '..', '..', 'examples', 'readings', 'blower-table.yaml'),
  'utf8',
);

/** The printed lines of `table:`. */
function blockOf(out: string): string {
  const block = /^table:\n(?: .*\n)+/m.exec(out)?.[0];
  if (block === undefined) throw new Error('no table was printed');
  return block;
}

/** The table of a whole parts file that has these lines of it. */
function tableOf(block: string, unit: string) {
  const { job, problems } = readPartsFile(
    `unit: ${unit}\n${block}materials: { ply: { family: plywood, thickness: 18mm, sheets: [{ size: 2440mm x 1220mm }] } }\nparts: [{ name: Box, material: ply, size: 300mm x 200mm }]\n`,
    () => ({ ok: false, reason: 'missing', detail: '' }),
  );
  expect(problems).toEqual([]);
  return job!.table;
}

describe('gauge', () => {
  it('prints the table of the example, how well it fits and the cautions, and writes nothing', async () => {
    const folder = folderWith({ 'readings.yaml': EXAMPLE });
    const { code, out, err } = await holdfast(folder, ['gauge', 'readings.yaml']);
    expect(err).toBe('');
    expect(code).toBe(0);
    expectGolden('gauge-example.txt', out);
    expect(out.split('\n').every((line) => [...line].length <= 80)).toBe(true);
    expect(out).toContain('spindle stopped and locked');
    expect(Object.keys(contentsOf(folder))).toEqual(['readings.yaml']);
  });

  const inches = `unit: in
table:
  size: 96-1/2 x 49.1234
  pump: { kind: "no: 1", curve: [[300, 0], [200, 3], [0, 8]], count: 2 }
  pipe: { bore: 2, length: 20 ft, elbows: 3 }
  spoilboard: { kind: mdf, thickness: 3/4, along-ratio: 2 }
  altitude: 1000 ft
readings:
  - { kind: bare, vacuum: 4.5 }
  - { kind: covered, sheet: 96 x 48, vacuum: 7.4 }
  - { kind: hole, diameter: 2, vacuum: 2.6 }
  - { kind: tilt, angle: 22 }
`;
  const measured = EXAMPLE.replace(
    '  altitude',
    '  pipe: { loss: 1.5, flow: 300 }\n  friction-film-faced: 0.31\n  altitude',
  ).replace(/^.*film-faced }\n/m, '');

  it.each([
    ['the example', EXAMPLE, 'mm'],
    ['a table in inches with a pipe and two pumps', inches, 'in'],
    ['a pipe and a friction that the file has', measured, 'mm'],
  ])('prints what a parts file reads back as it was reckoned: %s', async (_, text, unit) => {
    const folder = folderWith({ 'readings.yaml': text });
    const { code, out, err } = await holdfast(folder, ['gauge', 'readings.yaml']);
    expect(err).toBe('');
    expect(code).toBe(0);
    const right = gaugeTable(text).calibration!.table;
    const { pump, assumed, ...rest } = tableOf(blockOf(out), unit);
    expect(rest).toEqual({ ...rest, ...figuresOf(right) });
    expect(pump.kind).toBe(right.pump.kind);
    pump.curve.forEach(({ flowM3h, vacuumKpa }, i) => {
      const point = right.pump.curve[i]!;
      if (unit === 'mm') expect({ flowM3h, vacuumKpa }).toEqual(point);
      else {
        // Four digits of cfm and inHg.
        expect(Math.abs(flowM3h - point.flowM3h)).toBeLessThanOrEqual(0.0006 * point.flowM3h);
        expect(Math.abs(vacuumKpa - point.vacuumKpa)).toBeLessThanOrEqual(0.0006 * point.vacuumKpa);
      }
    });
    expect(assumed.filter((each) => !each.startsWith('film-faced'))).toEqual([]);
  });

  it('leaves out what was neither given nor read', async () => {
    const folder = folderWith({ 'tilt.yaml': 'unit: mm\nreadings: [{ kind: tilt, angle: 45 }]\n' });
    const { out } = await holdfast(folder, ['gauge', 'tilt.yaml']);
    expect(blockOf(out)).toBe('table:\n  friction: [1, 0.75]\n');
  });

  it.each([
    ['two readings', /^ {2}- \{ kind: (kerf|hole|bare, throttle).*\n/gm, 'Pump: taken as given'],
    ['no known hole', /^ {2}- \{ kind: (hole|bare, throttle).*\n/gm, 'Flow of the pump: taken as'],
    ['no slide', /^ {2}- \{ kind: (tilt|pull).*\n/gm, 'Friction: nothing was tilted or pulled'],
    [
      'no bare table',
      /^ {2}- \{ kind: (bare|kerf|covered).*\n/gm,
      'Permeability: not told by these readings',
    ],
  ] as const)('says what stays open with %s', async (_, gone, says) => {
    const folder = folderWith({ 'readings.yaml': EXAMPLE.replace(gone, '') });
    const { code, out } = await holdfast(folder, ['gauge', 'readings.yaml']);
    expect(code).toBe(0);
    expect(out.replace(/\n +/g, ' ')).toContain(says);
  });

  it('points at a reading that does not go with the others', async () => {
    const text = EXAMPLE.replace('vacuum: 13.0', 'vacuum: 8.9');
    const folder = folderWith({ 'readings.yaml': text });
    const { code, out } = await holdfast(folder, ['gauge', 'readings.yaml']);
    expect(code).toBe(0);
    expect(out).toMatch(/\d readings? cannot be met within 15\.0 %/);
    expect(out.indexOf('Do not use these figures yet')).toBeLessThan(
      out.indexOf('For the parts file'),
    );
  });

  it('doubts a friction that no dry panel is known to have', async () => {
    const doubted = async (force: string): Promise<boolean> => {
      const pull = `- { kind: pull, square: 200, vacuum: 20, force: ${force} }`;
      const text = `unit: mm\ntable: { size: 2500 x 1250, spoilboard: { kind: mdf, thickness: 18 } }\nreadings:\n  ${pull}\n`;
      const { code, out } = await holdfast(folderWith({ 'readings.yaml': text }), [
        'gauge',
        'readings.yaml',
      ]);
      expect(code).toBe(0);
      return out.includes('more than is published for dry panels');
    };
    expect(await doubted('900 N')).toBe(true);
    expect(await doubted('290 N')).toBe(false);
  });

  it('colours what is far off where asked', async () => {
    const folder = folderWith({ 'readings.yaml': EXAMPLE });
    const { out } = await holdfast(folder, ['gauge', 'readings.yaml', '--colour', 'always']);
    expect(out).toContain('\u001b[33mtilted board');
  });

  it.each([
    [
      'an impossible reading',
      EXAMPLE.replace('15.2 kPa', '95 kPa'),
      /bad\.yaml:10:27: error impossible-reading/,
    ],
    ['an empty file', '', /bad\.yaml:1:1: error empty-file/],
    [
      'an unknown kind',
      EXAMPLE.replace('kind: kerf', 'kind: gap'),
      /bad\.yaml:12:13: error unknown-word/,
    ],
    ['noise', '\u0000'.repeat(99), /bad\.yaml:1:1: error not-text/],
    ['10 MB', ' '.repeat(10_000_000), /bad\.yaml:1:1: error file-too-large/],
  ])('refuses %s with its place and exit code 2', async (_, text, says) => {
    const folder = folderWith({ 'bad.yaml': text });
    const { code, out, err } = await holdfast(folder, ['gauge', 'bad.yaml']);
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).toMatch(says);
    expect(err).toMatch(/bad\.yaml: (\d+ problems?, nothing reckoned|it was not read)/);
  });

  it.each([
    ['a missing file', 'none.yaml', 74],
    ['a folder', '.', 74],
  ])('says that it cannot read %s', async (_, name, right) => {
    const { code, err } = await holdfast(folderWith(), ['gauge', name]);
    expect(code).toBe(right);
    expect(err).not.toBe('');
  });

  it('has a help with the cautions and a file to start from that works', async () => {
    const { code, out } = await holdfast(folderWith(), ['gauge', '--help']);
    expect(code).toBe(0);
    expect(out).toContain('spindle stopped and locked');
    expect(out.split('\n').every((line) => [...line].length <= 80)).toBe(true);
    const text = out.slice(out.indexOf('A readings file:\n') + 'A readings file:\n'.length);
    const { problems, calibration } = gaugeTable(text.replace(/^ {2}/gm, ''));
    expect(problems).toEqual([]);
    expect(calibration!.flowFactor).not.toBeNull();
    expect(calibration!.airResidual).toBeLessThan(0.05);
  });
});

function figuresOf({
  size,
  pipe,
  spoilboard,
  altitudeM,
  friction,
  frictionFilmFaced,
}: ReturnType<typeof tableOf>) {
  return { size, pipe, spoilboard, altitudeM, friction, frictionFilmFaced };
}
