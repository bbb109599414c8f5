import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { contentsOf, folderWith, holdfast } from '../helpers/command.ts';
import { readPdf } from '../helpers/pdf-text.ts';

/** Words on s behind a 1 that are no count of several. */
const SOUND = /^(pass|less|is|was|has|across|plus|as|stays|moves|needs|finds|breaks|takes)$/;

/** "1 sheets", "1 more rows", "1 of 1 pieces". */
function wrongCounts(text: string): readonly string[] {
  const found = text.matchAll(
    /(?<![\d.,:×x#/-]|[×x] )\b1 (?:(?:more|such|new|equal|other) )?([a-z]+s)\b/g,
  );
  return [...found].filter(([, word]) => !SOUND.test(word!)).map(([all]) => all);
}

const ONE = 'unit: mm\nparts: [{ name: Top, material: ply, ';
const PLY =
  'materials: { ply: { family: plywood, thickness: 18, sheets: [{ size: 600 x 400, price: 9';

const JOBS: readonly (readonly [string, string])[] = [
  [
    'one piece',
    `${ONE}size: 500 x 300, holes: [{ at: [50, 50], diameter: 5, depth: 9 }] }]\n${PLY} }] } }\nlimits: { sheets: 1, holding: no piece moves }\nvariants: [{ name: Saw, machine: { kind: panel-saw, kerf: 3 } }]\n`,
  ],
  [
    'one small piece, one flute, one elbow',
    `${ONE}size: 60 x 50, edges: { left: 1 } }]\n${PLY}, on-hand: 1 }] } }\nmachine: { cutter: { diameter: 6, flutes: 1, spiral: up-cut }, pass-depth: 18 }\ntable: { pipe: { bore: 50, length: 6000, elbows: 1 } }\nlimits: { holding: no piece marginal }\n`,
  ],
  [
    'one slug',
    `${ONE}size: 500 x 300, cut-outs: [{ at: [50, 50], size: 70 x 70 }] }]\n${PLY}, pack: 2 }] } }\n`,
  ],
  [
    'one piece too many',
    `${ONE}size: 500 x 300, count: 2 }]\n${PLY}, on-hand: 1 }] } }\nlimits: { sheets: 1 }\n`,
  ],
  [
    'one sheet too many',
    `${ONE}size: 500 x 300, count: 2 }]\n${PLY} }] } }\nlimits: { sheets: 1, yield: 99 % }\n`,
  ],
  [
    'one piece at a saw',
    `${ONE}size: 500 x 300 }]\n${PLY} }] } }\nmachine: { kind: panel-saw, kerf: 3, stages: 2, stack: 18 }\n`,
  ],
  [
    'one length',
    `${ONE}length: 500 }]\nmaterials: { ply: { family: hardwood, thickness: 45, boards: [{ length: 600, price: 9 }] } }\n`,
  ],
  [
    'one part of lumber',
    `${ONE}size: 500 x 90 }]\nmaterials: { ply: { family: hardwood, thickness: 21, lumber: { rough: 26, price: 9 per bf, waste: 30 %, waste-of: net, on-hand: [{ size: 2400 x 180, count: 1 }] } } }\n`,
  ],
];

describe('a count of one', () => {
  it('is told when it has the noun of several', () => {
    const text =
      '1 sheets, 11 boards, 2 of 1 pieces, 1 more rows, 4.1 parts, 2 × 1 tabs, 1 pass, 1 piece';
    expect(wrongCounts(text)).toEqual(['1 sheets', '1 pieces', '1 more rows']);
  });

  it.each(JOBS)('has its noun in all that is said of %s', async (_, text) => {
    const folder = folderWith({ 'a.yaml': text });
    const said: string[] = [];
    const first = [
      ['plan', 'a.yaml'],
      ['check', 'a.yaml'],
    ];
    const further = [
      ['check', './*.yaml'],
      ['price', 'a.yaml'],
      ['explain', 'a.yaml'],
      ['compare', 'a.yaml'],
      ['explain', 'a.yaml', 'Top'],
      ['verify', 'a-plan', 'a.yaml'],
      ['offcuts', 'add', 'a-plan'],
      ['offcuts', 'list'],
    ];
    // What is not proved is searched for until the effort ends, so of that only these two.
    for (const argv of text.includes('count: 2') ? first : [...first, ...further]) {
      const { out, err, code } = await holdfast(folder, argv);
      expect([argv, code]).not.toEqual([argv, 70]);
      said.push(out, err);
    }
    const files = contentsOf(join(folder, 'a-plan'));
    for (const [name, bytes] of Object.entries(files)) {
      if (/\.(md|csv|svg)$/.test(name)) said.push(bytes.toString());
      if (name.endsWith('.pdf')) said.push(...readPdf(bytes).map(({ text }) => text));
      if (name.endsWith('.html'))
        said.push(
          bytes
            .toString()
            .replace(/<(script|style)[\s\S]*?<\/\1>/g, '')
            .replace(/<[^>]*>/g, ' '),
        );
    }
    expect(said.flatMap(wrongCounts)).toEqual([]);
    expect(said.join('\n')).toMatch(/\b1 (piece|part|board|sheet|length)\b/);
  });

  it('has its noun in an import of one row, and of one that is left out', async () => {
    const folder = folderWith({
      'a.csv': 'Name,Length,Width,Material\nA,700,500,MDF 18\nB,7x,500,MDF 18\n',
    });
    const { out, err } = await holdfast(folder, ['import', 'a.csv']);
    const made = readFileSync(join(folder, 'a.yaml'), 'utf8');
    expect([out, err, made].flatMap(wrongCounts)).toEqual([]);
    expect(out).toContain('1 part, 1 piece, 1 material');
  });
});
