import type { Job } from '../../src/model/job.ts';
import type { DrawingRead } from '../../src/partsfile/drawings.ts';
import { readPartsFile } from '../../src/partsfile/read-parts-file.ts';
import { CODES, type Corpus } from './corpus.ts';
import { type Draw, drawOf } from './draw.ts';
import { drawnDxf } from './drawn-dxf.ts';
import { drawnSvg } from './drawn-svg.ts';
import type { FuzzCase, Outcome, Reader } from './fuzz-case.ts';
import { mutated } from './mutate.ts';
import { drawnPartsFile } from './parts-file-nodes.ts';
import { jobFaults } from './sound-job.ts';
import { planFaults } from './tiny-plans.ts';
import { severityFaults, toldFaults } from './told.ts';

/** Whole parts files, by their form or by small changes of others; their drawings are drawn as well. */
export function partsFileReader(corpus: Corpus): Reader {
  return (draw) => {
    const text = partsText(corpus, draw);
    return partsCase(text, drawingsOf(corpus, draw), draw);
  };
}

/** Few jobs are planned, as a plan takes a hundred times as long as what is read. */
const PLANNED = 0.02;
const MOST_PLANNED = 30;

/** A text with its drawings as a case; what is read cleanly is looked at, and a sample of it planned. */
export function partsCase(
  text: string,
  readDrawing: (path: string) => DrawingRead,
  draw: Draw,
): FuzzCase {
  const isPlanned = draw.chance(PLANNED);
  return {
    shown: text,
    read: () => {
      const { job, variants, problems } = readPartsFile(text, readDrawing);
      const jobs = [...(job === null ? [] : [job]), ...variants.map((variant) => variant.job)];
      return {
        isRead: job !== null,
        codes: problems.map(({ code }) => code),
        faults: [
          ...toldFaults(problems, text, CODES),
          ...severityFaults(problems, job !== null),
          ...jobs.flatMap(jobFaults),
        ],
        later: job !== null && isPlanned && isSmall(job) ? () => planFaults(job) : null,
      } satisfies Outcome;
    },
  };
}

function isSmall({ pieces, lengthParts }: Job): boolean {
  const lengths = lengthParts.reduce((sum, { count }) => sum + count, 0);
  return pieces.length + lengths <= MOST_PLANNED;
}

function partsText(corpus: Corpus, draw: Draw): string {
  return draw.weighed<() => string>([
    [50, () => drawnPartsFile(draw)],
    [12, () => mutated(drawnPartsFile(draw), draw, WORDS)],
    [30, () => mutated(draw.pick(corpus.small), draw, WORDS)],
    [4, () => draw.pick(corpus.small)],
    [2, () => mutated(draw.pick(corpus.files), draw, WORDS)],
    [1, () => hostileText(draw)],
  ])();
}

/** Nesting, aliases and lists beyond any need. */
function hostileText(draw: Draw): string {
  const deep = draw.between(20, 120);
  return draw.pick([
    `unit: mm\nparts: ${'['.repeat(deep)}${']'.repeat(deep)}\n`,
    `unit: mm\nparts: ${'{a: '.repeat(deep)}x${'}'.repeat(deep)}\n`,
    Array.from({ length: deep }, (_, i) => `${' '.repeat(i)}a${i}:\n`).join(''),
    bomb(draw),
    `unit: mm\nmaterials: { a: &m { thickness: 18, b: *m } }\nparts: *m\n`,
    `unit: mm\nmaterials: &a\n  ply: { thickness: 18 }\nparts:\n${'  - *a\n'.repeat(draw.between(1, 400))}`,
    `unit: mm\n${Array.from({ length: draw.between(2, 700) }, (_, i) => `key${i}: 1\n`).join('')}`,
    `unit: mm\nunit: in\n---\nunit: mm\n...\n`,
    `%YAML 1.1\n---\nunit: !!str mm\nparts: !<tag:x> []\n? [a]\n: b\n<<: { a: 1 }\n`,
    `unit: mm\nparts: |\n ${'x'.repeat(draw.between(1, 3000))}\n`,
  ]);
}

function bomb(draw: Draw): string {
  const width = draw.between(2, 9);
  const levels = Array.from(
    { length: draw.between(2, 9) },
    (_, i) => `a${i + 1}: &a${i + 1} [${Array(width).fill(`*a${i}`).join(', ')}]`,
  );
  return ['unit: mm', 'a0: &a0 [x, x]', ...levels].join('\n');
}

function drawingsOf({ svgs, dxfs }: Corpus, draw: Draw): (path: string) => DrawingRead {
  const lost = draw.pick<DrawingRead>([
    ...(['missing', 'unreadable', 'outside'] as const).map((reason) => ({
      ok: false as const,
      reason,
      detail: '',
    })),
    { ok: false, reason: 'too-large', bytes: 2 ** 33 },
  ]);
  const seed = draw.below(2 ** 31);
  return (path) => {
    if (/lost|\.\./.test(path)) return lost;
    // Most files name no drawing, so they are made when they are asked for.
    const own = drawOf(seed);
    const isDrawn = own.chance(0.7);
    const [make, known] = /dxf/i.test(path) ? [drawnDxf, dxfs] : [drawnSvg, svgs];
    const text = isDrawn ? make(own) : own.pick(known);
    return { ok: true, text, sha256: 'b'.repeat(64) };
  };
}

/** Keys and words of parts files. */
export const WORDS: readonly string[] = [
  ...[
    'unit',
    'job',
    'machine',
    'table',
    'materials',
    'parts',
    'limits',
    'offcuts',
    'costs',
    'layers',
    'labels',
    'variants',
    'rack',
  ],
  ...[
    'name',
    'size',
    'count',
    'material',
    'thickness',
    'sheets',
    'boards',
    'lumber',
    'trim',
    'grain',
    'price',
    'edges',
    'holes',
  ],
  ...[
    'cut-outs',
    'pockets',
    'outline',
    'path',
    'points',
    'shape',
    'matched',
    'length',
    'at',
    'diameter',
    'depth',
    'row',
    'pitch',
  ],
  ...[
    'along',
    'across',
    'none',
    'first',
    'second',
    'half',
    'any',
    'up',
    'either',
    'disc',
    'rounded',
    'panel-saw',
    'router',
    'all',
  ],
  ...[
    'mm',
    'in',
    'a.svg',
    'a.dxf',
    'a.svg#p',
    'drawing-unit',
    'kerf',
    'stages',
    'keep-out',
    'lifted',
    'defects',
    'on-hand',
    'pack',
  ],
  ...[
    '\n',
    '  ',
    ': ',
    '- ',
    ', ',
    '{ ',
    ' }',
    '[',
    ']',
    '#',
    '"',
    "'",
    '|',
    '>',
    '&a ',
    '*a',
    '---\n',
    '...\n',
    '!!int ',
    '? ',
    '<<: ',
  ],
];
