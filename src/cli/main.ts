import process from 'node:process';
import { run } from './run.ts';
import { EXIT, type World } from './world.ts';

/** Runs the command of this process and sets its exit code. */
export async function main(): Promise<void> {
  // A reader that closes the pipe early, as `head` does, is no trouble of ours.
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit(0);
    throw error;
  });
  const onInterrupt = interrupts();
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
 * Takes the signals over, because a listener of ours waits for the code that runs: files that are being written are all written.
 * One listener at a time is enough.
 */
function interrupts(): World['onInterrupt'] {
  let first: (() => void) | null = null;
  const onSignal = () => {
    if (first === null) {
      const clear = process.stderr.isTTY ? '\r\u001b[K' : '';
      process.stderr.write(`${clear}holdfast: stopped at once\n`);
      process.exit(EXIT.interrupted);
    }
    first();
    first = null;
  };
  process.on('SIGINT', onSignal);
  process.on('SIGTERM', onSignal);
  return (listener) => {
    first = listener;
    if (listener === null) {
      process.off('SIGINT', onSignal);
      process.off('SIGTERM', onSignal);
    }
    return () => {
      first = null;
    };
  };
}
