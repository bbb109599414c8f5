import { readFileSync } from 'node:fs';
import { boxOfShape, placeShape } from '../../src/geometry/pose.ts';
import type { Job } from '../../src/model/job.ts';
import type { Layout } from '../../src/model/layout.ts';
import { fromMm } from '../../src/model/units.ts';
import { jobOf, QUARTERS } from '../packing/jobs.ts';
import type { Benchmark, Report, Row } from './benchmark.ts';
import { commonNotes } from './notes.ts';
import { type PackedFigures, packed } from './packed.ts';
import { sumOf } from './percentiles.ts';
import { type Table, whole } from './table.ts';
import { timingsTable } from './timings.ts';

/** A strip as the file has it: `optimum` is the length that all items fill without waste. */
interface Strip {
  readonly id: string;
  readonly width: number;
  readonly optimum: number;
  readonly items: readonly (readonly [number, number])[];
}

interface Figures extends PackedFigures {
  readonly pieces: number;
  readonly used: number;
  readonly optimum: number;
}

/** One unit of the file, so that the longest sheet stays within the longest allowed. */
const UNIT = fromMm(3);

/** Length of the sheet over the optimum. On a shorter one the search may as well keep a strip along the sheet free as one across its end; on this, no strip of the same area along it would take the largest items. */
const LENGTHS = 9;

/** Rectangles on one long sheet: how much of its length they use. Set of Hopper & Turton 2001, EJOR 128, 34-57. */
export const strips: Benchmark<Figures> = {
  variants: ['turned'],
  ownProcess: false,
  instances: (file) => readStrips(file).map(({ id }) => id),
  measure: (file) => {
    const all = new Map(readStrips(file).map((strip) => [strip.id, strip]));
    return (task) => {
      const { width, optimum, items } = all.get(task.instance)!;
      const job = jobOf(
        [{ length: LENGTHS * optimum * UNIT, width: width * UNIT }],
        items.map(([w, h]) => ({ width: w * UNIT, height: h * UNIT, turns: QUARTERS })),
      );
      const { layout, faults, figures } = packed(job, task);
      const used = usedLength(job, layout) / UNIT;
      return {
        proved: used === optimum,
        faults,
        figures: { ...figures, pieces: items.length, used, optimum },
      };
    };
  },
  tables: (report) => [instancesTable(report), classesTable(report), timingsTable(report.rows)],
};

function readStrips(file: string | null): Strip[] {
  return JSON.parse(readFileSync(file ?? '', 'utf8')).instances;
}

/** Up to where the pieces reach; sheets after the first count in full. */
function usedLength(job: Job, { sheets }: Layout): number {
  const length = job.materials[0]?.sheets[0]?.length ?? 0;
  const ends = (sheets[0]?.placements ?? []).map((placement) => {
    const part = job.parts[job.pieces[placement.piece]?.part ?? -1];
    return part === undefined ? 0 : boxOfShape(placeShape(part.shape, placement)).maxX;
  });
  return Math.max(...ends) + Math.max(0, sheets.length - 1) * length;
}

function instancesTable(report: Report<Figures>): Table {
  return {
    title: `Strips without waste, quarter turns, ${report.request.efforts.join()}: used length`,
    columns: ['strip', 'pieces', 'used', 'optimum', 'over %'],
    rows: report.rows.map(({ instance, figures }) => [
      instance,
      whole(figures.pieces),
      figures.used.toString(),
      whole(figures.optimum),
      overPercent(figures).toFixed(2),
    ]),
    notes: commonNotes(report, report.rows),
  };
}

function classesTable({ rows }: Report<Figures>): Table {
  const names = [...new Set(rows.map(({ instance }) => classOf(instance)))];
  const line = (name: string, own: readonly Row<Figures>[]) => [
    name,
    whole(own.length),
    (sumOf(own.map(({ figures }) => overPercent(figures))) / own.length).toFixed(2),
  ];
  const classes = names.map((name) =>
    line(
      name,
      rows.filter(({ instance }) => classOf(instance) === name),
    ),
  );
  return {
    title: 'Mean over the optimum, in percent',
    columns: ['class', 'strips', 'over %'],
    rows: [...classes, line('all', rows)],
    notes: [],
  };
}

function classOf(instance: string): string {
  return instance.replace(/_.*$/, '');
}

function overPercent({ used, optimum }: Figures): number {
  return 100 * (used / optimum - 1);
}
