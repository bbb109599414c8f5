import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { OPTIONS } from '../src/cli/option-table.ts';
import { flagsOf } from '../src/cli/options.ts';
import { COMMANDS } from '../src/cli/run.ts';
import { EXIT } from '../src/cli/world.ts';
import { KNOWN_GRIDS, knownGrid } from '../src/model/label-grid.ts';
import { SPIRALS } from '../src/model/machine.ts';
import { LAYER_CLASSES, LAYER_KINDS } from '../src/model/machine-layers.ts';
import { LIMIT_NAMES, RESOURCE_LIMITS } from '../src/model/resource-limits.ts';
import { FAMILIES } from '../src/model/stock.ts';
import { readPartsFile } from '../src/partsfile/read-parts-file.ts';
import { folderWith, holdfast } from './helpers/command.ts';

const ROOT = resolve(import.meta.dirname, '..');
const README = readFileSync(join(ROOT, 'README.md'), 'utf8');

describe('the README', () => {
  it('lists every command as the table of commands has it', () => {
    const rows = COMMANDS.map(
      ({ name, usage, help }) => `| \`holdfast ${`${name} ${usage}`.trim()}\` | ${help} |`,
    );
    expect(section('commands')).toEqual(['| command | what it does |', '| - | - |', ...rows]);
  });

  it('lists every option as the table of options has it', () => {
    const rows = OPTIONS.map((option) => {
      const flags = flagsOf(option).replaceAll('|', '\\|');
      return `| \`${flags}\` | ${option.fallback ?? ''} | ${option.commands.join(', ')} | ${option.help} |`.replace(
        / +/g,
        ' ',
      );
    });
    expect(section('options')).toEqual([
      '| option | default | for | what it does |',
      '| - | - | - | - |',
      ...rows,
    ]);
  });

  it('lists every limit as the table of limits has it', () => {
    const rows = LIMIT_NAMES.map((name) => {
      const { usual, unit, most, guards } = RESOURCE_LIMITS[name];
      return `| \`${name}\` | ${usual} | ${unit} | ${most === usual ? 'as usual' : most} | ${guards} |`;
    });
    expect(section('limits').slice(2)).toEqual(rows);
  });

  it('lists every layer of the machine files as the table of layers has it', () => {
    const rows = LAYER_CLASSES.map((name) => {
      const { usual, holds, values, mayBeNone } = LAYER_KINDS[name];
      const own = values.map((each) => `\`{${each}}\``).join(', ');
      return `| \`${name}\` | \`${usual}\` | ${holds} | ${own} | ${mayBeNone ? 'yes' : ''} |`.replace(
        / +/g,
        ' ',
      );
    });
    expect(section('layers').slice(2)).toEqual(rows);
  });

  it.each([
    ['Spirals', SPIRALS],
    ['Families', FAMILIES],
  ] as const)('lists all %s', (name, words) => {
    const line = README.split('\n').find((each) => each.startsWith(`**${name}**`)) ?? '';
    for (const word of words) expect(line).toContain(`\`${word}\``);
  });

  it('names every exit code', () => {
    const codes = section('exit codes')
      .map((row) => /^\| (\d+) \|/.exec(row)?.[1])
      .filter(Boolean);
    expect(codes.map(Number).sort((a, b) => a - b)).toEqual(
      Object.values(EXIT).sort((a, b) => a - b),
    );
  });

  it('shows a parts file that plans within its limits', async () => {
    const text = /```yaml\n([\s\S]*?)```/.exec(README)?.[1] ?? '';
    const { code, err } = await holdfast(folderWith({ 'seat.yaml': text }), ['check', 'seat.yaml']);
    expect(err).toBe('');
    expect(code).toBe(0);
  });

  it('shows a vacuum table that reads, also with what stands in comments in place of the spoilboard', async () => {
    const [, block = ''] = [...README.matchAll(/```yaml\n([\s\S]*?)```/g)].map(([, text]) => text);
    const job =
      'unit: mm\nmaterials: { ply: { family: plywood, thickness: 18, sheets: [{ size: 2440 x 1220 }] } }\nparts: [{ name: Top, material: ply, size: 900 x 600 }]\n';
    const sealed = (kind: string): string =>
      block.replace(/ {2}spoilboard:.*\n/, '').replace(new RegExp(`# (${kind}: {.*?})`), '$1 #');
    for (const text of [block, sealed('gasket'), sealed('pods')]) {
      const folder = folderWith({ 'table.yaml': `${job}${text}` });
      const { code, err } = await holdfast(folder, ['check', 'table.yaml']);
      expect([err, code]).toEqual(['', 0]);
    }
    expect(sealed('gasket')).toMatch(/^ {2}gasket:/m);
  });

  it('shows boards and lumber that read', () => {
    const [, , block = ''] = [...README.matchAll(/```yaml\n([\s\S]*?)```/g)].map(
      ([, text]) => text,
    );
    const { job, problems } = readPartsFile(`unit: mm\n${block}`, () => ({
      ok: false,
      reason: 'missing',
      detail: '',
    }));
    expect(problems).toEqual([]);
    expect(job?.lengthParts.map(({ name }) => name)).toEqual(['Leg']);
    expect(job?.lumber.flatMap(({ parts }) => parts.map(({ name }) => name))).toEqual(['Top slat']);
  });

  it('shows costs that read', () => {
    const block = [...README.matchAll(/```yaml\n([\s\S]*?)```/g)].map(([, text]) => text!)[3] ?? '';
    const job = `unit: mm
materials: { ply: { family: plywood, thickness: 18, sheets: [{ size: 2440 x 1220 }] } }
parts: [{ name: Top, material: ply, size: 900 x 600, group: Carcass }]
`;
    const { job: read, problems } = readPartsFile(`${job}${block}`, () => ({
      ok: false,
      reason: 'missing',
      detail: '',
    }));
    expect(problems).toEqual([]);
    expect(Object.values(read?.rates ?? { none: null })).not.toContain(null);
  });

  it('shows labels that read, and are those without the key', () => {
    const blocks = [...README.matchAll(/```yaml\n([\s\S]*?)```/g)].map((match) => match[1]!);
    const block = blocks.find((each) => each.startsWith('labels:')) ?? '';
    const roll = /^# (labels: {.*?})/m.exec(block)?.[1] ?? '';
    const [sheet, single] = [block, roll].map((text) => {
      const { job, problems } = readPartsFile(`${blocks[0]}${text}\n`, () => ({
        ok: false,
        reason: 'missing',
        detail: '',
      }));
      expect(problems).toEqual([]);
      return job?.labels;
    });
    expect(sheet).toEqual(knownGrid('a4', null));
    expect(single?.kind).toBe('roll');
  });

  it('names every usual label sheet', () => {
    for (const { columns, rows } of KNOWN_GRIDS) expect(README).toContain(`${columns} x ${rows} (`);
  });

  it('shows variants that go with the parts file', () => {
    const blocks = [...README.matchAll(/```yaml\n([\s\S]*?)```/g)].map((match) => match[1]!);
    const block = blocks.find((each) => each.startsWith('variants:')) ?? '';
    const { variants, problems } = readPartsFile(`${blocks[0]}${block}`, () => ({
      ok: false,
      reason: 'missing',
      detail: '',
    }));
    expect(problems.map(({ code }) => code)).toEqual(['sawn-as-rectangle']);
    expect(variants).toHaveLength(4);
  });

  it('shows pictures and files that exist', () => {
    const links = [...README.matchAll(/\]\(((?!https?:|#)[^)]+)\)/g)].map((match) => match[1]!);
    expect(links.length).toBeGreaterThan(0);
    for (const link of links) expect(readFileSync(join(ROOT, link)).length).toBeGreaterThan(0);
  });
});

/** The lines between `<!-- name -->` and the next `<!-- end -->`, tables without the blanks and dashes that only align them. */
function section(name: string): string[] {
  const start = README.indexOf(`<!-- ${name} -->`);
  const end = README.indexOf('<!-- end -->', start);
  return README.slice(start, end)
    .split('\n')
    .slice(1)
    .map((line) => line.trim().replace(/ +/g, ' ').replace(/-{3,}/g, '-'))
    .filter((line) => line !== '');
}
