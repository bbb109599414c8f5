import { execFileSync } from 'node:child_process';

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
