import { Command, CommanderError } from 'commander';
import { listed, whole } from '../benchmarks/request.ts';

/** What one command line asks for. */
export interface Request {
  readonly seed: number;
  /** How many faults a folder gets. */
  readonly each: number;
  /** Numbers of faults, or beginnings of their paths; empty for all. */
  readonly only: readonly string[];
  readonly list: boolean;
  /** Only the tests near a file are run. */
  readonly near: boolean;
  readonly fresh: boolean;
}

/** The request of a command line, or the exit code of one that asks for help or is wrong. */
export function parseRequest(
  argv: readonly string[],
  write: (text: string) => void,
): Request | number {
  const program = new Command('npm run mutations --')
    .description(
      'Puts faults into the sources, one at a time, on a copy, and says which test catches it; see "Testing" in DEVELOPERS.md.',
    )
    .option('--seed <n>', 'seed of the places', whole, 1)
    .option('--each <n>', 'how many faults a folder gets', whole, 6)
    .option('--only <list>', 'numbers of faults, or beginnings of paths: 3,src/verify', listed, [])
    .option('--list', 'say which faults there are and run no test', false)
    .option(
      '--near',
      'run only the tests of the same folder, and those that import the file themselves',
      false,
    )
    .option('--fresh', 'run again what has been run', false)
    .exitOverride()
    .configureOutput({ writeOut: write, writeErr: write });
  try {
    return program.parse([...argv], { from: 'user' }).opts<Request>();
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode;
    throw error;
  }
}
