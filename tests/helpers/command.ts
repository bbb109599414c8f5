import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { run } from '../../src/cli/run.ts';
import type { World } from '../../src/cli/world.ts';

export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** Runs one command line in this process, as in a pipe without colour, with `folder` as the current one; `other` is what the surroundings have instead. */
export async function holdfast(
  folder: string,
  argv: readonly string[],
  other: Partial<World> = {},
  runner: typeof run = run,
): Promise<Ran> {
  let out = '';
  let err = '';
  const code = await runner(argv, {
    cwd: folder,
    env: {},
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    outIsTerminal: false,
    errIsTerminal: false,
    now: () => 0,
    hasThreads: false,
    onInterrupt: () => () => {},
    interrupts: () => 0,
    guard: (act) => act(),
    ...other,
  });
  return { code, out, err };
}

/** A folder of its own for one test, gone afterwards. */
export function folderWith(files: Readonly<Record<string, string | Uint8Array>> = {}): string {
  const folder = mkdtempSync(join(tmpdir(), 'holdfast-test-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  for (const [name, content] of Object.entries(files)) writeFileSync(join(folder, name), content);
  return folder;
}

/** Every file of a folder with its bytes, by name. */
export function contentsOf(folder: string): Readonly<Record<string, Buffer>> {
  const names = readdirSync(folder).sort();
  return Object.fromEntries(names.map((name) => [name, readFileSync(join(folder, name))]));
}

/** A small job that plans in no time; `extra` goes behind the parts. */
export function smallJob(extra = ''): string {
  return `job: Shelf
unit: mm
machine: { cutter: { diameter: 6 }, spacing: 8 }
materials:
  ply:
    thickness: 18
    family: plywood
    sheets: [{ size: 1200 x 800, price: 40, trim: 10 }]
parts:
  - { name: Side, material: ply, size: 600 x 300, count: 2, grain: along }
  - { name: Block, material: ply, size: 60 x 40, count: 2 }
${extra}`;
}
