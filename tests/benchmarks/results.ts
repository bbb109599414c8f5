import { appendFileSync, existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join, relative } from 'node:path';
import { EFFORTS } from '../../src/model/plan.ts';
import type { Report, Row, Task } from './benchmark.ts';
import type { Request } from './request.ts';
import { markdownTable, type Table } from './table.ts';

/** Rows of one commit by what was run; where it was run twice, the newer. */
export type Rows = ReadonlyMap<string, Row>;

export function indexRows(rows: readonly Row[], commit: string): Rows {
  return new Map(rows.filter((row) => row.commit === commit).map((row) => [keyOf(row), row]));
}

/** The row that makes running a task needless: its own, or one at a lower effort that proves its figure. */
export function settledBy(rows: Rows, task: Task): Row | null {
  const own = rows.get(keyOf(task));
  if (own !== undefined) return own;
  const lower = lowerRow(rows, task);
  return lower?.proved ? lower : null;
}

/** The row of the same task at the highest effort below its own. */
export function lowerRow(rows: Rows, task: Task): Row | null {
  const below = EFFORTS.slice(0, Math.max(0, (EFFORTS as readonly string[]).indexOf(task.effort)));
  for (const effort of below.reverse()) {
    const row = rows.get(keyOf({ ...task, effort }));
    if (row !== undefined) return row;
  }
  return null;
}

function keyOf({ instance, variant, seed, effort }: Task): string {
  return `${instance} ${variant} ${seed} ${effort}`;
}

export function readRows(root: string, benchmark: string): Row[] {
  const path = rowsPath(root, benchmark);
  return existsSync(path) ? parseLines<Row>(readFileSync(path, 'utf8')) : [];
}

/** Rows of JSON lines; a line that was cut off when a run was stopped is no row. */
export function parseLines<T>(text: string): T[] {
  return text.split('\n').flatMap((line): T[] => {
    try {
      return [JSON.parse(line)];
    } catch {
      return [];
    }
  });
}

export function writeRow(root: string, benchmark: string, row: Row): void {
  mkdirSync(rowsFolder(root), { recursive: true });
  // The line break comes first, so that a line that was cut off spoils no other.
  appendFileSync(rowsPath(root, benchmark), `\n${JSON.stringify(row)}`);
}

/** Writes the tables as Markdown and gives the path; a sample goes to the rows, where no one publishes it by mistake. */
export function writeReport(root: string, report: Report, tables: readonly Table[]): string {
  const { benchmark, efforts, only, every } = report.request;
  const sample = only.length > 0 || every > 1;
  const name = [benchmark, ...efforts, ...(sample ? ['sample'] : [])].join('-');
  const path = join(sample ? rowsFolder(root) : resultsFolder(root), `${name}.md`);
  mkdirSync(rowsFolder(root), { recursive: true });
  const parts = [`# ${title(report.request)}`, circumstances(report), ...tables.map(markdownTable)];
  writeFileSync(path, `${parts.join('\n\n')}\n`);
  return relative(root, path);
}

function title({ benchmark, efforts }: Request): string {
  return `${benchmark}, ${efforts.join(' and ')}`;
}

function circumstances({ request, rows }: Report): string {
  const commits = [...new Set(rows.map(({ commit }) => commit))].join(', ');
  const machine = `node ${process.version}, ${availableParallelism()} cores, ${request.jobs} at a time`;
  const { seeds } = request;
  return `Commit ${commits}; ${machine}; seed ${seeds.join(', ')}.`;
}

function resultsFolder(root: string): string {
  return join(root, 'tests', 'benchmarks', 'results');
}

function rowsFolder(root: string): string {
  return join(resultsFolder(root), 'rows');
}

function rowsPath(root: string, benchmark: string): string {
  return join(rowsFolder(root), `${benchmark}.jsonl`);
}
