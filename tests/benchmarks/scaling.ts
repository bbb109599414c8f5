import { fromMm } from '../../src/model/units.ts';
import { cabinetPieces } from '../packing/cabinet-pieces.ts';
import { jobOf, QUARTERS } from '../packing/jobs.ts';
import type { Benchmark, Report } from './benchmark.ts';
import { growthExponent } from './growth-exponent.ts';
import { commonNotes } from './notes.ts';
import { type PackedFigures, packed } from './packed.ts';
import { seconds, type Table, whole } from './table.ts';

interface Figures extends PackedFigures {
  readonly areaBound: number;
  /** The most memory of the process, and what it had before the search. */
  readonly peakMb: number;
  readonly startMb: number;
}

const SIZES = [100, 300, 1000, 3000, 10_000];
const SHEET = { length: 2440, width: 1220 };

/** How time and memory grow with the number of pieces; each size has a process of its own. */
export const scaling: Benchmark<Figures> = {
  variants: ['turned'],
  ownProcess: true,
  instances: () => SIZES.map(String),
  measure: () => (task) => {
    const pieces = cabinetPieces(Number(task.instance), 1);
    const areaMm2 = pieces.reduce((sum, { width, height }) => sum + width * height, 0);
    const job = jobOf(
      [{ length: fromMm(SHEET.length), width: fromMm(SHEET.width) }],
      pieces.map(({ width, height }) => ({
        width: fromMm(width),
        height: fromMm(height),
        turns: QUARTERS,
      })),
    );
    const startMb = Math.round(process.resourceUsage().maxRSS / 102.4) / 10;
    const { layout, faults, figures, peakMb } = packed(job, task);
    const areaBound = Math.ceil(areaMm2 / (SHEET.length * SHEET.width));
    return {
      proved: layout.status === 'proved',
      faults,
      figures: { ...figures, areaBound, peakMb, startMb },
    };
  },
  tables: (report) => [scalingTable(report)],
};

function scalingTable(report: Report<Figures>): Table {
  const { rows, request } = report;
  const exponent = (of: (figures: Figures) => number) =>
    growthExponent(rows.map(({ instance, figures }) => ({ x: Number(instance), y: of(figures) })));
  return {
    title: `Cabinet pieces on ${SHEET.length} x ${SHEET.width}, quarter turns, ${request.efforts.join()}`,
    columns: ['pieces', 'first s', 'all s', 'sheets', 'bound', 'area', 'ratio', 'MB', 'MB more'],
    rows: rows.map(({ instance, figures }) => [
      whole(Number(instance)),
      seconds(figures.firstMs),
      seconds(figures.ms),
      whole(figures.sheets),
      whole(figures.bound),
      whole(figures.areaBound),
      (figures.sheets / figures.areaBound).toFixed(4),
      whole(figures.peakMb),
      whole(figures.peakMb - figures.startMb),
    ]),
    notes: [
      'First: to the first layout. Ratio: sheets over the area bound rounded up. MB: the most memory of the process; MB more: above what it had before the search.',
      `Growth with the number of pieces, as its power: first layout ${power(exponent((f) => f.firstMs))}, memory ${power(exponent((f) => f.peakMb))}, memory of the search ${power(exponent((f) => f.peakMb - f.startMb))}.`,
      ...commonNotes(report, rows),
    ],
  };
}

function power(exponent: number): string {
  return Number.isFinite(exponent) ? exponent.toFixed(2) : 'unknown';
}
