import type { Row } from './benchmark.ts';
import type { PackedFigures } from './packed.ts';
import { percentile, sumOf } from './percentiles.ts';
import { seconds, type Table, whole } from './table.ts';

/** How long the runs took: all of them, and those that ended with a proof. */
export function timingsTable(rows: readonly Row<PackedFigures>[]): Table {
  const proved = rows.filter((row) => row.proved);
  const line = (name: string, of: readonly number[]) => [
    name,
    whole(of.length),
    ...[0.5, 0.9, 0.99, 1].map((share) => seconds(percentile(of, share))),
    seconds(sumOf(of)),
  ];
  return {
    title: 'Seconds for an instance',
    columns: ['of', 'runs', 'median', 'p90', 'p99', 'most', 'sum'],
    rows: [
      line(
        'the proved',
        proved.map(({ figures }) => figures.ms),
      ),
      line(
        'all',
        rows.map(({ figures }) => figures.ms),
      ),
      line(
        'all, processor time',
        rows.map(({ figures }) => figures.cpuMs),
      ),
    ],
    notes: [],
  };
}
