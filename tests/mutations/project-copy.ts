import { spawnSync } from 'node:child_process';
import {
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  realpathSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { applied, type Fault } from './faults.ts';

const LEFT_OUT = ['node_modules', 'dist', 'coverage', '.git'];

/** Copies the project into a folder of its own, which goes when the process ends; what is installed is shared, but not its caches. */
export function copyProject(root: string): string {
  const copy = realpathSync(mkdtempSync(join(tmpdir(), 'holdfast-mutations-')));
  process.on('exit', () => rmSync(copy, { recursive: true, force: true, maxRetries: 5 }));
  for (const name of readdirSync(root).filter((each) => !LEFT_OUT.includes(each)))
    cpSync(join(root, name), join(copy, name), { recursive: true });
  const installed = join(root, 'node_modules');
  mkdirSync(join(copy, 'node_modules'));
  for (const name of readdirSync(installed).filter((each) => !each.startsWith('.')))
    symlinkSync(join(installed, name), join(copy, 'node_modules', name));
  return copy;
}

/** Does something while faults are in the copy, one a file. */
export async function withFaults<T>(
  copy: string,
  faults: readonly Fault[],
  texts: ReadonlyMap<string, string>,
  act: () => T | Promise<T>,
): Promise<T> {
  for (const fault of faults)
    writeFileSync(join(copy, fault.file), applied(fault, texts.get(fault.file)!));
  try {
    return await act();
  } finally {
    for (const { file } of faults) writeFileSync(join(copy, file), texts.get(file)!);
  }
}

/** The sources of the copy that are not sound as to their types. */
export function wrongFiles(copy: string): string[] {
  const compiler = join(copy, 'node_modules', 'typescript', 'bin', 'tsc');
  const remembered = join(copy, 'node_modules', '.types');
  const argv = ['--noEmit', '--incremental', '--tsBuildInfoFile', remembered, '--pretty', 'false'];
  const { status, stdout, stderr } = spawnSync(process.execPath, [compiler, ...argv], {
    cwd: copy,
    encoding: 'utf8',
  });
  const files = [...stdout.matchAll(/^(src\/\S+\.ts)\(/gm)].map(([, file]) => file!);
  if (status !== 0 && files.length === 0) throw new Error(`no types: ${stdout}${stderr}`);
  return [...new Set(files)];
}
