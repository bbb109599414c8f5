import { readFileSync } from 'node:fs';
import { fromMm } from '../../src/model/units.ts';
import { jobOf, QUARTERS } from '../packing/jobs.ts';
import type { Benchmark, Report, Row } from './benchmark.ts';
import { commonNotes } from './notes.ts';
import { type PackedFigures, packed } from './packed.ts';
import { sumOf } from './percentiles.ts';
import { type Cell, type Table, whole } from './table.ts';
import { timingsTable } from './timings.ts';

/** An order as the file has it, in mm; parts are length, width and count. */
export interface Order {
  readonly id: string;
  readonly sheet: readonly [number, number];
  readonly parts: readonly (readonly [number, number, number])[];
  readonly bounds: {
    readonly LB_area: number;
    readonly LB_dff_oriented: number;
    readonly shelf_best_oriented: number;
  };
}

/** What the file says goes into the rows, so that the tables need no file. */
interface Figures extends PackedFigures {
  readonly pieces: number;
  readonly areaBound: number;
  readonly dualFeasibleBound: number;
  readonly shelf: number;
}

/** Orders of furniture makers, beside bounds and a simple level heuristic. Set of Macedo, Alves & Valério de Carvalho 2010, Computers & OR 37, 991-1001. */
export const furniture: Benchmark<Figures> = {
  variants: ['still', 'turned'],
  ownProcess: false,
  instances: (file) => readOrders(file).map(({ id }) => id),
  measure: (file) => {
    const orders = new Map(readOrders(file).map((order) => [order.id, order]));
    return (task) => {
      const { sheet, parts, bounds } = orders.get(task.instance)!;
      const job = jobOf(
        [{ length: fromMm(sheet[0]), width: fromMm(sheet[1]) }],
        parts.map(([length, width, count]) => ({
          width: fromMm(length),
          height: fromMm(width),
          count,
          turns: task.variant === 'turned' ? QUARTERS : [0],
        })),
      );
      const { layout, faults, figures } = packed(job, task);
      const told = {
        pieces: job.pieces.length,
        areaBound: bounds.LB_area,
        dualFeasibleBound: bounds.LB_dff_oriented,
        shelf: bounds.shelf_best_oriented,
      };
      return { proved: layout.status === 'proved', faults, figures: { ...figures, ...told } };
    };
  },
  tables: (report) => [sheetsTable(report), timingsTable(report.rows)],
};

export function readOrders(file: string | null): Order[] {
  return JSON.parse(readFileSync(file ?? '', 'utf8')).instances;
}

function sheetsTable(report: Report<Figures>): Table {
  const { rows, request } = report;
  const ids = [...new Set(rows.map(({ instance }) => instance))];
  const lines = ids.map((id) =>
    line(
      id,
      rows.filter(({ instance }) => instance === id),
    ),
  );
  return {
    title: `Orders of furniture makers, ${request.efforts.join()}: sheets (* proved)`,
    columns: ['order', 'pieces', 'still', 'bound', 'given', 'shelf', 'turned', 'bound', 'area'],
    rows: [...lines, line('all', rows)],
    notes: [
      'Still: no piece is turned; given: the bound of the file for that; shelf: its level heuristic, not turned; area: its area bound.',
      ...ratioNotes(rows),
      ...commonNotes(report, rows),
    ],
  };
}

function line(name: string, rows: readonly Row<Figures>[]): Cell[] {
  const still = rows.filter(({ variant }) => variant === 'still');
  const turned = rows.filter(({ variant }) => variant === 'turned');
  const either = still.length > 0 ? still : turned;
  const sum = (of: readonly Row<Figures>[], key: keyof Figures) =>
    of.length === 0 ? null : whole(sumOf(of.map(({ figures }) => figures[key])));
  const sheets = (of: readonly Row<Figures>[]) => {
    const total = sum(of, 'sheets');
    return total === null ? null : `${of.every(({ proved }) => proved) ? '*' : ''}${total}`;
  };
  return [
    name,
    sum(either, 'pieces'),
    sheets(still),
    sum(still, 'bound'),
    sum(either, 'dualFeasibleBound'),
    sum(either, 'shelf'),
    sheets(turned),
    sum(turned, 'bound'),
    sum(either, 'areaBound'),
  ];
}

function ratioNotes(rows: readonly Row<Figures>[]): string[] {
  return ['still', 'turned'].flatMap((variant) => {
    const own = rows.filter((row) => row.variant === variant);
    if (own.length === 0) return [];
    const sheets = sumOf(own.map(({ figures }) => figures.sheets));
    const bounds = sumOf(own.map(({ figures }) => figures.bound));
    const proved = own.filter((row) => row.proved).length;
    const ratio = (sheets / bounds).toFixed(4);
    return [
      `${variant === 'still' ? 'Still' : 'Turned'}: sheets over bounds ${ratio}, ${proved} of ${own.length} proved.`,
    ];
  });
}
