import type { Shape } from '../../src/geometry/shape.ts';
import { holdSheets } from '../../src/holding/hold.ts';
import { seededRandom } from '../../src/packing/random.ts';
import { verifyLayout } from '../../src/verify/verify.ts';
import { partOf } from '../helpers/jobs.ts';
import { arch, disc, frame, lShape, rect } from '../helpers/shapes.ts';
import { rows as inRows, shopJob } from '../holding/jobs.ts';
import type { Benchmark, Report } from './benchmark.ts';
import { growthExponent } from './growth-exponent.ts';
import { faultsNote } from './notes.ts';
import { seconds, type Table, whole } from './table.ts';

interface Figures {
  readonly sheets: number;
  /** Pieces, slugs and slivers, and how many of them need something. */
  readonly things: number;
  readonly care: number;
  readonly ms: number;
  /** Of the processor, which others on the same machine change less. */
  readonly cpuMs: number;
}

const SIZES = [125, 250, 500, 1000];

/** How long the holding stage takes, by the number of pieces, all different, in rows on sheets of 2440 x 1220; each size in a process of its own. */
export const holding: Benchmark<Figures> = {
  variants: ['rectangles', 'mixed'],
  ownProcess: true,
  instances: () => SIZES.map(String),
  measure: () => (task) => {
    const shapes = shapesOf(Number(task.instance), task.variant === 'mixed', task.seed);
    const job = shopJob(shapes.map((shape) => partOf(shape)));
    const layout = inRows(job);
    const cpu = process.cpuUsage();
    const start = performance.now();
    const held = holdSheets(job, [layout]).flatMap(({ loose }) => loose);
    const ms = performance.now() - start;
    const { user, system } = process.cpuUsage(cpu);
    return {
      proved: false,
      faults: verifyLayout(job, layout).faults.length,
      figures: {
        sheets: layout.sheets.length,
        things: held.length,
        care: held.filter(({ verdict }) => verdict !== 'stays').length,
        ms: Math.round(ms),
        cpuMs: Math.round((user + system) / 1000),
      },
    };
  },
  tables: (report) => [holdingTable(report)],
};

/** Rectangles alone, or with discs, Ls, frames and arches in turn; a larger job begins with the pieces of a smaller one. */
function shapesOf(count: number, isMixed: boolean, seed: number): Shape[] {
  const random = seededRandom(seed);
  const within = (least: number, most: number) => least + Math.floor((most - least + 1) * random());
  const kinds: readonly ((width: number, height: number) => Shape)[] = [
    rect,
    (width) => disc(width),
    (width, height) => lShape(width + 60, height + 60, 50),
    (width, height) => frame(width + 100, height + 100, 45),
    (width, height) => arch(width + 120, height, 40),
  ];
  return Array.from({ length: count }, (_, k) => {
    const [width, height] = [within(60, 500), within(60, 300)];
    return kinds[isMixed ? k % kinds.length : 0]!(width, height);
  });
}

function holdingTable({ rows, request }: Report<Figures>): Table {
  const variants = holding.variants.filter(
    (variant) => request.variants.length === 0 || request.variants.includes(variant),
  );
  const growth = variants.map((variant) => {
    const points = rows
      .filter((row) => row.variant === variant)
      .map(({ instance, figures }) => ({ x: Number(instance), y: figures.ms }));
    return `${variant} ${growthExponent(points).toFixed(2)}`;
  });
  return {
    title: 'The holding stage: pieces that all differ, in rows on 2440 x 1220',
    columns: ['pieces', 'shapes', 'sheets', 'loose', 'need care', 's', 'processor s'],
    rows: rows.map(({ instance, variant, figures }) => [
      whole(Number(instance)),
      variant,
      whole(figures.sheets),
      whole(figures.things),
      whole(figures.care),
      seconds(figures.ms),
      seconds(figures.cpuMs),
    ]),
    notes: [
      'Loose: pieces, slugs and slivers. Each size in a fresh process, so the first run of the code counts.',
      `Growth of the time with the number of pieces, as its power: ${growth.join(', ')}.`,
      faultsNote(rows),
    ],
  };
}
