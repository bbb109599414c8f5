import process from 'node:process';
import { run } from './run.ts';
import { EXIT } from './world.ts';

/** Runs the command of this process and sets its exit code. */
export async function main(): Promise<void> {
  // A reader that closes the pipe early, as `head` does, is no trouble of ours.
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit(0);
    throw error;
  });
  process.exitCode = await run(process.argv.slice(2), {
    cwd: process.cwd(),
    env: process.env,
    out: (text) => process.stdout.write(text),
    err: (text) => process.stderr.write(text),
    outIsTerminal: process.stdout.isTTY === true,
    errIsTerminal: process.stderr.isTTY === true,
    now: () => Date.now(),
    hasThreads: true,
    onInterrupt,
  });
}

/**
 * Takes the signals over for the rest of the process: a listener of ours waits for the code that runs, so files that are being written are all written.
 * One listener at a time is enough.
 */
function onInterrupt(listener: () => void): () => void {
  let first: (() => void) | null = listener;
  const onSignal = () => {
    if (first === null) process.exit(EXIT.interrupted);
    first();
    first = null;
  };
  process.on('SIGINT', onSignal);
  process.on('SIGTERM', onSignal);
  return () => {
    first = null;
  };
}
