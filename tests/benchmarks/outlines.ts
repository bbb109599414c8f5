import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { packingTask } from '../../src/packing/bodies.ts';
import type { PackingTask } from '../../src/packing/task.ts';
import { type Run, runTask } from '../packing-outlines/pack.ts';
import { faultsOf } from '../packing-outlines/second-look.ts';
import { densityOf, isStrip, type Strip, stripTask } from '../packing-outlines/strips.ts';
import { workshopJob } from '../packing-outlines/workshop-job.ts';
import type { Benchmark, Report, Row } from './benchmark.ts';
import { faultsNote } from './notes.ts';
import { sumOf } from './percentiles.ts';
import { seconds, type Table } from './table.ts';

interface Figures {
  /** Of a strip: the share of its used length that the items fill, in percent. */
  readonly density: number | null;
  /** Of the workshop's job: of each sheet the share of its length up to which it is used. */
  readonly uses: readonly number[];
  readonly cpuMs: number;
}

const WORKSHOP = 'workshop';

/** A unit of a strip file is taken as a millimetre, or a tenth of one where the strip is too wide for a sheet. */
const MOST_WIDTH = 1500;

/** The engine of outlines by itself: strips (by default those of the tests), and a job of 40 rectangles and 20 curved pieces. */
export const outlines: Benchmark<Figures> = {
  variants: ['free'],
  ownProcess: false,
  instances: (file, root) => [...readStrips(file, root).keys(), WORKSHOP],
  measure: (file, root) => {
    const strips = readStrips(file, root);
    return ({ instance, effort, seed }) => {
      const strip = strips.get(instance);
      const mm = strip && strip.stripWidth > MOST_WIDTH ? 0.1 : 1;
      const task = strip ? stripTask(strip, mm) : packingTask(workshopJob(), 0);
      const start = process.cpuUsage().user;
      const { candidate } = runTask(task, { work: Number(effort), seed });
      const cpuMs = Math.round((process.cpuUsage().user - start) / 1000);
      const density = strip ? densityOf(strip, task, candidate, mm) : null;
      const uses = strip ? [] : usesOf(task, candidate);
      const faults = faultsOf(task, candidate).length;
      return { proved: false, faults, figures: { density, uses, cpuMs } };
    };
  },
  tables: (report) => report.request.efforts.map((work) => workTable(report, work)),
};

function readStrips(file: string | null, root: string): Map<string, Strip> {
  const path = file ?? join(root, 'tests', 'packing-outlines', 'strips');
  const files = statSync(path).isDirectory()
    ? readdirSync(path)
        .filter((name) => name.endsWith('.json'))
        .sort()
        .map((name) => join(path, name))
    : [path];
  const strips = files
    .map((name): unknown => JSON.parse(readFileSync(name, 'utf8')))
    .filter(isStrip);
  return new Map(strips.map((strip) => [strip.name, strip]));
}

function usesOf(task: PackingTask, { sheets }: Run['candidate']): number[] {
  return sheets.map(({ stock, spots }) => {
    const ends = spots.map(
      ({ body, orientation, x }) => x + (task.bodies[body]?.orientations[orientation]?.width ?? 0),
    );
    return Math.max(...ends) / (task.stocks[stock]?.length ?? 1);
  });
}

function workTable({ rows, request }: Report<Figures>, work: string): Table {
  const own = rows.filter(({ effort }) => effort === work);
  const names = [...new Set(own.map(({ instance }) => instance))];
  return {
    title: `Outlines with ${work} units of work: density in percent, one figure a seed`,
    columns: ['instance', 'seconds', ...request.seeds.map((seed) => `seed ${seed}`)],
    rows: names.map((name) => {
      const runs = own.filter(({ instance }) => instance === name);
      const meanMs = sumOf(runs.map(({ figures }) => figures.cpuMs)) / runs.length;
      return [name, seconds(meanMs), ...runs.map(told)];
    }),
    notes: [
      `Seconds of the processor, the mean of the seeds. ${WORKSHOP}: 40 rectangles and 20 curved pieces, of each sheet the share of its length up to which it is used.`,
      faultsNote(own),
    ],
  };
}

function told({ figures }: Row<Figures>): string {
  return figures.density?.toFixed(2) ?? figures.uses.map((use) => use.toFixed(3)).join(' ');
}
