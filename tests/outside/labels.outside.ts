import { createHash } from 'node:crypto';
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { holdfast } from '../helpers/command.ts';
import { cutOutOf, type GreyPicture, greyBytes, greyPicture } from './grey-picture.ts';
import { runTool } from './tools.ts';

const EXAMPLES = resolve(import.meta.dirname, '..', '..', 'examples');
const DPI = 300;
const MM = DPI / 25.4;
const POINTS = 72 / 25.4;

/** A grid in millimetres: paper, columns, rows, label, pitch, left, top. */
interface Grid {
  readonly paper: readonly [number, number];
  readonly columns: number;
  readonly rows: number;
  readonly label: readonly [number, number];
  readonly pitch: readonly [number, number];
  readonly at: readonly [number, number];
}

const roll = (width: number, height: number): Grid => ({
  paper: [width, height],
  columns: 1,
  rows: 1,
  label: [width, height],
  pitch: [width, height],
  at: [0, 0],
});
const A4: Grid = {
  paper: [210, 297],
  columns: 3,
  rows: 8,
  label: [63.5, 33.9],
  pitch: [66, 33.9],
  at: [7.25, 12.9],
};
const LETTER: Grid = {
  paper: [215.9, 279.4],
  columns: 3,
  rows: 10,
  label: [66.675, 25.4],
  pitch: [69.85, 25.4],
  at: [4.7625, 12.7],
};
const OWN: Grid = {
  paper: [210, 297],
  columns: 4,
  rows: 9,
  label: [48, 29],
  pitch: [50, 31],
  at: [5.5, 8],
};
const OWN_TEXT =
  'labels: { paper: a4, columns: 4, rows: 9, size: 48mm x 29mm, pitch: 50mm x 31mm, margin: { left: 5.5mm, top: 8mm } }';

/** Names that a code has to carry whatever letters and signs are in them. */
const ODD_NAMES = `job: Küche | Ost \\ Nord
unit: mm
materials:
  birch18: { family: plywood, thickness: 18, sheets: [{ size: 2440 x 1220 }] }
parts:
  - { name: "Rückwand | links", material: birch18, size: 720 x 560, count: 3, grain: along, edges: { left: 2, bottom: 1 } }
  - { name: 'Schublade \\ \\| 2', material: birch18, size: 450 x 180, count: 3 }
  - { name: Стенка ящика Їґ, material: birch18, size: 450 x 120, count: 3, note: "drill, then sand; keep the figure" }
  - { name: Ράφι πλαϊνό, material: birch18, size: 300 x 120, count: 3 }
  - { name: Žluťoučký kůň, material: birch18, shape: disc, diameter: 60, count: 3 }
  - { name: 棚板, material: birch18, size: 200 x 90, count: 2 }
`;

const CASES: readonly (readonly [string, string, string, Grid, readonly string[], number])[] = [
  ['reading-nook', 'reading-nook.yaml', '', A4, [], 1],
  ['bookcase-router', 'bookcase-router.yaml', 'labels: { roll: 62mm x 40mm }', roll(62, 40), [], 1],
  ['bookcase-saw', 'bookcase-saw.yaml', OWN_TEXT, OWN, ['--first-label', '5'], 5],
  ['boat-shed-cart', 'boat-shed-cart.yaml', '', LETTER, ['--paper', 'letter'], 1],
  ['odd-names', 'odd-names.yaml', 'labels: { roll: 70mm x 30mm }', roll(70, 30), [], 1],
];

let folder = '';

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'holdfast-labels-'));
  cpSync(EXAMPLES, folder, { recursive: true });
  writeFileSync(join(folder, 'odd-names.yaml'), ODD_NAMES);
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe.each(CASES)('the labels of %s', (stem, file, key, grid, options, first) => {
  const { columns, rows, label, pitch, at, paper } = grid;
  const perPage = columns * rows;
  const name = `${stem}-labels`;
  let pages: readonly GreyPicture[] = [];
  let pdf = '';
  let wanted: readonly Wanted[] = [];
  let recorded: readonly string[] = [];

  /** The upper left corner of a cell, in millimetres from that of the page. */
  const cornerOf = (place: number) => ({
    x: at[0] + (place % columns) * pitch[0],
    y: at[1] + Math.floor(place / columns) * pitch[1],
  });
  /** Page and place of each label. */
  const places = () =>
    wanted.map((_, i) => {
      const index = first - 1 + i;
      return { page: Math.floor(index / perPage), place: index % perPage };
    });
  const decoded = (pictures: readonly GreyPicture[], kind: string) => {
    const files = pictures.map((picture, i) => {
      const path = join(folder, `${name}-${kind}-${`${i}`.padStart(4, '0')}.pgm`);
      writeFileSync(path, greyBytes(picture));
      return path;
    });
    const read = runTool('zbarimg', ['-q', '--raw', '--nodbus', ...files], 'zbar-tools');
    return read.trimEnd().split('\n');
  };

  beforeAll(async () => {
    const text = readFileSync(join(folder, file), 'utf8');
    writeFileSync(join(folder, `${name}.yaml`), `${text}\n${key}\n`);
    const { code, err } = await holdfast(folder, ['plan', `${name}.yaml`, ...options]);
    expect([code, err]).toEqual([0, '']);
    const plan = join(folder, `${name}-plan`);
    pdf = join(plan, 'labels.pdf');
    const record = readFileSync(join(plan, 'plan.json'));
    wanted = wantedLabels(record);
    recorded = recordedPieces(record);
    runTool('pdftoppm', ['-gray', '-r', `${DPI}`, pdf, join(folder, name)], 'poppler-utils');
    const info = runTool('pdfinfo', [pdf], 'poppler-utils');
    const count = Number(/Pages: +(\d+)/.exec(info)?.[1]);
    pages = Array.from({ length: count }, (_, i) => {
      const number = `${i + 1}`.padStart(`${count}`.length, '0');
      return greyPicture(readFileSync(join(folder, `${name}-${number}.pgm`)));
    });
  });

  it('are decoded one by one, in the order of the cutting', () => {
    expect(pages).toHaveLength(Math.ceil((first - 1 + wanted.length) / perPage));
    const cells = places().map(({ page, place }) => {
      const { x, y } = cornerOf(place);
      const [width, height] = [label[0] * MM, label[1] * MM];
      return cutOutOf(pages[page]!, { x: x * MM, y: y * MM, width, height });
    });
    const texts = decoded(cells, 'cell');
    expect(texts).toHaveLength(wanted.length);
    for (const [i, text] of texts.entries()) expect(text).toMatch(wanted[i]!.pattern);
    expect(texts.flatMap(pieceIn).toSorted()).toEqual(recorded);
    // At a saw the record does not say which cut a piece is done by; the codes do, and these follow one another.
    const cuts = texts.flatMap((text) => {
      const [, sheet, cut] = /\|S(\d+)#(\d+)\|/.exec(text) ?? [];
      return cut === undefined ? [] : [Number(sheet) * 10_000 + Number(cut)];
    });
    expect(cuts).toEqual(cuts.toSorted((a, b) => a - b));
  });

  it('are found on whole pages as well, and nothing else is', () => {
    const texts = pages.flatMap((page, i) => decoded([page], `page-${i}`));
    for (const text of texts) expect(wanted.some(({ pattern }) => pattern.test(text))).toBe(true);
    expect(new Set(texts).size).toBe(texts.length);
    // The decoder fits lines through edges at random: among dozens of codes on a page it may miss one that it reads alone.
    expect(texts.length).toBeGreaterThanOrEqual(0.95 * wanted.length);
  });

  it('have no ink outside their cells', () => {
    for (const page of pages) {
      const blank = page.grey.slice();
      for (let place = 0; place < perPage; place++) {
        const { x, y } = cornerOf(place);
        const [left, right] = [Math.floor(x * MM), Math.ceil((x + label[0]) * MM)];
        const end = Math.min(page.height, Math.ceil((y + label[1]) * MM));
        for (let row = Math.floor(y * MM); row < end; row++)
          blank.fill(255, row * page.width + left, row * page.width + Math.min(page.width, right));
      }
      expect(blank.some((grey) => grey < 250)).toBe(false);
    }
  });

  it('stand in the PDF at their pitch, each with its name', () => {
    const texts = runTool('pdftotext', ['-bbox', pdf, '-'], 'poppler-utils').split('<page ');
    const words = texts.slice(1).map(wordsOf);
    for (const [i, sheet] of texts.slice(1).entries()) {
      expect(words[i]!.length).toBeGreaterThan(0);
      const [, width, height] = /width="([\d.]+)" height="([\d.]+)"/.exec(sheet) ?? [];
      expect(Number(width)).toBeCloseTo(paper[0] * POINTS, 2);
      expect(Number(height)).toBeCloseTo(paper[1] * POINTS, 2);
    }
    const insets = places().map(({ page, place }, i) => {
      const { x, y } = cornerOf(place);
      const own = words[page]!.filter(
        (word) =>
          x * POINTS <= word.x &&
          word.x < (x + label[0]) * POINTS &&
          y * POINTS <= word.y &&
          word.y < (y + label[1]) * POINTS,
      );
      expect(own.map(({ text }) => text).join(' ')).toContain(
        wanted[i]!.name.replace(/\p{Script=Han}/gu, ''),
      );
      return {
        x: Math.min(...own.map((word) => word.x)) - x * POINTS,
        y: Math.min(...own.map((word) => word.y)) - y * POINTS,
      };
    });
    // Every label begins at the same place of its cell, how high by the size of its letters; scripts that the font lacks leave their row empty.
    for (const [i, inset] of insets.entries()) {
      if (/\p{Script=Han}/u.test(wanted[i]!.name)) continue;
      expect(Math.abs(inset.x - insets[0]!.x)).toBeLessThan(0.02);
      expect(Math.abs(inset.y - insets[0]!.y)).toBeLessThan(1.5);
    }
  });
});

/** Part and number of a code that is of a piece, as the record has them. */
function pieceIn(text: string): readonly string[] {
  const [, part = '', piece] = /^HF1\|(?:[^|\\]|\\.)*\|((?:[^|\\]|\\.)+)\|(\d+)\//.exec(text) ?? [];
  return part === '' ? [] : [`${part.replace(/\\(.)/g, '$1')} ${piece}`];
}

function recordedPieces(bytes: Uint8Array): readonly string[] {
  const { materials } = JSON.parse(Buffer.from(bytes).toString());
  const pieces = materials.flatMap(
    (material: { readonly sheets: RecordedSheet[]; readonly boards: RecordedBoard[] }) => [
      ...material.sheets.flatMap(({ placements }) => placements),
      ...material.boards.flatMap((board) => board.pieces),
    ],
  );
  return pieces
    .map((each: { part: string; piece: number }) => `${each.part} ${each.piece}`)
    .toSorted();
}

interface Word {
  readonly x: number;
  readonly y: number;
  readonly text: string;
}

function wordsOf(page: string): readonly Word[] {
  return [...page.matchAll(/<word xMin="([\d.]+)" yMin="([\d.]+)" [^>]*>(.*?)<\/word>/g)].map(
    ([, x, y, text = '']) => ({
      x: Number(x),
      y: Number(y),
      text: text
        .replace(/&lt;/g, '<')
        .replace(/&gt;/g, '>')
        .replace(/&quot;/g, '"')
        .replace(/&amp;/g, '&'),
    }),
  );
}

/** A label that has to be there: the name printed on it, and what its code says. */
interface Wanted {
  readonly name: string;
  readonly pattern: RegExp;
}

interface RecordedSheet {
  readonly number: number;
  readonly placements: readonly { readonly part: string; readonly piece: number }[];
  readonly offcuts: readonly unknown[];
}

interface RecordedBoard {
  readonly number: number;
  readonly pieces: readonly {
    readonly part: string;
    readonly piece: number;
    readonly length: number;
  }[];
  readonly leftovers: readonly { readonly length: number; readonly keep: boolean }[];
}

/** From the record alone, in the order of its cutting orders; lengths as any number, since the record has them in millimetres only. */
function wantedLabels(bytes: Uint8Array): readonly Wanted[] {
  const record = JSON.parse(Buffer.from(bytes).toString());
  const mark = createHash('sha256').update(bytes).digest('hex').slice(0, 8);
  const materials: readonly {
    readonly material: string;
    readonly sheets: readonly RecordedSheet[];
    readonly boards: readonly RecordedBoard[];
  }[] = record.materials;
  const counts = new Map<string, number>();
  const all = materials.flatMap(({ sheets, boards }) => [
    ...sheets.flatMap(({ placements }) => placements),
    ...boards.flatMap(({ pieces }) => pieces),
  ]);
  for (const { part } of all) counts.set(part, (counts.get(part) ?? 0) + 1);
  const label = (name: string, number: string, material: string, place: string, sizes: 1 | 3) => {
    const length = String.raw`\d+(?:\.\d+)?(?:-\d+)?(?:/\d+)?`;
    const size = `${Array.from({ length: sizes }, () => length).join('x')}${record.unit}`;
    const escaped = ['HF1', record.job, name, number].map(escapedField).map(literal).join('\\|');
    const rest = [literal(material), place, mark].join('\\|');
    return {
      name: name === '' ? 'Offcut' : name,
      pattern: new RegExp(`^${escaped}\\|${size}\\|${rest}$`),
    };
  };
  const orderOf = (sheet: number, part: string, piece: number): number | null =>
    record.holding.find(
      (each: Record<string, unknown>) =>
        each.kind === 'piece' && each.sheet === sheet && each.part === part && each.piece === piece,
    )?.cutOrder ?? null;
  const sheetLabels = materials.flatMap(({ material, sheets }) =>
    sheets.flatMap(({ number, placements }) => {
      const ordered = placements
        .map((placement) => ({
          ...placement,
          order: orderOf(number, placement.part, placement.piece),
        }))
        .toSorted((a, b) => (a.order ?? 0) - (b.order ?? 0));
      return ordered.map(({ part, piece, order }) => {
        // At a saw any piece of the sheet may come next.
        const isSawn = order === null;
        const place = `S${number}#${order ?? '\\d+'}`;
        const own = label(part, `${piece}/${counts.get(part)}`, material, place, 3);
        if (!isSawn) return own;
        const pattern = new RegExp(`^HF1\\|.*\\|${literal(material)}\\|${place}\\|${mark}$`);
        return { name: '', pattern };
      });
    }),
  );
  const boardLabels = materials.flatMap(({ material, boards }) =>
    boards.flatMap(({ number, pieces }) =>
      pieces.map(({ part, piece }, i) =>
        label(part, `${piece}/${counts.get(part)}`, material, `B${number}#${i + 1}`, 1),
      ),
    ),
  );
  const kept = [
    ...materials.flatMap(({ material, sheets }) =>
      sheets.flatMap(({ number, offcuts }) =>
        offcuts.map(() => ({ material, place: `S${number}`, sizes: 3 as const })),
      ),
    ),
    ...materials.flatMap(({ material, boards }) =>
      boards.flatMap(({ number, leftovers }) =>
        leftovers
          .filter(({ keep }) => keep)
          .map(() => ({ material, place: `B${number}`, sizes: 1 as const })),
      ),
    ),
  ];
  const keptLabels = kept.map(({ material, place, sizes }, i) =>
    label('', `${i + 1}/${kept.length}`, material, place, sizes),
  );
  return [...sheetLabels, ...boardLabels, ...keptLabels];
}

function escapedField(field: string): string {
  return field.replace(/[\\|]/g, '\\$&');
}

function literal(text: string): string {
  return text.replace(/[.*+?^${}()|[\]\\/-]/g, '\\$&');
}
