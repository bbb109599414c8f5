import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';

/** What a program of the system prints; throws, with the package that has it, where it is missing, and with its own words where it fails. */
export function runTool(program: string, args: readonly string[], debianPackage: string): string {
  try {
    return execFileSync(program, args, { encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] });
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT')
      throw new Error(`${program} is missing: it is in the package ${debianPackage}`);
    throw error;
  }
}

/** Where a program of the system lies; throws, with the package that has it, where it is missing. */
export function findTool(program: string, debianPackage: string): string {
  const folders = (process.env.PATH ?? '').split(delimiter).filter(Boolean);
  const found = folders.map((folder) => join(folder, program)).find((path) => existsSync(path));
  if (found === undefined)
    throw new Error(`${program} is missing: it is in the package ${debianPackage}`);
  return found;
}
