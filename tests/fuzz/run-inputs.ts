import process from 'node:process';
import { drawOf } from './draw.ts';
import type { Reader } from './fuzz-case.ts';
import { type ReaderName, seedOf } from './readers.ts';

/** A fault of one input. */
export interface FoundFault {
  readonly input: number;
  readonly what: string;
}

export interface BatchResult {
  /** Of the inputs, of how many something came. */
  readonly read: number;
  readonly exceptions: number;
  readonly faults: readonly FoundFault[];
  /** How often each code was told. */
  readonly codes: Readonly<Record<string, number>>;
  readonly planned: number;
  /** By the clock of the processor. */
  readonly slowestMs: number;
  readonly slowest: number;
  readonly over: number;
}

export interface Batch {
  readonly name: ReaderName;
  readonly seed: number;
  readonly from: number;
  readonly count: number;
}

/** More faults of one batch tell nothing new. */
const MOST_FAULTS = 20;

/** What no input may take, in milliseconds of the processor. */
export const MOST_MS = 2000;

/** Gives a reader its inputs, one after the other. `clock` gives milliseconds. */
export async function runInputs(
  reader: Reader,
  { name, seed, from, count }: Batch,
  clock: () => number,
): Promise<BatchResult> {
  const faults: FoundFault[] = [];
  const codes = new Map<string, number>();
  const sums = { read: 0, exceptions: 0, planned: 0, slowestMs: 0, slowest: from, over: 0 };
  const add = (input: number, what: string) => {
    if (faults.length < MOST_FAULTS) faults.push({ input, what: what.slice(0, 400) });
  };
  for (let input = from; input < from + count; input++) {
    const { read } = reader(drawOf(seedOf(name, seed, input)));
    const start = clock();
    try {
      const outcome = silently(read, (line) => add(input, `printed: ${line}`));
      const ms = clock() - start;
      if (sums.slowestMs < ms) [sums.slowestMs, sums.slowest] = [ms, input];
      if (MOST_MS < ms) sums.over++;
      if (outcome.isRead) sums.read++;
      for (const code of new Set(outcome.codes)) codes.set(code, (codes.get(code) ?? 0) + 1);
      for (const what of outcome.faults) add(input, what);
      if (outcome.later !== null) {
        sums.planned++;
        for (const what of await outcome.later()) add(input, what);
      }
    } catch (error) {
      sums.exceptions++;
      add(input, error instanceof Error ? (error.stack ?? error.message) : String(error));
    }
  }
  return { ...sums, faults, codes: Object.fromEntries([...codes].toSorted()) };
}

/** Libraries that print what they think of a file would spoil what a command prints. */
function silently<T>(act: () => T, printed: (line: string) => void): T {
  const { log, info, warn, error } = console;
  const [out, err] = [process.stdout, process.stderr].map(({ write }) => write);
  const tell = (...words: unknown[]) => printed(words.join(' '));
  const write = (words: unknown) => {
    printed(String(words));
    return true;
  };
  Object.assign(console, { log: tell, info: tell, warn: tell, error: tell });
  Object.assign(process.stdout, { write });
  Object.assign(process.stderr, { write });
  try {
    return act();
  } finally {
    Object.assign(console, { log, info, warn, error });
    Object.assign(process.stdout, { write: out });
    Object.assign(process.stderr, { write: err });
  }
}
