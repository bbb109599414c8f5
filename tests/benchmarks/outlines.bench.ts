import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { it } from 'vitest';
import { packingTask } from '../../src/packing/bodies.ts';
import type { PackingTask } from '../../src/packing/task.ts';
import { type Run, runTask } from '../packing-outlines/pack.ts';
import { faultsOf } from '../packing-outlines/second-look.ts';
import { densityOf, isStrip, type Strip, stripTask } from '../packing-outlines/strips.ts';
import { workshopJob } from '../packing-outlines/workshop-job.ts';

/**
 * HOLDFAST_STRIPS is a strip file or a folder of them (default: those of the tests), HOLDFAST_WORK a list of amounts of work,
 * HOLDFAST_SEEDS how many seeds are tried. A unit of a strip file is taken as a millimetre, or a tenth of one where the strip is too wide for a sheet.
 */
const STRIPS =
  process.env.HOLDFAST_STRIPS ?? join(import.meta.dirname, '../packing-outlines/strips');
const WORKS = (process.env.HOLDFAST_WORK ?? '1e8').split(',').map(Number);
const SEEDS = Array.from({ length: Number(process.env.HOLDFAST_SEEDS ?? 1) }, (_, k) => k + 1);

const MOST_WIDTH = 1500;

it.each(WORKS)('strips with %d units of work', (work) => {
  for (const strip of readStrips(STRIPS)) {
    const mm = strip.stripWidth > MOST_WIDTH ? 0.1 : 1;
    const runs = SEEDS.map((seed) => timed(stripTask(strip, mm), { work, seed }));
    const densities = runs.map(({ task, candidate }) =>
      densityOf(strip, task, candidate, mm).toFixed(2),
    );
    print(`${strip.name.padEnd(12)} ${densities.join(' ')} % ${costs(runs)}`);
  }
});

it.each(WORKS)('40 rectangles and 20 curved pieces with %d units of work', (work) => {
  const runs = SEEDS.map((seed) => timed(packingTask(workshopJob(), 0), { work, seed }));
  for (const { task, candidate } of runs)
    print(`${task.bodies.length} pieces: ${usesOf(task, candidate)}`);
  print(costs(runs));
});

interface TimedRun extends Run {
  readonly seconds: number;
}

function timed(task: PackingTask, input: { work: number; seed: number }): TimedRun {
  const start = process.cpuUsage().user;
  const run = runTask(task, input);
  return { ...run, seconds: (process.cpuUsage().user - start) / 1e6 };
}

function costs(runs: readonly TimedRun[]): string {
  const seconds = runs.reduce((sum, run) => sum + run.seconds, 0) / runs.length;
  const faults = runs.reduce(
    (sum, { task, candidate }) => sum + faultsOf(task, candidate).length,
    0,
  );
  return `${seconds.toFixed(2)} s, ${faults} faults`;
}

/** Of each sheet the share of its length up to which it is used. */
function usesOf(task: PackingTask, { sheets }: Run['candidate']): string {
  return sheets
    .map(({ stock, spots }) => {
      const ends = spots.map(
        ({ body, orientation, x }) =>
          x + (task.bodies[body]?.orientations[orientation]?.width ?? 0),
      );
      return (Math.max(...ends) / (task.stocks[stock]?.length ?? 1)).toFixed(3);
    })
    .join(' ');
}

function readStrips(path: string): Strip[] {
  const files = statSync(path).isDirectory()
    ? readdirSync(path)
        .filter((name) => name.endsWith('.json'))
        .sort()
        .map((name) => join(path, name))
    : [path];
  return files.map((file): unknown => JSON.parse(readFileSync(file, 'utf8'))).filter(isStrip);
}

function print(line: string): void {
  process.stdout.write(`${line}\n`);
}
