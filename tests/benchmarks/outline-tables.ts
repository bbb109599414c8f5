import type { Report, Row } from './benchmark.ts';
import { growthExponent } from './growth-exponent.ts';
import { SLACK_MM } from './library-check.ts';
import { faultsNote } from './notes.ts';
import { knownTargetOf, targetOf } from './outline-targets.ts';
import type { OutlineFigures } from './outlines.ts';
import { percentile, sumOf } from './percentiles.ts';
import { type Cell, percent, seconds, type Table, whole } from './table.ts';

type Rows = readonly Row<OutlineFigures>[];

/** Of each amount of work the strips, the jobs without waste, and the jobs on sheets, as far as there are any. */
export function outlineTables({ request, rows }: Report<OutlineFigures>): Table[] {
  return request.efforts.flatMap((work) => {
    const of = (...groups: readonly OutlineFigures['group'][]) =>
      rows.filter(({ effort, figures }) => effort === work && groups.includes(figures.group));
    const known = of('known');
    const tables = [
      { rows: of('strip'), table: () => stripsTable(of('strip'), work, request.seeds) },
      { rows: known, table: () => knownTable(known, work) },
      { rows: known, table: () => knownSummary(known, work) },
      { rows: of('kitchen', 'growth'), table: () => sheetsTable(of('kitchen', 'growth'), work) },
    ];
    return tables.flatMap((one) => (one.rows.length > 0 ? [one.table()] : []));
  });
}

function stripsTable(rows: Rows, work: string, seeds: readonly number[]): Table {
  const lines = namesOf(rows).map((name) => stripLine(name, rows, work, seeds));
  return {
    title: `Strips with ${work} units of work in each of two tracks: density in percent`,
    columns: [
      'strip',
      ...['avg', 'best', 'target', 'mean', 'reached', 's'],
      ...seeds.map((seed) => `seed ${seed}`),
    ],
    rows: lines,
    notes: [
      'Avg and best: as published, ~ from memory. Mean: of the seeds. Reached: whether the mean, rounded to the digit of the target, is not under it, or by how much it is. s: seconds of the processor, both tracks one after the other, mean.',
      ...commonNotes(rows),
    ],
  };
}

function stripLine(name: string, rows: Rows, work: string, seeds: readonly number[]): Cell[] {
  const own = rows.filter(({ instance }) => instance === name);
  const mean = meanOf(own.map(({ figures }) => figures.density ?? Number.NaN));
  const target = targetOf(name, Number(work));
  const published = own[0]?.figures.published ?? null;
  const mark = published?.fromMemory ? '~' : '';
  const quoted = (value: number | undefined) =>
    value === undefined ? null : `${mark}${value.toFixed(2)}`;
  return [
    name,
    quoted(published?.average),
    quoted(published?.best),
    target?.toFixed(1) ?? null,
    mean.toFixed(2),
    target === null ? null : reached(mean, target),
    seconds(meanOf(own.map(({ figures }) => figures.cpuMs))),
    ...seeds.map(
      (wanted) => own.find(({ seed }) => seed === wanted)?.figures.density?.toFixed(2) ?? null,
    ),
  ];
}

/** Against a target of one digit: yes, or what is missing. */
export function reached(mean: number, target: number): string {
  return Math.round(10 * mean) >= Math.round(10 * target) ? 'yes' : (mean - target).toFixed(2);
}

function knownTable(rows: Rows, work: string): Table {
  const over = (name: string, variant: string): Cell => {
    const own = rows.filter((row) => row.instance === name && row.variant === variant);
    return own.length === 0 ? null : own.map((row) => overOptimum(row).toString()).join(' ');
  };
  return {
    title: `Jobs that fill their sheets without waste, ${work} units of work in each of two tracks: sheets over the fewest`,
    columns: ['job', 'pieces', 'fewest', 'still', 'turned'],
    rows: namesOf(rows).map((name) => {
      const { figures } = rows.find(({ instance }) => instance === name)!;
      const fewest = whole(figures.optimum ?? 0);
      const cells = [over(name, 'still'), over(name, 'turned')];
      return [name.replace(/^sheets_/, ''), whole(figures.pieces), fewest, ...cells];
    }),
    notes: ['One figure a seed; turned: by quarters.', ...commonNotes(rows)],
  };
}

function knownSummary(rows: Rows, work: string): Table {
  const target = knownTargetOf(Number(work));
  const lines = (['still', 'turned'] as const).flatMap((variant): Cell[][] => {
    const own = rows.filter((row) => row.variant === variant);
    if (own.length === 0) return [];
    const share = (suits: (over: number) => boolean) =>
      own.filter((row) => suits(overOptimum(row))).length / own.length;
    const solved = share((over) => over === 0);
    const aim = target?.[variant] ?? null;
    return [
      [
        variant,
        whole(own.length),
        percent(solved),
        percent(share((over) => over === 1)),
        percent(share((over) => over > 1)),
        aim === null ? null : percent(aim),
        aim === null ? null : solved >= aim ? 'yes' : `${(100 * (solved - aim)).toFixed(1)}`,
        seconds(meanOf(own.map(({ figures }) => figures.cpuMs))),
      ],
    ];
  });
  return {
    title: 'Shares of these jobs',
    columns: ['turns', 'runs', 'fewest', 'one over', 'more over', 'target', 'reached', 's'],
    rows: lines,
    notes: ['Target: the share with the fewest sheets. s: seconds of the processor, mean.'],
  };
}

function overOptimum({ figures }: Row<OutlineFigures>): number {
  return figures.sheets - (figures.optimum ?? 0);
}

function sheetsTable(rows: Rows, work: string): Table {
  const growth = rows.filter(({ figures }) => figures.group === 'growth');
  const power = (of: (figures: OutlineFigures) => number) => {
    const exponent = growthExponent(
      growth.map(({ figures }) => ({ x: figures.pieces, y: of(figures) })),
    );
    return Number.isFinite(exponent) ? exponent.toFixed(2) : 'unknown';
  };
  return {
    title: `On sheets of 2440 x 1220, spacing 6.35 mm, ${work} units of work in each of two tracks`,
    columns: ['job', 'pieces', 'seed', 'sheets', 'bound', 'area', 'last', 'first s', 's', 'M/s'],
    rows: rows.map(({ instance, seed, proved, figures }) => [
      instance,
      whole(figures.pieces),
      seed.toString(),
      `${proved ? '*' : ''}${whole(figures.sheets)}`,
      whole(figures.bound),
      whole(figures.areaBound),
      percent(figures.lastUse),
      seconds(figures.firstMs),
      seconds(figures.cpuMs),
      millionsPerSecond(figures).toFixed(1),
    ]),
    notes: [
      'Bound: by all means, * where the sheets reach it; area: by the area alone. Last: how far the last sheet is used, along its length or its width, whichever is less. First: to the first layout, by the clock; s: of the processor. M/s: millions of units of work in a second.',
      ...(growth.length > 0
        ? [
            `Growth with the number of pieces, as its power: first layout ${power((f) => f.firstMs)}, all seconds ${power((f) => f.cpuMs)}, seconds for a unit of work ${power((f) => f.cpuMs / f.work)}.`,
          ]
        : []),
      ...commonNotes(rows),
    ],
  };
}

function commonNotes(rows: Rows): string[] {
  const speeds = rows.map(({ figures }) => millionsPerSecond(figures));
  const [least, median, most] = [0, 0.5, 1].map((share) => percentile(speeds, share).toFixed(1));
  return [
    `Millions of units of work in a second of the processor: ${median} in the middle, ${least} to ${most}.`,
    `${faultsNote(rows)} The second one is a geometry library's, with a slack of ${SLACK_MM} mm.`,
  ];
}

function millionsPerSecond({ work, cpuMs }: OutlineFigures): number {
  return work / 1000 / Math.max(1, cpuMs);
}

function namesOf(rows: Rows): string[] {
  return [...new Set(rows.map(({ instance }) => instance))];
}

function meanOf(values: readonly number[]): number {
  return sumOf(values) / values.length;
}
