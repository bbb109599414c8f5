import { packingTask } from '../../src/packing/bodies.ts';
import { areaBound } from '../../src/packing/bounds/area.ts';
import { dualFeasibleBound } from '../../src/packing/bounds/dual-feasible.ts';
import { CLASSES, classInstance, SIZES } from '../packing/class-instances.ts';
import { jobOf, QUARTERS } from '../packing/jobs.ts';
import type { Benchmark, Report, Row } from './benchmark.ts';
import { maxrectsAlone } from './maxrects-alone.ts';
import { commonNotes } from './notes.ts';
import { type PackedFigures, packed } from './packed.ts';
import { sumOf } from './percentiles.ts';
import { PUBLISHED, type PublishedClass } from './published.ts';
import { type Cell, percent, signed, type Table, whole } from './table.ts';
import { timingsTable } from './timings.ts';

interface Figures extends PackedFigures {
  /** Sheets of the maximal-rectangles library by itself. */
  readonly maxrects: number;
  /** The bound before any search: by area and by dual feasible functions, of which the sums are published. */
  readonly firstBound: number;
}

type Variant = 'still' | 'turned';
type RectangleRow = Row<Figures>;

const NUMBERS = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10] as const;
const WORDS: Readonly<Record<Variant, string>> = { still: 'not turned', turned: 'quarter turns' };

/** The 500 published instances, beside what is published of them and beside the maximal-rectangles library by itself. */
export const rectangles: Benchmark<Figures> = {
  variants: ['still', 'turned'],
  ownProcess: false,
  instances: () =>
    CLASSES.flatMap((group) =>
      SIZES.flatMap((size) => NUMBERS.map((number) => `${group}_${size}_${number}`)),
    ),
  measure: () => (task) => {
    const [group = 0, size = 0, number = 0] = task.instance.split('_').map(Number);
    const { side, pieces } = classInstance(group, size, number);
    const mayTurn = task.variant === 'turned';
    const turns = mayTurn ? QUARTERS : [0];
    const job = jobOf(
      [{ length: side, width: side }],
      pieces.map((piece) => ({ ...piece, turns })),
    );
    const { layout, faults, figures } = packed(job, task);
    const maxrects = maxrectsAlone({ width: side, height: side }, pieces, mayTurn);
    const own = packingTask(job, 0);
    const firstBound = Math.max(areaBound(own), dualFeasibleBound(own));
    return {
      proved: layout.status === 'proved',
      faults,
      figures: { ...figures, maxrects, firstBound },
    };
  },
  tables: (report) =>
    (['still', 'turned'] as const).flatMap((variant) => {
      const rows = report.rows.filter((row) => row.variant === variant);
      return rows.length === 0 ? [] : [sheetsTable(report, variant, rows), timingsTable(rows)];
    }),
};

function sheetsTable(
  report: Report<Figures>,
  variant: Variant,
  rows: readonly RectangleRow[],
): Table {
  const byClass = CLASSES.flatMap((group) => {
    const own = rows.filter(({ instance }) => instance.startsWith(`${group}_`));
    return own.length === 0 ? [] : [line(String(group), variant, own)];
  });
  const best = variant === 'still' ? ['best'] : [];
  return {
    title: `Published bin packing instances, ${WORDS[variant]}, ${report.request.efforts.join()}: sheets`,
    columns: [
      'class',
      'runs',
      'sheets',
      'published',
      ...best,
      'more',
      'bound',
      'proved',
      'maxrects',
      'margin',
    ],
    rows: [...byClass, line('all', variant, rows)],
    notes: [
      boundNote(variant, rows),
      ...differencesNotes(variant, rows),
      'More: sheets above those published. Margin: how many fewer sheets than the library maxrects-packer needs by itself, at the best of its position rules and all sort orders.',
      ...commonNotes(report, rows),
    ],
  };
}

function line(name: string, variant: Variant, rows: readonly RectangleRow[]): Cell[] {
  const sheets = sumOf(rows.map(({ figures }) => figures.sheets));
  const maxrects = sumOf(rows.map(({ figures }) => figures.maxrects));
  const published = publishedFor(variant, rows);
  const best = variant === 'still' ? [orNone(publishedFor('stillBest', rows))] : [];
  return [
    name,
    whole(rows.length),
    whole(sheets),
    orNone(published),
    ...best,
    published === null ? null : signed(sheets - published),
    whole(sumOf(rows.map(({ figures }) => figures.bound))),
    percent(rows.filter(({ proved }) => proved).length / rows.length),
    whole(maxrects),
    percent(1 - sheets / maxrects),
  ];
}

function boundNote(variant: Variant, rows: readonly RectangleRow[]): string {
  const published = publishedFor(`${variant}Bound`, rows);
  const bound = sumOf(rows.map(({ figures }) => figures.firstBound));
  const raised = sumOf(rows.map(({ figures }) => figures.bound)) - bound;
  if (published === null)
    return 'What is published are sums over the ten instances of a class and size; here not all tens are complete.';
  return bound === published
    ? `The first bounds add up to the known ${whole(published)}; the linear programme adds ${raised}.`
    : `THE FIRST BOUNDS ADD UP TO ${whole(bound)}, not to the known ${whole(published)}.`;
}

/** Which of the complete tens of a class and size differ from the published sheets. */
function differencesNotes(variant: Variant, rows: readonly RectangleRow[]): string[] {
  const tens = [...tensOf(rows)].filter(([, own]) => own.length === NUMBERS.length);
  const differing = tens.flatMap(([ten, own]) => {
    const sheets = sumOf(own.map(({ figures }) => figures.sheets));
    const more = sheets - (publishedFor(variant, own) ?? 0);
    return more === 0 ? [] : [`${ten} ${signed(more)}`];
  });
  if (tens.length === 0) return [];
  return [`Tens that differ from the published (class_pieces): ${differing.join(', ') || 'none'}.`];
}

/** The published sum for just these rows, or null where a ten is not complete. */
function publishedFor(key: keyof PublishedClass, rows: readonly RectangleRow[]): number | null {
  let sum = 0;
  for (const [ten, own] of tensOf(rows)) {
    const [group = 0, size = 0] = ten.split('_').map(Number);
    if (own.length !== NUMBERS.length) return null;
    sum += PUBLISHED[group - 1]?.[key][(SIZES as readonly number[]).indexOf(size)] ?? Number.NaN;
  }
  return sum;
}

function tensOf(rows: readonly RectangleRow[]): Map<string, RectangleRow[]> {
  const tens = new Map<string, RectangleRow[]>();
  for (const row of rows) {
    const ten = row.instance.replace(/_\d+$/, '');
    tens.set(ten, [...(tens.get(ten) ?? []), row]);
  }
  return tens;
}

function orNone(value: number | null): string | null {
  return value === null ? null : whole(value);
}
