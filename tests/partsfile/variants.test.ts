import { describe, expect, it } from 'vitest';
import { readPartsFile } from '../../src/partsfile/read-parts-file.ts';
import { MM, read } from './reading.ts';

const FILE = `unit: mm
currency: EUR
machine: { cutter: { diameter: 6 }, feed: 6000, kerf: 3, spacing: 8 }
table: { size: 2500 x 1250 }
materials:
  ply: { family: plywood, thickness: 18, sheets: [{ size: 2440 x 1220, price: 90 }] }
  oak: { family: hardwood, thickness: 20, boards: [{ length: 2400 }] }
parts:
  - { name: Side, material: ply, size: 700 x 500, grain: along, count: 2 }
  - { name: Rail, material: oak, length: 800 }
  - { name: Back, material: ply, size: 600 x 400, grain: across }
limits: { sheets: 2, holding: no piece moves }
variants:
`;

/** The only variant of the file with these changes, which must be sound. */
function variantOf(changes: string, file = FILE) {
  const { variants, problems } = read(`${file}  - { name: Other, ${changes} }\n`);
  expect(problems).toEqual([]);
  expect(variants).toHaveLength(1);
  return variants[0]!.job;
}

const said = (text: string) =>
  read(text).problems.map(
    ({ place, severity, code, message }) =>
      `${place?.line}:${place?.column} ${severity} ${code} ${message}`,
  );

describe('the variants of a file', () => {
  it('leave the file as it is, and are the file where they change nothing', () => {
    const { job, variants } = read(`${FILE}  - { name: Same }\n`);
    expect(job).toEqual(read(FILE.replace('variants:\n', '')).job);
    expect(variants.map(({ name }) => name)).toEqual(['Same']);
    const places = /"place":\{[^}]*\}/g;
    expect(JSON.stringify(variants[0]!.job).replace(places, '')).toBe(
      JSON.stringify(job).replace(places, ''),
    );
  });

  it('merge mappings key by key and replace lists', () => {
    const job = variantOf('materials: { ply: { thickness: 15, sheets: [{ size: 3050 x 1525 }] } }');
    const [ply, oak] = job.materials;
    expect([ply!.thickness, ply!.family, oak!.id]).toEqual([15 * MM, 'plywood', 'oak']);
    expect(ply!.sheets.map(({ length, priceCents }) => [length / MM, priceCents])).toEqual([
      [3050, null],
    ]);
  });

  it('take out a key that they leave empty', () => {
    const job = variantOf('limits: { sheets: }, table: ');
    expect(job.limits).toMatchObject({ sheets: null, holding: 'no piece moves' });
    expect(job.table.isGiven).toBe(false);
  });

  it('name parts, or all that are cut from sheets', () => {
    const grains = (changes: string) => variantOf(changes).parts.map(({ grain }) => grain);
    expect(grains('parts: { Side: { grain: any } }')).toEqual(['any', 'across']);
    expect(grains('parts: { all: { grain: any } }')).toEqual(['any', 'any']);
    expect(grains('parts: { all: { grain: any }, Back: { grain: along } }')).toEqual([
      'any',
      'along',
    ]);
    const job = variantOf('parts: { Rail: { count: 5 } }');
    expect(job.lengthParts.map(({ count }) => count)).toEqual([5]);
    expect(variantOf('parts: [{ name: Box, material: ply, size: 300 x 200 }]').parts).toHaveLength(
      1,
    );
  });

  it('mean the part of the name all, where there is one', () => {
    const file = FILE.replace('name: Back', 'name: all');
    const { parts } = variantOf('parts: { all: { grain: any } }', file);
    expect(parts.map(({ grain }) => grain)).toEqual(['along', 'any']);
  });

  it('are another machine without what only the old one has', () => {
    const saw = variantOf('machine: { kind: panel-saw }');
    expect(saw.machine).toMatchObject({ kind: 'panel-saw', kerf: 3 * MM, spacing: 3 * MM });
    expect(saw.table.isGiven).toBe(false);
    expect(saw.limits).toMatchObject({ sheets: 2, holding: null });
    const sawn = FILE.replace(
      /machine:.*\ntable:.*/,
      'machine: { kind: panel-saw, kerf: 3, stages: 2, stack: 50 }\n',
    ).replace(', holding: no piece moves', '');
    const routed = variantOf('machine: { kind: router, spacing: 9 }', sawn);
    expect(routed.machine).toMatchObject({ kind: 'router', spacing: 9 * MM, boardKerf: 3 * MM });
    expect(variantOf('machine: { kind: router, spacing: 9 }').machine).toMatchObject({
      feedMmPerMin: 6000,
    });
  });

  it('ask for a drawing once, whoever names it', () => {
    const asked: string[] = [];
    const text = FILE.replace('size: 600 x 400, grain: across', 'outline: back.svg');
    readPartsFile(`${text}  - { name: A }\n  - { name: B, limits: { sheets: 3 } }\n`, (path) => {
      asked.push(path);
      return { ok: false, reason: 'missing', detail: '' };
    });
    expect(asked).toEqual(['back.svg']);
  });
});

describe('what is wrong with a variant', () => {
  const CASES: readonly { name: string; variants: string; says: readonly string[] }[] = [
    {
      name: 'a value, at its own line, with the name of the variant',
      variants: '  - name: Thick\n    materials: { ply: { thickness: lots } }\n',
      says: ['15:36 error bad-length in the variant "Thick": cannot read "lots"'],
    },
    {
      name: 'a key that is not there',
      variants: '  - { name: Thick, machine: { cuter: { diameter: 3 } } }\n',
      says: ['14:31 error unknown-key in the variant "Thick": machine has no key "cuter"'],
    },
    {
      name: 'a part that is not there',
      variants: '  - { name: Thick, parts: { Sied: { grain: any } } }\n',
      says: ['14:29 error unknown-key there is no part named "Sied"'],
    },
    {
      name: 'what a variant may not change',
      variants: '  - { name: Thick, unit: in, currency: USD }\n',
      says: [
        '14:20 error misplaced-key a variant cannot change unit',
        '14:30 error misplaced-key a variant cannot change currency',
      ],
    },
    {
      name: 'two of one name',
      variants: '  - { name: Thick }\n  - { name: Thick }\n',
      says: ['15:13 error duplicate-name there is a variant named "Thick" already, in line 14'],
    },
    {
      name: 'one without a name',
      variants: '  - { machine: { kerf: 4 } }\n',
      says: ['14:5 error missing-key name is missing here'],
    },
    {
      name: 'no list',
      variants: '  Thick: { }\n',
      says: ['14:3 error wrong-type variants is a group of keys'],
    },
    {
      name: 'a key of the old machine in a variant of the new one',
      variants: '  - { name: Saw, machine: { kind: panel-saw, feed: 3000 } }\n',
      says: ['14:46 error misplaced-key in the variant "Saw": a panel saw has no feed'],
    },
  ];

  it.each(CASES)('is told: $name', ({ variants, says }) => {
    const text = FILE + variants;
    expect(said(text)).toEqual(says);
    expect(read(text)).toMatchObject({ job: null, variants: [] });
  });

  it('is told where it takes away what is needed', () => {
    const [first] = said(`${FILE}  - { name: None, materials: { ply: { thickness: } } }\n`);
    expect(first).toBe('14:37 error missing-key in the variant "None": thickness is missing here');
  });

  it('is not told again where the file has it already, and all of it in one run', () => {
    const text = FILE.replace('feed: 6000', 'feed: lots');
    expect(said(`${text}  - { name: A }\n  - { name: B, parts: { Side: { size: 9 } } }\n`)).toEqual(
      [
        expect.stringMatching(/^3:\d+ error bad-quantity cannot read "lots"/),
        expect.stringMatching(/^15:\d+ error \S+ in the variant "B": /),
      ],
    );
  });

  it('ends after twenty', () => {
    const many = Array.from({ length: 21 }, (_, i) => `  - { name: V${i} }\n`).join('');
    expect(said(FILE + many)).toEqual([
      '34:5 error out-of-range the file has 21 variants; the most is 20',
    ]);
  });
});
