import { readFileSync } from 'node:fs';
import type { Job } from '../../src/model/job.ts';
import { EFFORTS } from '../../src/model/plan.ts';
import { packBoards } from '../../src/packing/boards/pack-boards.ts';
import { verifyLayout } from '../../src/verify/verify.ts';
import { boardJob } from '../helpers/board-jobs.ts';
import { faultsOfBoards } from '../packing-boards/legal.ts';
import { randomLengths } from '../packing-boards/random-lengths.ts';
import type { Benchmark, Report, Row, Task } from './benchmark.ts';
import { commonNotes } from './notes.ts';
import type { PackedFigures } from './packed.ts';
import { percentile, sumOf } from './percentiles.ts';
import { type Cell, seconds, type Table, whole } from './table.ts';
import { timingsTable } from './timings.ts';

/** An instance as the file has it; pieces are length and count. */
interface Instance {
  readonly id: string;
  readonly length: number;
  readonly pieces: readonly (readonly [number, number])[];
  readonly optimum: number;
}

/** `sheets` are boards here. */
interface Figures extends PackedFigures {
  readonly pieces: number;
  /** Null where none is known. */
  readonly optimum: number | null;
  /** In what the objective counts: boards, or minor units of the currency. */
  readonly used: number;
}

const SINGLE = [{ length: 6000, endTrim: 10 }];
const PRICED = [
  { length: 3000, priceCents: 900, onHand: 40 },
  { length: 4200, priceCents: 1000, onHand: 30 },
  { length: 5400, priceCents: 1560 },
];

/** Jobs of our own, by a seeded rule: their names, and how they are made. */
const OWN: ReadonlyMap<string, () => Job> = new Map([
  ...[1, 2, 3, 4, 5].map((seed) => own(`random_80_${seed}`, 80, 1000, SINGLE, seed)),
  ...[1, 2, 3].map((seed) => own(`random_300_${seed}`, 300, 10_000, SINGLE, seed)),
  ...[1, 2, 3].map((seed) => own(`priced_40_${seed}`, 40, 300, PRICED, seed)),
]);

function own(
  name: string,
  kinds: number,
  pieces: number,
  boards: typeof SINGLE | typeof PRICED,
  seed: number,
): [string, () => Job] {
  return [name, () => boardJob(randomLengths({ kinds, pieces, boards, seed }))];
}

/** Lengths from boards: the instances of a file with known optima, and large jobs of our own. Set of Falkenauer 1996, Journal of Heuristics 2, 5-30. */
export const boards: Benchmark<Figures> = {
  variants: ['still'],
  ownProcess: false,
  instances: (file) => [...readInstances(file).map(({ id }) => id), ...OWN.keys()],
  measure: (file) => {
    const instances = new Map(readInstances(file).map((instance) => [instance.id, instance]));
    return async (task) => {
      const instance = instances.get(task.instance);
      const job = instance === undefined ? OWN.get(task.instance)!() : jobOf(instance);
      return measured(job, task, instance?.optimum ?? null);
    };
  },
  tables: (report) => [boardsTable(report), timingsTable(report.rows)],
};

function readInstances(file: string | null): Instance[] {
  return JSON.parse(readFileSync(file ?? '', 'utf8')).instances;
}

function jobOf({ length, pieces }: Instance): Job {
  return boardJob({ boards: [{ length }], lengths: pieces });
}

async function measured(job: Job, { effort, seed }: Task, optimum: number | null) {
  const known = EFFORTS.find((name) => name === effort);
  if (known === undefined) throw new Error(`no effort ${effort}`);
  const cpu = process.cpuUsage();
  const start = performance.now();
  let firstMs: number | null = null;
  const { layout } = await packBoards(job, 0, {
    effort: known,
    seed,
    shouldStop: () => false,
    onProgress: () => {
      firstMs ??= performance.now() - start;
    },
  });
  const ms = performance.now() - start;
  const { user, system } = process.cpuUsage(cpu);
  const { used, bound, status } = layout;
  const isFalse = optimum !== null && (used < optimum || bound.atLeast > optimum);
  const faults =
    verifyLayout(job, layout).faults.length +
    faultsOfBoards(job, layout).length +
    layout.unplacedLengths.length;
  return {
    proved: status === 'proved',
    // Better than an optimum is as wrong as a bound above it.
    faults: faults + Number(isFalse),
    figures: {
      pieces: job.lengthParts.reduce((sum, { count }) => sum + count, 0),
      optimum,
      sheets: layout.boards.length,
      used,
      bound: bound.atLeast,
      firstMs: Math.round(10 * (firstMs ?? ms)) / 10,
      ms: Math.round(10 * ms) / 10,
      cpuMs: Math.round((user + system) / 100) / 10,
    },
  };
}

function boardsTable(report: Report<Figures>): Table {
  const { rows, request } = report;
  const groups = [...new Set(rows.map(({ instance }) => groupOf(instance)))];
  return {
    title: `Lengths from boards, ${request.efforts.join()}`,
    columns: ['group', 'runs', 'pieces', 'boards', 'used', 'bound', 'optimum', 'proved', 'most s'],
    rows: groups.map((group) =>
      line(
        group,
        rows.filter(({ instance }) => groupOf(instance) === group),
      ),
    ),
    notes: [
      'Sums over the runs of a group. Used and bound are boards, or minor units of the currency where boards are priced.',
      ...commonNotes(report, rows),
    ],
  };
}

function groupOf(instance: string): string {
  return instance.replace(/_\d+$/, '');
}

function line(name: string, rows: readonly Row<Figures>[]): Cell[] {
  const sum = (key: 'pieces' | 'sheets' | 'used' | 'bound') =>
    whole(sumOf(rows.map(({ figures }) => figures[key])));
  const optima = rows.flatMap(({ figures }) => figures.optimum ?? []);
  return [
    name,
    whole(rows.length),
    sum('pieces'),
    sum('sheets'),
    sum('used'),
    sum('bound'),
    optima.length < rows.length ? null : whole(sumOf(optima)),
    whole(rows.filter(({ proved }) => proved).length),
    seconds(
      percentile(
        rows.map(({ figures }) => figures.ms),
        1,
      ),
    ),
  ];
}
