import { CODES } from '../fuzz/corpus.ts';
import { READERS, type ReaderName, readersOf } from '../fuzz/readers.ts';
import { type BatchResult, MOST_MS, runInputs } from '../fuzz/run-inputs.ts';
import type { Benchmark, Report, Row } from './benchmark.ts';
import { sumOf } from './percentiles.ts';
import { type Table, whole } from './table.ts';

interface Figures extends BatchResult {
  readonly inputs: number;
  /** Of the processor, over all inputs with what is made for them. */
  readonly cpuMs: number;
}

/** Inputs of one row, so that a run that was stopped goes on where it was. */
const BATCH = 1000;
const USUAL_COUNT = 100_000;

/** Inputs drawn at random through every reader: nothing may be thrown, and what is wrong is told with its place, in a line. */
export const fuzz: Benchmark<Figures> = {
  variants: ['drawn'],
  ownProcess: false,
  instances: (_, __, count) =>
    // By turns, so that a run that was stopped has tried them all.
    Array.from({ length: Math.ceil((count ?? USUAL_COUNT) / BATCH) }, (_, k) =>
      READERS.map((name) => `${name}_${k + 1}`),
    ).flat(),
  measure: (_, root) => {
    const making = readersOf(root);
    return async ({ instance, seed }) => {
      const [name, batch] = instance.split('_') as [ReaderName, string];
      const start = processorMs();
      const from = (Number(batch) - 1) * BATCH;
      const reader = (await making)[name];
      const result = await runInputs(reader, { name, seed, from, count: BATCH }, processorMs);
      return {
        proved: false,
        faults: result.faults.length + result.over,
        figures: { ...result, inputs: BATCH, cpuMs: Math.round(processorMs() - start) },
      };
    };
  },
  tables: (report) => [readersTable(report), codesTable(report)],
};

function processorMs(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

function readersTable({ rows, request }: Report<Figures>): Table {
  const names = READERS.filter((name) => rows.some((row) => nameOf(row) === name));
  const faults = rows.flatMap((row) =>
    row.figures.faults.map(
      ({ input, what }) => `${nameOf(row)}:${row.seed}:${input} ${what.split('\n')[0]}`,
    ),
  );
  return {
    title: 'Inputs drawn at random, by what reads them',
    columns: [
      'reader',
      'inputs',
      'read',
      'refused',
      'planned',
      'thrown',
      'faults',
      'slowest ms',
      'its input',
      'processor s',
    ],
    rows: names.map((name) => {
      const own = rows.filter((row) => nameOf(row) === name);
      const sum = (of: (figures: Figures) => number) =>
        sumOf(own.map(({ figures }) => of(figures)));
      const slowest = own.reduce((a, b) => (b.figures.slowestMs > a.figures.slowestMs ? b : a));
      const [inputs, read, thrown] = [
        sum((f) => f.inputs),
        sum((f) => f.read),
        sum((f) => f.exceptions),
      ];
      return [
        name,
        ...[
          inputs,
          read,
          inputs - read - thrown,
          sum((f) => f.planned),
          thrown,
          sumOf(own.map((row) => row.faults)),
        ].map(whole),
        whole(slowest.figures.slowestMs),
        `${name}:${slowest.seed}:${slowest.figures.slowest}`,
        whole(sum((f) => f.cpuMs) / 1000),
      ];
    }),
    notes: [
      `A fault is anything thrown, a problem without code, place or plain line, a job that breaks what every stage takes for granted, a plan of one that does not verify, or over ${whole(MOST_MS)} ms of the processor.`,
      `FUZZ=<its input> npx vitest run --config tests/vitest.config.ts tests/fuzz makes one again; seed ${request.seeds.join(', ')}.`,
      ...(faults.length === 0
        ? ['No faults.']
        : [`${faults.length} FAULTS:`, ...faults.slice(0, 40)]),
    ],
  };
}

/** Which of the known codes were told at all: a fuzz that does not come by them says nothing of them. */
function codesTable({ rows }: Report<Figures>): Table {
  const told = new Map<string, number>();
  const texts = rows.filter((row) => nameOf(row) !== 'record' && nameOf(row) !== 'csv');
  for (const { figures } of texts)
    for (const [code, count] of Object.entries(figures.codes))
      told.set(code, (told.get(code) ?? 0) + count);
  const missing = [...CODES].filter((code) => !told.has(code));
  const kinds = (name: ReaderName) =>
    new Set(
      rows
        .filter((row) => nameOf(row) === name)
        .flatMap(({ figures }) => Object.keys(figures.codes)),
    ).size;
  return {
    title: 'Codes of problems that came up, the rarest first',
    columns: ['code', 'inputs'],
    rows: [...told].toSorted((a, b) => a[1] - b[1]).map(([code, count]) => [code, whole(count)]),
    notes: [
      `${CODES.size - missing.length} of ${CODES.size} codes of files and drawings; ${kinds('record')} kinds of faults of records, ${kinds('csv')} kinds of troubles of lists.`,
      ...(missing.length === 0 ? [] : [`Never: ${missing.join(', ')}.`]),
    ],
  };
}

function nameOf({ instance }: Row<Figures>): string {
  return instance.slice(0, instance.indexOf('_'));
}
