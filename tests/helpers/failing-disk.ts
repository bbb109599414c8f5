import type * as fs from 'node:fs';

type Fs = typeof fs;

/** What a disk is asked, by the functions of `node:fs` that throw when it fails. */
const ASKED = [
  'accessSync',
  'chmodSync',
  'closeSync',
  'fstatSync',
  'fsyncSync',
  'lstatSync',
  'mkdirSync',
  'openSync',
  'readFileSync',
  'readSync',
  'readdirSync',
  'realpathSync',
  'renameSync',
  'rmSync',
  'statSync',
  'writeFileSync',
  'writeSync',
] as const;

let calls: string[] | null = null;
let failing: { readonly call: number; readonly code: string } | null = null;

/** The functions of `node:fs`, which fail where `withFailure` says so; for `vi.mock('node:fs', …)`. */
export function failingFs(real: Fs): Fs {
  const wrapped = ASKED.map((name) => {
    const ask = real[name] as (...given: unknown[]) => unknown;
    return [name, (...given: unknown[]) => answer(name, ask, given)];
  });
  return { ...real, ...Object.fromEntries(wrapped) };
}

/** Runs something while the call of this number, counted from 0, fails with the code; none fails where it is null. Gives the names of the calls, too. */
export async function withFailure<T>(
  failure: { readonly call: number; readonly code: string } | null,
  act: () => T | Promise<T>,
): Promise<{ readonly result: T; readonly calls: readonly string[] }> {
  calls = [];
  failing = failure;
  try {
    return { result: await act(), calls };
  } finally {
    calls = null;
    failing = null;
  }
}

function answer(name: string, ask: (...given: unknown[]) => unknown, given: unknown[]): unknown {
  if (calls === null) return ask(...given);
  const isFailing = failing?.call === calls.length;
  calls.push(name);
  if (!isFailing) return ask(...given);
  // A file whose closing fails is closed all the same.
  if (name === 'closeSync') ask(...given);
  const code = failing!.code;
  const path = typeof given[0] === 'string' ? { path: given[0] } : {};
  throw Object.assign(new Error(`${code}: ${name}`), { code, syscall: name, ...path });
}
