import { boxOfShape, placeShape } from '../../src/geometry/pose.ts';
import type { Job } from '../../src/model/job.ts';
import type { Layout } from '../../src/model/layout.ts';
import { usableBox } from '../../src/model/stock.ts';
import { fromMm } from '../../src/model/units.ts';
import { pack } from '../../src/packing/pack.ts';
import { jobOf, QUARTERS } from '../packing/jobs.ts';
import { sawnJob } from '../packing-panelsaw/saws.ts';
import type { Benchmark, Report, Row, Task } from './benchmark.ts';
import { readOrders } from './furniture.ts';
import { commonNotes } from './notes.ts';
import { type PackedFigures, packed } from './packed.ts';
import { sumOf } from './percentiles.ts';
import { type Table, whole } from './table.ts';

interface Figures extends PackedFigures {
  /** The widest strip as long or as wide as a sheet that no piece is on, as a share of the sheet: when the number of sheets was found, and at the end. */
  readonly foundShare: number;
  readonly endShare: number;
}

/** What is left over in one piece: when the fewest sheets were first found, against the end of the same search. */
export const leftover: Benchmark<Figures> = {
  variants: ['router', 'saw'],
  ownProcess: false,
  instances: (file) => readOrders(file).map(({ id }) => id),
  measure: (file) => {
    const orders = new Map(readOrders(file).map((order) => [order.id, order]));
    return (task) => {
      const { sheet, parts } = orders.get(task.instance)!;
      const stocks = [{ length: fromMm(sheet[0]), width: fromMm(sheet[1]) }];
      const sketches = parts.map(([length, width, count]) => {
        return { width: fromMm(length), height: fromMm(width), count, turns: QUARTERS };
      });
      const cut = task.variant === 'saw' ? sawnJob(stocks, sketches) : jobOf(stocks, sketches);
      const job: Job = { ...cut, offcuts: { ...cut.offcuts, prefer: 'strips' } };
      const { layout, faults, figures } = packed(job, task);
      const found = stripShare(job, foundLayout(job, task, layout.sheets.length));
      const shares = { foundShare: found, endShare: stripShare(job, layout) };
      return { proved: layout.status === 'proved', faults, figures: { ...figures, ...shares } };
    };
  },
  tables: (report) => [leftoverTable(report)],
};

/** The same search, stopped as soon as it has so few sheets. */
function foundLayout(job: Job, { effort, seed }: Pick<Task, 'effort' | 'seed'>, sheets: number) {
  let fewest = Number.POSITIVE_INFINITY;
  return pack(job, 0, {
    effort: effort === 'normal' || effort === 'long' ? effort : 'quick',
    seed,
    shouldStop: () => fewest <= sheets,
    onProgress: ({ used }) => {
      fewest = Math.min(fewest, used ?? fewest);
    },
  }).layout;
}

function stripShare(job: Job, { sheets }: Layout): number {
  const strips = sheets.map(({ stock, placements }) => {
    const { minX, minY, maxX, maxY } = usableBox(job.materials[0]!.sheets[stock]!);
    const boxes = placements.map((placement) =>
      boxOfShape(placeShape(job.parts[job.pieces[placement.piece]!.part]!.shape, placement)),
    );
    const across = boxes.map((box) => [box.minX, box.maxX] as const);
    const along = boxes.map((box) => [box.minY, box.maxY] as const);
    return Math.max(
      widestGap(across, minX, maxX) / (maxX - minX),
      widestGap(along, minY, maxY) / (maxY - minY),
    );
  });
  return Math.max(...strips);
}

/** The longest stretch between two ends that no interval covers any of. */
function widestGap(
  intervals: readonly (readonly [number, number])[],
  from: number,
  to: number,
): number {
  let widest = 0;
  let reached = from;
  for (const [start, end] of intervals.toSorted(([a], [b]) => a - b)) {
    widest = Math.max(widest, start - reached);
    reached = Math.max(reached, end);
  }
  return Math.max(widest, to - reached);
}

function leftoverTable(report: Report<Figures>): Table {
  const { rows, request } = report;
  // One sheet is all there is: nothing can be moved elsewhere.
  const several = rows.filter(({ figures }) => figures.sheets >= 2);
  const ids = [...new Set(several.map(({ instance }) => instance))];
  const line = (name: string, own: readonly Row<Figures>[]) => [
    name,
    ...['router', 'saw'].flatMap((variant) => {
      const of = own.filter((row) => row.variant === variant);
      if (of.length === 0) return [null, null, null];
      const mean = (key: 'foundShare' | 'endShare') =>
        `${((100 * sumOf(of.map(({ figures }) => figures[key]))) / of.length).toFixed(1)} %`;
      return [
        whole(sumOf(of.map(({ figures }) => figures.sheets))),
        mean('foundShare'),
        mean('endShare'),
      ];
    }),
  ];
  return {
    title: `Orders of furniture makers, quarter turns, ${request.efforts.join()}: widest strip left over, as a share of a sheet`,
    columns: ['order', 'router', 'found', 'end', 'saw', 'found', 'end'],
    rows: [
      ...ids.map((id) =>
        line(
          id,
          several.filter(({ instance }) => instance === id),
        ),
      ),
      line('all', several),
    ],
    notes: [
      'Strips are preferred (`offcuts: { prefer: strips }`). Found: when the search first had so few sheets; end: after the whole search. All: sums of sheets, means of shares.',
      ...commonNotes(report, several),
    ],
  };
}
