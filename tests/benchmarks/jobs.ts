import { randomFile } from '../properties/whole-jobs/random-file.ts';
import { wholeWay } from '../properties/whole-jobs/whole-way.ts';
import type { Benchmark, Report, Row, Task } from './benchmark.ts';
import { sumOf } from './percentiles.ts';
import { percent, seconds, type Table, whole } from './table.ts';

/** Jobs of a row. */
const BATCH = 100;
const USUAL_COUNT = 10_000;

interface Figures {
  readonly jobs: number;
  readonly planned: number;
  /** Files with problems, and how many of those were made wrong on purpose. */
  readonly problemFiles: number;
  readonly spoiled: number;
  /** How often each kind of problem kept a file from being planned. */
  readonly codes: Readonly<Record<string, number>>;
  /** How many of the plans have each of the kinds. */
  readonly kinds: Readonly<Record<string, number>>;
  readonly pieces: number;
  readonly unplaced: number;
  readonly sheets: number;
  readonly boards: number;
  /** What was wrong with a job, by its number. */
  readonly faulty: Readonly<Record<string, readonly string[]>>;
  /** Of the processor. */
  readonly cpuMs: number;
  readonly slowest: { readonly job: number; readonly cpuMs: number };
}

/** Seeds of jobs lie so far apart that no two seeds of the benchmark share a job. */
const SEED_STEP = 1_000_000;

/** Units of work of each track of the search of a material. */
const WORK = 1e5;

/** What a plan of the table's kinds has in its file. */
const KINDS: Readonly<Record<string, string>> = {
  router: 'router',
  'panel-saw': 'panel saw',
  in: 'inches',
  CRLF: 'line ends of Windows',
  sheets: 'sheets',
  boards: 'boards',
  lumber: 'lumber',
  rack: 'a rack',
  points: 'corners of sheets or parts',
  'keep-out': 'keep-outs',
  pack: 'packs',
  'on-hand': 'stock on hand',
  matched: 'matched sets',
  outline: 'drawings',
  path: 'paths',
  shape: 'discs, rounded parts',
  'cut-outs': 'cut-outs',
  pockets: 'pockets',
  edges: 'edge bands',
  grain: 'grain',
  pods: 'pods',
  gasket: 'gaskets',
  pump: 'pumps',
  'common-cuts': 'common cuts',
  stages: 'counted stages',
  costs: 'costs',
  limits: 'limits',
  labels: 'labels',
  variants: 'variants',
};

/** Random whole jobs, from the text of the parts file to all outputs and back from the record. A row is a batch, so a run that was stopped goes on at the next one. */
export const jobs: Benchmark<Figures> = {
  variants: ['any'],
  ownProcess: false,
  instances: (_, __, count) =>
    Array.from({ length: Math.ceil((count ?? USUAL_COUNT) / BATCH) }, (_, k) =>
      String(k + 1).padStart(3, '0'),
    ),
  measure: () => measured,
  tables: (report) => [jobsTable(report), kindsTable(report)],
};

async function measured({ instance, seed }: Task) {
  const counted = { planned: 0, spoiled: 0, pieces: 0, unplaced: 0, sheets: 0, boards: 0 };
  const codes: Record<string, number> = {};
  const kinds: Record<string, number> = {};
  const faulty: Record<string, readonly string[]> = {};
  let slowest = { job: 0, cpuMs: 0 };
  const start = process.cpuUsage();
  for (let k = 1; k <= BATCH; k++) {
    const number = (Number(instance) - 1) * BATCH + k;
    const before = process.cpuUsage();
    const file = randomFile((seed - 1) * SEED_STEP + number);
    const slow = { pdf: k % 25 === 0, labels: k % 25 === 1, page: k % 25 === 2 };
    const arrived = await wholeWay(file, { work: WORK, slow, twice: k % 4 === 0 });
    const cpuMs = millisecondsSince(before);
    if (cpuMs > slowest.cpuMs) slowest = { job: number, cpuMs };
    for (const key of ['pieces', 'unplaced', 'sheets', 'boards'] as const)
      counted[key] += arrived[key];
    if (arrived.faults.length > 0) faulty[number] = arrived.faults.slice(0, 3);
    for (const code of arrived.problems) codes[code] = (codes[code] ?? 0) + 1;
    if (arrived.problems.length > 0) counted.spoiled += file.isSpoiled ? 1 : 0;
    else {
      counted.planned++;
      for (const key of Object.keys(KINDS))
        kinds[key] = (kinds[key] ?? 0) + (file.has.has(key) ? 1 : 0);
    }
  }
  const problemFiles = BATCH - counted.planned;
  const cpuMs = millisecondsSince(start);
  return {
    proved: false,
    faults: Object.keys(faulty).length,
    figures: { jobs: BATCH, problemFiles, ...counted, codes, kinds, faulty, cpuMs, slowest },
  };
}

function millisecondsSince(before: NodeJS.CpuUsage): number {
  const { user, system } = process.cpuUsage(before);
  return Math.round((user + system) / 1000);
}

function jobsTable({ rows }: Report<Figures>): Table {
  const sum = (pick: (figures: Figures) => number) =>
    sumOf(rows.map(({ figures }) => pick(figures)));
  const all = sum((each) => each.jobs);
  const problemFiles = sum((each) => each.problemFiles);
  const [slowest] = rows
    .map(({ figures }) => figures.slowest)
    .toSorted((a, b) => b.cpuMs - a.cpuMs);
  return {
    title: 'Random whole jobs',
    columns: ['what', 'count'],
    rows: [
      ['jobs', whole(all)],
      ['plans', whole(sum((each) => each.planned))],
      ['files with problems', whole(problemFiles)],
      ['of these made wrong on purpose', whole(sum((each) => each.spoiled))],
      ['pieces laid', whole(sum((each) => each.pieces))],
      ['pieces left over', whole(sum((each) => each.unplaced))],
      ['sheets', whole(sum((each) => each.sheets))],
      ['boards', whole(sum((each) => each.boards))],
      ['jobs with faults', whole(sumOf(rows.map(({ faults }) => faults)))],
      ['processor s', seconds(sum((each) => each.cpuMs))],
      ['of the slowest', seconds(slowest?.cpuMs ?? 0)],
    ],
    notes: [
      `Each read, packed with ${whole(WORK)} units of work a track, checked by three roads, written in all forms (PDF, labels and page one in 25 each), and read back from its record; one in four is planned once more.`,
      `The slowest is job ${slowest?.job}. ${percent(problemFiles / Math.max(1, all))} have problems, each with its place; most often ${mostOf(rows, 'codes', 6)}.`,
      ...rows.flatMap(({ figures }) =>
        Object.entries(figures.faulty).map(
          ([job, said]) => `FAULT in job ${job}: ${said.join('; ')}`,
        ),
      ),
    ],
  };
}

function kindsTable({ rows }: Report<Figures>): Table {
  const counts = totalsOf(rows, 'kinds');
  return {
    title: 'Plans that have',
    columns: ['kind', 'plans'],
    rows: Object.entries(KINDS).map(([key, words]) => [words, whole(counts.get(key) ?? 0)]),
    notes: ['By the keys of their files.'],
  };
}

function mostOf(rows: readonly Row<Figures>[], key: 'codes', count: number): string {
  const sorted = [...totalsOf(rows, key)].toSorted(([, a], [, b]) => b - a);
  return sorted
    .slice(0, count)
    .map(([code, times]) => `${code} (${whole(times)})`)
    .join(', ');
}

function totalsOf(
  rows: readonly Row<Figures>[],
  key: 'codes' | 'kinds',
): ReadonlyMap<string, number> {
  const totals = new Map<string, number>();
  for (const { figures } of rows)
    for (const [name, times] of Object.entries(figures[key]))
      totals.set(name, (totals.get(name) ?? 0) + times);
  return totals;
}
