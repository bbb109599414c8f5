import { resolve } from 'node:path';
import process from 'node:process';
import { beforeAll, describe, expect, it } from 'vitest';
import { drawOf } from './draw.ts';
import type { Reader } from './fuzz-case.ts';
import { READERS, type ReaderName, readersOf, seedOf } from './readers.ts';
import { runInputs } from './run-inputs.ts';

const ROOT = resolve(import.meta.dirname, '..', '..');

/** `FUZZ=yaml:1:12345` makes input 12345 of seed 1 again and shows it. */
const AGAIN = process.env.FUZZ?.split(':');

let readers: Readonly<Record<ReaderName, Reader>>;

beforeAll(async () => {
  readers = await readersOf(ROOT);
});

describe('whatever is given to a reader', () => {
  it.each(READERS)('%s: it is read, or problems tell why not', async (name) => {
    if (AGAIN !== undefined && AGAIN[0] !== name) return;
    const [, seed = 20, from = 0] = (AGAIN ?? []).map(Number);
    if (AGAIN !== undefined)
      process.stdout.write(readers[name](drawOf(seedOf(name, seed, from))).shown);
    const batch = { name, seed, from, count: AGAIN === undefined ? 120 : 1 };
    const { faults, read, codes } = await runInputs(readers[name], batch, () => 0);
    expect(faults).toEqual([]);
    if (AGAIN !== undefined) return;
    // It is no test of a reader where nothing is right, or nothing wrong.
    expect(read).toBeGreaterThan(2);
    expect(Object.keys(codes).length).toBeGreaterThan(3);
  });
});
