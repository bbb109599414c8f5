import { appendFileSync, existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { dirname } from 'node:path';
import { parseLines } from '../benchmarks/results.ts';
import type { Verdict } from './run-tests.ts';

/** What a test file said, or the compiler; it holds as long as nothing has changed that the file imports. */
export interface Row extends Omit<Verdict, 'outcome'> {
  /** The fault's key; empty for none. */
  readonly fault: string;
  readonly outcome: Verdict['outcome'] | 'types hold' | 'types broken';
  /** Of the file and all that it imports, without the fault. */
  readonly digest: string;
}

/** What is kept between runs, so that a run goes on where one was stopped. */
export interface Rows {
  readonly get: (fault: string, file: string, digest: string) => Row | null;
  /** The test file that caught a fault when it was run last, whatever has changed since. */
  readonly lastCatcher: (fault: string) => string | null;
  /** What a test file took when it passed last; 0 where it never did. */
  readonly lastSeconds: (file: string) => number;
  readonly add: (row: Row) => void;
}

export function openRows(path: string, fresh: boolean): Rows {
  if (fresh) rmSync(path, { force: true });
  const kept = existsSync(path) ? parseLines<Row>(readFileSync(path, 'utf8')) : [];
  const rows = new Map(kept.map((row) => [nameOf(row), row]));
  const catchers = new Map(kept.filter(isCatch).map(({ fault, file }) => [fault, file]));
  const seconds = new Map(kept.map((row) => [row.file, row.seconds]));
  return {
    get: (fault, file, digest) => rows.get(nameOf({ fault, file, digest })) ?? null,
    lastCatcher: (fault) => catchers.get(fault) ?? null,
    lastSeconds: (file) => seconds.get(file) ?? 0,
    add: (row) => {
      rows.set(nameOf(row), row);
      mkdirSync(dirname(path), { recursive: true });
      // The line break comes first, so that a line that was cut off spoils no other.
      appendFileSync(path, `\n${JSON.stringify(row)}`);
    },
  };
}

function isCatch({ outcome }: Row): boolean {
  return outcome === 'failed' || outcome === 'late' || outcome === 'ended';
}

function nameOf({ fault, file, digest }: Pick<Row, 'fault' | 'file' | 'digest'>): string {
  return `${fault} ${file} ${digest}`;
}
