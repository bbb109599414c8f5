import { resolve } from 'node:path';
import type { Report, Row, Task } from './benchmark.ts';
import { BENCHMARKS } from './benchmarks.ts';
import { commitOf } from './commit.ts';
import { parseRequest, type Request } from './request.ts';
import { indexRows, lowerRow, readRows, settledBy, writeReport, writeRow } from './results.ts';
import { runTasks } from './run-tasks.ts';
import { drawnOf, selectedOf } from './selection.ts';
import { plainTable } from './table.ts';

/** Runs one command line; `root` is the project's folder, paths of the user's are seen from `from`. Gives the exit code: 1 where a layout has faults. */
export async function main(argv: readonly string[], root: string, from: string): Promise<number> {
  // A reader that closes the pipe early, as `head` does, is no trouble of ours.
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
  });
  const asked = parseRequest(argv.length === 0 ? ['--help'] : argv, print);
  if (typeof asked === 'number') return asked;
  const request = { ...asked, file: asked.file === null ? null : resolve(from, asked.file) };
  let tasks: Task[];
  try {
    tasks = tasksOf(request, root);
  } catch (error) {
    // A file that cannot be read, or a selection of nothing: the message tells all.
    process.stderr.write(`${error instanceof Error ? error.message : error}\n`);
    return 1;
  }
  const report = await run(request, root, tasks);
  const tables = BENCHMARKS[request.benchmark].tables(report);
  for (const table of tables) print(`${plainTable(table)}\n`);
  print(`Written to ${writeReport(root, report, tables)}\n`);
  return report.rows.some(({ faults }) => faults > 0) ? 1 : 0;
}

/** All that the request selects, before any draw. */
function tasksOf(request: Request, root: string): Task[] {
  const { variants, variantsOf, instances } = BENCHMARKS[request.benchmark];
  const has = variantsOf?.(request.file, root) ?? (() => variants);
  const selected = selectedOf(instances(request.file, root, request.count), request);
  if (selected.length === 0) throw new Error('no instance is selected');
  return request.efforts.flatMap((effort) =>
    (request.variants.length > 0 ? request.variants : variants).flatMap((variant) =>
      selected
        .filter((instance) => has(instance).includes(variant))
        .flatMap((instance) =>
          request.seeds.map((seed): Task => ({ instance, variant, seed, effort })),
        ),
    ),
  );
}

/** Runs what has no row yet. */
async function run(request: Request, root: string, selected: readonly Task[]): Promise<Report> {
  const commit = commitOf(root);
  const known = indexRows(readRows(root, request.benchmark), commit);
  const kept = request.fresh ? indexRows([], commit) : known;
  const tasks = request.draw === null ? selected : drawnOf(selected, known, request.draw);
  const settled = new Map(tasks.map((task) => [task, settledBy(kept, task)]));
  const due = tasks.filter((task) => settled.get(task) === null);
  const ran = new Map<Task, Row>();
  const tell = teller(due.length);
  await runTasks({ request, root, tasks: due }, (task, measured) => {
    const row: Row = { ...task, commit, ...measured };
    writeRow(root, request.benchmark, row);
    ran.set(task, row);
    tell(ran.size);
  });
  const before = request.draw === null ? [] : tasks.flatMap((task) => lowerRow(known, task) ?? []);
  return {
    request,
    rows: tasks.flatMap((task) => ran.get(task) ?? settled.get(task) ?? []),
    before: before.length === tasks.length ? before : [],
    drawnFrom:
      request.draw === null
        ? null
        : selected.filter((task) => !lowerRow(known, task)?.proved).length,
  };
}

const TELL_EVERY_MS = 10_000;

/** Tells the one who waits, now and then, how far the run is. */
function teller(all: number): (done: number) => void {
  let last = performance.now();
  return (done) => {
    if (performance.now() - last < TELL_EVERY_MS) return;
    last = performance.now();
    process.stderr.write(`${done} of ${all} runs\n`);
  };
}

function print(text: string): void {
  process.stdout.write(text);
}
