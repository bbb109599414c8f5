import type { Problem, ResourceLimits } from '../index.ts';

/** All that a command may know of its surroundings, so that tests can give it others. Files are read and written below `cwd`. */
export interface World extends Surroundings {
  /** How much may be read and written. */
  readonly limits: ResourceLimits;
  /** Writes to the terminal of messages as it is told, also what moves the cursor; `err` makes that visible instead. */
  readonly progress: (text: string) => void;
  /** A folder from which drawings may come besides that of the parts file; null for none. */
  readonly drawingsFrom: string | null;
}

/** What is there before a command and its options are known. */
export interface Surroundings {
  readonly cwd: string;
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  /** Whether results and messages go to a terminal. */
  readonly outIsTerminal: boolean;
  readonly errIsTerminal: boolean;
  /** Milliseconds of some clock; used for progress and for `--seconds` only. */
  readonly now: () => number;
  /** Whether the search may run in threads of its own. */
  readonly hasThreads: boolean;
  /**
   * Calls `listener` the first time the person wants to stop; the result takes it back. From the first listener on a first wish to stop is the command's; before, and from the
   * second wish on, the process ends at once.
   */
  readonly onInterrupt: (listener: () => void) => () => void;
  /** How often the person has wanted to stop so far. Unlike a listener it is heard in the middle of work as well. */
  readonly interrupts: () => number;
  /** Runs what writes files, in whose middle the process is not ended by a wish to stop unless it is the third. */
  readonly guard: <T>(act: () => T) => T;
}

/** Exit codes; the README's table names the same ones. */
export const EXIT = {
  done: 0,
  failed: 1,
  usage: 2,
  ours: 70,
  disk: 74,
  interrupted: 130,
} as const;

/** Ends a command with one clear line for the person and an exit code. */
export class CommandFailure extends Error {
  override readonly name = 'CommandFailure';
  readonly exitCode: number;
  /** What is wrong with a file that it could not go on without, to be said first. */
  readonly found: { readonly file: string; readonly problems: readonly Problem[] } | null;

  constructor(exitCode: number, message: string, found: CommandFailure['found'] = null) {
    super(message);
    this.exitCode = exitCode;
    this.found = found;
  }
}
