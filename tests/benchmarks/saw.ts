import type { Job } from '../../src/model/job.ts';
import type { Stages } from '../../src/model/machine.ts';
import { fromMm } from '../../src/model/units.ts';
import { cabinetPieces } from '../packing/cabinet-pieces.ts';
import { CLASSES, classInstance, SIZES } from '../packing/class-instances.ts';
import { type PartSketch, QUARTERS, type StockSketch } from '../packing/jobs.ts';
import { sawnJob } from '../packing-panelsaw/saws.ts';
import type { Benchmark, Report, Row, Task } from './benchmark.ts';
import { type Order, readOrders } from './furniture.ts';
import { commonNotes } from './notes.ts';
import { type PackedFigures, packed } from './packed.ts';
import { sumOf } from './percentiles.ts';
import { PUBLISHED, type PublishedClass } from './published.ts';
import { type Cell, type Table, whole } from './table.ts';
import { timingsTable } from './timings.ts';

interface Figures extends PackedFigures {
  readonly pieces: number;
  /** From the file, or by the areas; null where the sum is published. */
  readonly areaBound: number | null;
}

type Group = 'class' | 'order' | 'cabinets';
type SawRow = Row<Figures>;

const NUMBERS = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10] as const;
const CABINETS = [1000, 10_000];
const CABINET_SHEET = { length: 2440, width: 1220 };
const TURNS = ['still', 'turned'] as const;
type Turning = (typeof TURNS)[number];
const WORDS: Readonly<Record<Turning, string>> = { still: 'not turned', turned: 'quarter turns' };

/** The 500 published instances, orders of furniture makers and cabinet pieces, cut from edge to edge in any number of stages, or in two or three. */
export const saw: Benchmark<Figures> = {
  variants: TURNS.flatMap((turning) => ['free', '2', '3'].map((stages) => `${turning}-${stages}`)),
  variantsOf: () => (name) =>
    saw.variants.filter((variant) => groupOf(name) === 'class' || variant.startsWith('turned')),
  ownProcess: false,
  instances: (file) => [
    ...CLASSES.flatMap((group) =>
      SIZES.flatMap((size) => NUMBERS.map((number) => `${group}_${size}_${number}`)),
    ),
    ...(file === null ? [] : readOrders(file).map(({ id }) => `order_${id}`)),
    ...CABINETS.map((count) => `cabinets_${count}`),
  ],
  measure: (file) => {
    const orders = new Map((file === null ? [] : readOrders(file)).map((each) => [each.id, each]));
    return (task) => {
      const { job, areaBound } = jobFor(task, orders);
      const { layout, faults, figures } = packed(job, task);
      const told = { pieces: job.pieces.length, areaBound };
      return { proved: layout.status === 'proved', faults, figures: { ...figures, ...told } };
    };
  },
  tables: (report) =>
    [
      ...TURNS.map((turning) => classTable(report, turning)),
      ordersTable(report),
      cabinetsTable(report),
      timingsTable(report.rows),
    ].filter(({ rows }) => rows.length > 0),
};

function groupOf(name: string): Group {
  return name.startsWith('order_') ? 'order' : name.startsWith('cabinets_') ? 'cabinets' : 'class';
}

function jobFor(
  { instance, variant }: Task,
  orders: ReadonlyMap<string, Order>,
): { readonly job: Job; readonly areaBound: number | null } {
  const [turning, number] = variant.split('-');
  const stages = number === 'free' ? null : (Number(number) as Stages);
  const turns = turning === 'turned' ? QUARTERS : [0];
  const sawn = (stock: StockSketch, parts: readonly Omit<PartSketch, 'turns'>[]) =>
    sawnJob(
      [stock],
      parts.map((part) => ({ ...part, turns })),
      { stages },
    );
  switch (groupOf(instance)) {
    case 'class': {
      const [group = 0, size = 0, index = 0] = instance.split('_').map(Number);
      const { side, pieces } = classInstance(group, size, index);
      return { job: sawn({ length: side, width: side }, pieces), areaBound: null };
    }
    case 'order': {
      const { sheet, parts, bounds } = orders.get(instance.replace('order_', ''))!;
      const stock = { length: fromMm(sheet[0]), width: fromMm(sheet[1]) };
      const sketches = parts.map(([length, width, count]) => ({ ...inMm(length, width), count }));
      return { job: sawn(stock, sketches), areaBound: bounds.LB_area };
    }
    case 'cabinets': {
      const pieces = cabinetPieces(Number(instance.replace('cabinets_', '')), 1);
      const { length, width } = CABINET_SHEET;
      const areaMm2 = sumOf(pieces.map((piece) => piece.width * piece.height));
      const stock = { length: fromMm(length), width: fromMm(width) };
      const sketches = pieces.map((piece) => inMm(piece.width, piece.height));
      return { job: sawn(stock, sketches), areaBound: Math.ceil(areaMm2 / (length * width)) };
    }
  }
}

function inMm(width: number, height: number) {
  return { width: fromMm(width), height: fromMm(height) };
}

function classTable(report: Report<Figures>, turning: Turning): Table {
  const rows = report.rows.filter(
    ({ instance, variant }) => groupOf(instance) === 'class' && variant.startsWith(turning),
  );
  const line = (name: string, of: readonly SawRow[]): Cell[] => [
    name,
    ...stageCells(of),
    whole(sumOf(oncePerInstance(of).map(({ figures }) => figures.bound))),
    published(of, turning === 'still' ? 'still' : 'turned'),
    published(of, turning === 'still' ? 'stillBound' : 'turnedBound'),
  ];
  const classes = CLASSES.map(String).filter((group) => ofClass(rows, group).length > 0);
  return {
    title: `Published bin packing instances, edge to edge, ${WORDS[turning]}, ${report.request.efforts.join()}: sheets`,
    columns: ['class', 'any stages', 'proved', 'in 3', 'in 2', 'bound', 'free cuts', 'its bound'],
    rows:
      rows.length === 0
        ? []
        : [...classes.map((group) => line(group, ofClass(rows, group))), line('all', rows)],
    notes: [
      'Free cuts: the sums published for cuts that need not go from edge to edge, only where all instances of a class ran; a simple level heuristic, not turned, needs 7,423.',
      ...commonNotes(report, rows),
    ],
  };
}

function ofClass(rows: readonly SawRow[], group: string): readonly SawRow[] {
  return rows.filter(({ instance }) => instance.startsWith(`${group}_`));
}

/** Sums and the count that is proved, for any stages, three and two. */
function stageCells(rows: readonly SawRow[]): Cell[] {
  const of = (stages: string) => rows.filter(({ variant }) => variant.endsWith(`-${stages}`));
  const sum = (stages: string) => {
    const own = of(stages);
    return own.length === 0 ? null : whole(sumOf(own.map(({ figures }) => figures.sheets)));
  };
  return [sum('free'), whole(of('free').filter(({ proved }) => proved).length), sum('3'), sum('2')];
}

function oncePerInstance(rows: readonly SawRow[]): readonly SawRow[] {
  const seen = new Set<string>();
  return rows.filter(({ instance }) => !seen.has(instance) && seen.add(instance));
}

/** Null unless every instance of the classes is there. */
function published(rows: readonly SawRow[], key: keyof PublishedClass): Cell {
  const instances = oncePerInstance(rows).map(({ instance }) => instance);
  const classes = [...new Set(instances.map((name) => Number(name.split('_')[0])))];
  if (instances.length < classes.length * SIZES.length * NUMBERS.length) return null;
  return whole(sumOf(classes.flatMap((group) => [...PUBLISHED[group - 1]![key]])));
}

function ordersTable(report: Report<Figures>): Table {
  const rows = report.rows.filter(({ instance }) => groupOf(instance) === 'order');
  const line = (name: string, of: readonly SawRow[]): Cell[] => {
    const once = oncePerInstance(of);
    const total = (key: 'pieces' | 'bound' | 'areaBound') =>
      whole(sumOf(once.map(({ figures }) => figures[key] ?? 0)));
    return [name, total('pieces'), ...stageCells(of), total('bound'), total('areaBound')];
  };
  const names = [...new Set(rows.map(({ instance }) => instance))];
  const lines = names.map((name) =>
    line(
      name.replace('order_', ''),
      rows.filter(({ instance }) => instance === name),
    ),
  );
  const free = rows.filter(({ variant }) => variant.endsWith('-free'));
  const [sheets, bounds] = [
    sumOf(free.map(({ figures }) => figures.sheets)),
    sumOf(free.map(({ figures }) => figures.bound)),
  ];
  return {
    title: `Orders of furniture makers, edge to edge, quarter turns, ${report.request.efforts.join()}: sheets`,
    columns: ['order', 'pieces', 'any stages', 'proved', 'in 3', 'in 2', 'bound', 'area'],
    rows: rows.length === 0 ? [] : [...lines, line('all', rows)],
    notes: [
      ...(bounds === 0 ? [] : [`Any stages: sheets over bounds ${(sheets / bounds).toFixed(4)}.`]),
      ...commonNotes(report, rows),
    ],
  };
}

function cabinetsTable(report: Report<Figures>): Table {
  const rows = report.rows.filter(({ instance }) => groupOf(instance) === 'cabinets');
  return {
    title: `Cabinet pieces on ${CABINET_SHEET.length} x ${CABINET_SHEET.width}, edge to edge, quarter turns, ${report.request.efforts.join()}`,
    columns: ['pieces', 'stages', 'first s', 'all s', 'sheets', 'bound', 'area', 'ratio'],
    rows: rows.map(({ instance, variant, figures }) => [
      instance.replace('cabinets_', ''),
      variant.replace('turned-', ''),
      (figures.firstMs / 1000).toFixed(2),
      (figures.ms / 1000).toFixed(1),
      whole(figures.sheets),
      whole(figures.bound),
      whole(figures.areaBound ?? 0),
      (figures.sheets / Math.max(1, figures.areaBound ?? 0)).toFixed(4),
    ]),
    notes: ['Ratio: sheets over the area bound rounded up.', ...commonNotes(report, rows)],
  };
}
